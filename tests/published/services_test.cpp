// What the services around the rip charge in settings that are not the examples' own: who rides,
// what is hauled, what a single pass pays. Worked by hand from the season's prices; where the trade
// has no document the rule is common practice, no source.
#include <cmath>
#include <string>

#include "tests/published/by_hand.h"
#include "tests/support/demo.h"

namespace services_test {

using namespace acre::tests;
using namespace acre::tests::by_hand;

namespace {

// A trailer there and back twice, with an hour and a half of loading, at $178.
double trailer(double miles) {
    return 2 * (miles / 35 + miles / 48 + 1.5) * 178;
}

} // namespace

// A tractor pulls a disc or a scraper: who discs hauls no scraper. All three go where all is done.
TEST_CASE("a service hauls what it uses, and the tractor once") {
    CHECK(Demo("11-disc-and-float")["move_in_and_out.cost"] == doctest::Approx(2 * trailer(34)));
    CHECK(Demo("12-level")["move_in_and_out.cost"] == doctest::Approx(2 * trailer(34)));
    const Demo whole("14-old-block-to-rows");
    CHECK(whole["move_tractor.lowbed.amount"] + whole["move_disc.lowbed.amount"] +
              whole["move_scraper.lowbed.amount"] ==
          doctest::Approx(3 * trailer(46)));
}

// Two days of two shifts: a pickup each, two people in it, and the ride home after twelve hours is
// paid double (Morillion v. Royal Packing, 2000: the ride is working time; Labor Code 860: double
// over twelve hours).
TEST_CASE("a crawler by the hour brings its crew, who ride or stay") {
    const double trip = 2 * 61 * 0.72 + 2 * (2 * 61 / 50.0) * 2 * 36.50 * (1.22 + 0.075);
    const Demo home("20-by-the-hour");
    CHECK(home["crew_there_and_back.cost"] == doctest::Approx(2 * 2 * trip));
    CHECK(home["crew_there_and_back.amount"] == up(sold(4 * trip), 5));
    // Three people for two nights; one ride of each pickup, paid straight.
    const Demo away("20-by-the-hour", "", {{"site.sleeps", "away"}});
    CHECK(away["nights_away.amount"] == doctest::Approx(3 * 2 * 165));
    CHECK(away["crew_travel.amount"] ==
          doctest::Approx(2 * (2 * 61 * 0.72 + (2 * 61 / 50.0) * 2 * 36.50 * (1.22 + 0.075))));
}

TEST_CASE("who only floats pays no discing, and who only discs no floating") {
    const Demo floats("11-disc-and-float", "", {{"disc_passes", "0"}}),
        discs("11-disc-and-float", "", {{"float_passes", "0"}}), both("11-disc-and-float");
    CHECK(floats["discing.amount"] == 0);
    CHECK(discs["floating.amount"] == 0);
    // 118 ac at 14 ft and 4.5 mi/h, 80 % of it: 19.32 h, three days of nine hours that fit.
    const double hours = 118 / (14 * 4.5 * 0.80 / 8.25);
    const double ride = 2 * 34 * 0.72 + 1.5 * 2 * 34 / 50.0 * 36.50 * (1.22 + 0.075);
    CHECK(floats["crew_trips"] == std::ceil(hours / 9));
    CHECK(floats["float_travel.amount"] == doctest::Approx(3 * ride));
    CHECK(both["crew_travel.amount"] + both["float_travel.amount"] == doctest::Approx(6 * ride));
    const Demo small("11-disc-and-float", "", {{"disc_passes", "0"}, {"area", "5 ac"}});
    CHECK(small["discing.amount"] + small["floating.amount"] == 2'500);
}

TEST_CASE("roots are picked by the acre, with the trees alone or in the whole job") {
    const auto hours = [](const std::string& acres) {
        return Demo::of_text(
            "job \"o\"\nmodel \"orchard\"\nseason \"2027\"\nset area = " + acres +
            "\nset old_rows = 24 ft\nset old_trees = 20 ft\nset new_trees = 15 ft\n"
            "set site.miles = 46 mi\n")["root_hours"];
    };
    CHECK(hours("38 ac") == doctest::Approx(Demo("10-trees-out")["root_hours"]));
    CHECK(hours("5 ac") == doctest::Approx(15));
}

TEST_CASE("more excavators than a pickup seats need another, and a buyer may pay for chips") {
    CHECK(Demo("10-trees-out")["pickups"] == 1);
    CHECK(Demo("10-trees-out", "", {{"move_pullers.excavators", "5"}})["pickups"] == 3);
    const Demo costs("10-trees-out", "Chips hauled away", {{"chip_haul", "$0/ton"}}),
        pays("10-trees-out", "Chips hauled away", {{"chip_haul", "-$6/ton"}});
    const double tons = 38 * 43'560.0 / (24 * 20) * 0.92 * 0.38;
    CHECK(costs["grinding.cost"] - pays["grinding.cost"] == doctest::Approx(6 * tons));
}

} // namespace services_test
