// Answers of the table in examples/README.md about ripping, worked by hand (by_hand.h).
#include <tuple>
#include <vector>

#include "tests/published/by_hand.h"

namespace asked_rips_test {

using namespace acre::tests;
using namespace acre::tests::by_hand;

namespace {

// To the four figures, or the cents, that a page shows.
doctest::Approx near(double value, double share = 2e-4) {
    return doctest::Approx(value).epsilon(share);
}
doctest::Approx cents(double value) {
    return doctest::Approx(value).epsilon(1e-7);
}

constexpr double home = 118, home_miles = 34; // jobs 01 and 02
const Ripped first = ripped({full_field(home, 7, 1'250)}, home_miles);
double first_price() {
    return rate(first, home) * home + moved(move_cost(home_miles));
}

} // namespace

TEST_CASE("a hundred fifty-six acres: net acres, rate and bid; then both ways") {
    const double net = 156 * 0.935, move = moved(move_cost(52, 2));
    const double one_way = rate(ripped({full_field(net, 7.5, 2'480)}, 52), net);
    const std::vector<double> bid = answered(1);
    CHECK(bid[0] == near(net));
    CHECK(bid[1] == one_way);
    CHECK(bid[2] == cents(one_way * net + move));
    // The second way 8.5 ft apart, 1.4 times as fast: power allows more at 65 % of the pull.
    const std::vector<Way> both = {full_field(net, 7.5, 2'480), full_field(net, 8.5, 2'400, 2.1)};
    const std::vector<double> ways = answered(3);
    CHECK(ways[0] == bid[2]);
    CHECK(ways[1] == cents(rate(ripped(both, 52), net) * net + move));
}

TEST_CASE("full field, or two pulls or one for each tree row") {
    const std::vector<double> answer = answered(4);
    const int lines[] = {3, 2, 1}; // three pulls of 7 ft make a row of 21
    for (int i = 0; i < 3; ++i) {
        const Ripped r = ripped({tree_rows(41, 21, lines[i], 1'180)}, 18);
        CHECK(answer[static_cast<std::size_t>(i)] ==
              doctest::Approx(rate(r, 41) + moved(move_cost(18)) / 41).epsilon(1e-5));
    }
}

TEST_CASE("tighter pulls, and short rows") {
    const double move = moved(move_cost(home_miles)) / home;
    const auto all_in = [&](double spacing, double run) {
        return rate(ripped({full_field(home, spacing, run)}, home_miles), home) + move;
    };
    const std::vector<double> tighter = answered(5), rows = answered(6);
    CHECK(tighter[0] == near(all_in(7, 1'250), 1e-5));
    CHECK(tighter[1] == near(all_in(6, 1'250), 1e-5));
    CHECK(tighter[2] == near(all_in(5, 1'250), 1e-5));
    CHECK(rows[0] == near(all_in(7, 420), 1e-5)); // cut in three by the standpipes
    CHECK(rows[1] == tighter[0]);
    CHECK(rows[2] == near(all_in(7, 420) - all_in(7, 1'250), 1e-5));
}

TEST_CASE("three fields under one move, or three moves") {
    const double acres = 62 + 28 + 37;
    const Ripped r =
        ripped({full_field(62, 7, 1'260), full_field(28, 7, 760), tree_rows(37, 22, 2, 1'250)}, 46);
    // Two hops of 1.4 mi at 3 mi/h, the crawler running with its operator.
    const double walking = 2 * 1.4 / 3 * (operating() + Shifts().operator_hour() * 12 / 11);
    const std::vector<double> answer = answered(8);
    CHECK(answer[0] == near(rate(r, acres) + moved(move_cost(46) + walking) / acres, 1e-5));
    CHECK(answer[1] == near(rate(r, acres) + moved(move_cost(46, 1, 6)) / acres, 1e-5));
}

TEST_CASE("acres and days that keep the crawler busy for a year") {
    CHECK(answered(13)[0] == near(2'300 * home / first.hours, 3e-4));
    CHECK(std::round(2'300 / (22 * 0.90)) == 116);
}

TEST_CASE("three eights: an hour less at half more, and an hour of service more a day") {
    const Shifts three{3, 8, eights, 1.5}; // the ride after 8 h at one and a half
    const Ripped r = ripped({full_field(home, 7, 1'250)}, home_miles, three);
    const std::vector<double> answer = answered(14);
    CHECK(answer[0] == cents(rate(r, home) * home + moved(move_cost(home_miles, 1, 2, three))));
    CHECK(answer[1] == cents(first_price()));
}

TEST_CASE("hours and days in the field, and points on the truck") {
    const std::vector<double> field = answered(15);
    CHECK(field[0] == near(first.hours, 5e-4));
    CHECK(field[1] == first.days);
    CHECK(answered(16)[0] == std::ceil(first.ground / 45) + 1);
}

TEST_CASE("all of the way in slow ground goes at 60 % of the pace") {
    const Way way = full_field(home, 7, 1'250);
    const Ripped slow = ripped({{way.miles / 0.60, way.pulls, way.speed}}, home_miles);
    const double move = moved(move_cost(home_miles));
    const std::vector<double> answer = answered(17);
    CHECK(answer[0] == cents(rate(slow, home) * home + move));
    CHECK(answer[1] == cents(first_price()));
    CHECK(answer[2] == near(rate(slow, home) + move / home, 1e-5));
}

// The dock posted $4.61 and $4.69 over a base of $4.47: one whole dime and two. A step is a dime on
// the gallons of an acre, to the cent; the acres of each week are the log's.
TEST_CASE("steps of a dime on the gallons of an acre, by the week") {
    const std::vector<double> answer = answered(18);
    REQUIRE(answer.size() == 7);
    const double gallons = burn * first.hours / home;
    const auto steps = [&](double posted) { return std::floor((posted - 4.47) / 0.10 + 1e-9); };
    CHECK(answer[2] == 4.47);
    for (const auto& [posted, acres, charged] :
         {std::tuple{answer[0], answer[3], answer[4]}, std::tuple{answer[1], answer[5], answer[6]}})
        CHECK(
            charged ==
            cents(std::round(std::round(gallons * steps(posted) * 10) / 100 * acres * 100) / 100));
    CHECK(answer[3] + answer[5] == doctest::Approx(home));
}

TEST_CASE("three cells of the price card, and its nearest move") {
    const std::vector<double> answer = answered(24);
    const Way one = full_field(home, 7, 1'250), across = full_field(home, 7, 1'250, 2.1);
    const auto cell = [](const std::vector<Way>& ways) {
        return up(rate(ripped(ways, home_miles), home), 5);
    };
    CHECK(answer[0] == cell({one}));
    CHECK(answer[1] == cell({one, across}));
    CHECK(answer[2] == cell({tree_rows(home, 22, 2, 1'250)}));
    CHECK(answer[3] == moved(move_cost(10)));
}

TEST_CASE("begin taking it down in time, and the day the job is done") {
    // Off the road by 7:30 pm: 205 mi at 35 mi/h, 2.5 h of loading; two mechanics take the blade
    // off in 5 h and the ripper in 4.
    const double begin = 19.5 - 205 / 35.0 - 2.5 - (5 + 4) / 2.0;
    CHECK(std::floor(begin) == 6);
    CHECK(std::round((begin - 6) * 60) == 39); // 6:39 am
    // Three shifts lost each way are two days; from Monday, August 2, six days a week.
    const double days = 2 + ripped({full_field(310, 7, 2'520)}, 205).days + 2;
    int day = 0;
    for (int work = 0; work < days; ++day)
        work += day % 7 != 6 ? 1 : 0;
    CHECK(day + 1 == 24); // August 24
}

} // namespace asked_rips_test
