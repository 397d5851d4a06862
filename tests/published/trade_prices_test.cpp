// The rate models against the trade: what their prices must lie between, and what hand arithmetic
// says when a figure moves.
#include <cmath>
#include <tuple>

#include "tests/support/demo.h"

namespace acre::tests {
namespace {

TEST_CASE("every example prices, and so does every option that is not there to be refused") {
    for (const auto& path : demo_files("examples", ".job")) {
        const std::string name = path.stem().string();
        CAPTURE(name);
        if (name == "16-from-a-map") // its acres come from a boundary, which is a file beside it
            continue;
        Demo job(name);
        CHECK(job.estimate().price_cents > 0);
        for (const std::string& option : job.sheet().job.options) {
            CAPTURE(option);
            if (name == "08-hard-pan" && (option == "Three shanks" || option == "Seven feet"))
                continue;
            if (name == "19-into-the-pan" && option == "Points worn down")
                continue;
            CHECK(Demo(name, option).estimate().price_cents > 0);
        }
    }
}

// Low gear pulls most at 1 to 1.5 mi/h (slides of a university lecture on ripping): at 6 ft and
// more nothing goes faster in ground that nobody has broken.
TEST_CASE("at six feet and deeper a crawler rips at the trade's 1 to 1.5 mi/h") {
    for (const char* name : {"01-first-price", "04-crossed", "06-far-away", "08-hard-pan",
                             "17-rip-only", "19-into-the-pan"}) {
        CAPTURE(name);
        const Demo job(name);
        CHECK(job["speed"] >= 1);
        CHECK(job["speed"] <= 1.5);
    }
    const Demo plow("04-crossed", "Slip plow");
    CHECK(plow["speed"] < 1.5);
    const Demo deep("01-first-price", "", {{"depth", "6.5 ft"}}),
        shallow("01-first-price", "", {{"depth", "5 ft"}});
    CHECK(deep["speed"] < 1.5);
    CHECK(shallow["speed"] > 1.5);
}

// Pace and fuel suggested for tests of this trade: our own arithmetic, for plausibility. What
// prices lie between is in price_ranges_test.cpp.
TEST_CASE("pace and fuel are a crawler's") {
    const Demo job("01-first-price");
    CHECK(job["acres_per_shift"] >= 6);
    CHECK(job["acres_per_shift"] <= 14);
    CHECK(job["gallons_per_acre"] >= 20);
    CHECK(job["gallons_per_acre"] <= 45);
}

// Site preparation in the US South (Alabama Extension, forestry costs): one pass costs 33 % less
// than two in 2018 and 51 % less in 2016, so two passes are 1.49 to 2.04 times one.
TEST_CASE("ripping both ways costs one and a half to two times one way") {
    const double ratio =
        Demo("04-crossed", "Crossed")["ripping.cost"] / Demo("04-crossed")["ripping.cost"];
    CHECK(ratio >= 1 / (1 - 0.33));
    CHECK(ratio <= 1 / (1 - 0.51));
}

// Two ends of 35 ft on a row of 1,320 ft leave 94.7 % (pistachio orchard management, UC: row break
// every quarter mile, 35 ft to turn): what plant.rate takes as the planted share.
TEST_CASE("trees an acre come from row width and tree spacing") {
    const Demo job("13-plant");
    CHECK(job["trees_per_acre"] == doctest::Approx(43560.0 / (21 * 16) * 0.95));
    const Demo wide =
        Demo("13-plant", "",
             {{"row_width", "22 ft"}, {"tree_spacing", "14 ft"}, {"planted_share", "100 %"}});
    CHECK(wide["trees_per_acre"] ==
          doctest::Approx(141.4).epsilon(0.001)); // trees an acre at 22 by 14, any orchard handbook
}

// Common practice, no source: two 12-hour shifts give 22 machine hours; 45 gal/h at 930 hp; 1,000
// to 1,200 gal a day.
TEST_CASE("a day in season is 22 meter hours and a tanker of fuel") {
    const Demo job("01-first-price", "", {{"crawler.power", "930 hp"}});
    CHECK(job["crew.meter_per_day"] == 22);
    CHECK(job["crawler.burn"] == doctest::Approx(45).epsilon(0.05));
    CHECK(job["crawler.burn"] * job["crew.meter_per_day"] > 900);
    CHECK(job["crawler.burn"] * job["crew.meter_per_day"] < 1200);
}

// California Wage Order 14: six days of 12 h are 40 h straight and 32 h at one and a half, 88 h
// paid for 72; at 14 h a day 2 h more each day are double: 40 + 1.5 × 32 + 2 × 12 = 112 for 84; at
// 10 h, 40 + 1.5 × 20 = 70 for 60. A ride home after 12 h is paid double, after 10 h half more.
TEST_CASE("an hour is paid once: straight, one and a half, or double") {
    CHECK(Demo("01-first-price")["crew.paid_share"] == doctest::Approx(88.0 / 72));
    CHECK(Demo("06-far-away", "Off season, one shift")["crew.paid_share"] ==
          doctest::Approx(70.0 / 60));
    CHECK(Demo("06-far-away", "Off season, one shift",
               {{"crew.hours_per_shift", "14 h/shift"}})["crew.paid_share"] ==
          doctest::Approx(112.0 / 84));
    CHECK(Demo("01-first-price")["crew.drive_paid"] == doctest::Approx(2 * 2 * 34 / 50.0));
    CHECK(Demo("11-disc-and-float")["crew.day_drive_paid"] == doctest::Approx(1.5 * 2 * 34 / 50.0));
    CHECK(Demo("01-first-price", "", {{"crew.travel", "not_paid"}})["crew.drive_paid"] == 0);
    CHECK(Demo("01-first-price", "", {{"crew.law", "none_paid"}})["crew.paid_share"] == 1);
    CHECK(Demo("01-first-price", "", {{"crew.law", "over_forty"}})["crew.paid_share"] ==
          doctest::Approx(88.0 / 72));
}

// From here on, hand arithmetic: what one figure does to the price.
double price_of(double cost, const Demo& job) {
    return cost * (1 + job["season_prices.overhead_share"] / 100) *
           (1 + job["season_prices.reserve_share"] / 100) /
           (1 - job["season_prices.profit_share"] / 100);
}

TEST_CASE("hours are way over speed and turns, in hours of fifty minutes") {
    const Demo job("01-first-price", "", {{"speed", "1.6 mi/h"}});
    const double way = 118 * 43560.0 / 7 / 5280, turns = 118 * 43560.0 / 7 / 1250;
    CHECK(job["way"] == doctest::Approx(way));
    CHECK(job["machine_hours"] == doctest::Approx((way / 1.6 + turns * 0.7 / 60) * 60 / 50));
}

TEST_CASE("a crawler hour adds up from its parts") {
    const Demo job("01-first-price");
    const double years = 15000 / 2300.0, average = ((years - 1) * 1.25 + 2) / (2 * years);
    const double own = 1'640'000 * 0.75 / 15000 +
                       (1'640'000 * average * (0.0725 + 0.016) + 38'000 / 5.0 + 2'600) / 2300;
    CHECK(job["crawler.own_per_hour"] == doctest::Approx(own));
    const double fuel = 850 * 0.36 / 7 * 0.9 * (4.47 + 0.21);
    const double operate =
        fuel * 1.15 + 35 / 11.0 + 168'000 / 4500.0 + 1'640'000 * 0.6 / 15000 + 7'000 / 4000.0;
    CHECK(job["crawler.operate_per_hour"] == doctest::Approx(operate));
    CHECK(job["crawler.standby_per_hour"] ==
          doctest::Approx(0.5 * 82 + 1'640'000 * average * 0.0725 / 2300));
}

TEST_CASE("a dollar more on diesel is the gallons, the oil with them, and the steps of the price") {
    const Demo before("01-first-price"),
        after("01-first-price", "", {{"season_prices.diesel", "$5.47/gal"}});
    const double more = before["gallons"] * 1.0 * 1.15;
    CHECK(after["ripping.cost"] - before["ripping.cost"] == doctest::Approx(more));
    CHECK(after["ripping.margin"] - before["ripping.margin"] ==
          doctest::Approx(price_of(more, before)));
}

TEST_CASE("closer pulls cost in proportion") {
    const Demo seven("02-closer-pulls"), five("02-closer-pulls", "Five-foot pulls");
    CHECK(five["machine_hours"] == doctest::Approx(seven["machine_hours"] * 7 / 5));
    CHECK(five["gallons_per_acre"] == doctest::Approx(seven["gallons_per_acre"] * 7 / 5));
}

TEST_CASE("in rows the way is acres over row width times the pulls") {
    const Demo rows("03-rows-or-field", "Tree rows, two pulls"), field("03-rows-or-field");
    CHECK(rows["way"] == doctest::Approx(41 * 43560.0 / 21 * 2 / 5280));
    CHECK(rows["way"] / field["way"] == doctest::Approx(7 * 2 / 21.0));
}

TEST_CASE("a mile more is a mile there loaded and a mile back empty for every truck") {
    const Demo near("01-first-price"), far("01-first-price", "", {{"site.miles", "44 mi"}});
    const double hours = 2 * (10 / 35.0 + 10 / 48.0);
    CHECK(far["haul.lowbed_hours"] - near["haul.lowbed_hours"] == doctest::Approx(hours));
    CHECK(far["haul.lowbed.amount"] - near["haul.lowbed.amount"] == doctest::Approx(hours * 178));
    CHECK(far["haul.second_trailer.amount"] - near["haul.second_trailer.amount"] ==
          doctest::Approx(hours * 124));
}

TEST_CASE("the ripper that comes off is off before the load can leave") {
    const Demo on("01-first-price"), off("01-first-price", "", {{"load.ripper", "second_trailer"}}),
        neither("01-first-price", "",
                {{"load.ripper", "on_machine"}, {"load.blade", "on_machine"}});
    // 5 h for the blade and 4 h for the ripper, by two mechanics
    CHECK(neither["haul.load_out_by"] - neither["haul.take_down_by"] == doctest::Approx(0));
    CHECK(on["haul.load_out_by"] - on["haul.take_down_by"] == doctest::Approx(2.5));
    CHECK(off["haul.load_out_by"] - off["haul.take_down_by"] == doctest::Approx(4.5));
}

// One load behind both: what is measured once is read twice.
TEST_CASE("a load that is checked asks for the pilots and the review that its move pays") {
    for (const auto& [width, length, state] :
         {std::tuple("11.9 ft", "84 ft", "california"),
          std::tuple("12.5 ft", "84 ft", "california"),
          std::tuple("14.4 ft", "120 ft", "california"),
          std::tuple("14.5 ft", "140 ft", "california"), std::tuple("14.4 ft", "84 ft", "oregon"),
          std::tuple("12.5 ft", "121 ft", "oregon")}) {
        CAPTURE(width);
        CAPTURE(state);
        const Demo::Sets sets = {{"load.width", width},
                                 {"load.length", length},
                                 {"season_prices.state", state},
                                 {"site.miles", "34 mi"}};
        Demo::Sets one_move = sets;
        one_move.emplace_back("haul.moves", "1");
        const Demo check("15-what-it-scales", "", sets), move("01-first-price", "", one_move);
        CHECK(check["load.pilots"] == move["load.pilots"]);
        CHECK(check["pilot_cars.amount"] == doctest::Approx(move["haul.pilot_cars.amount"]));
        CHECK(check["review.amount"] == doctest::Approx(move["haul.route_review.amount"]));
    }
}

// Front and rear: both loads are over 85 ft long.
TEST_CASE("a load checked pays its pilot cars as a move does") {
    const Demo check("15-what-it-scales", "", {{"site.miles", "34 mi"}}),
        move("01-first-price", "", {{"site.miles", "34 mi"}, {"haul.moves", "1"}}),
        far("15-what-it-scales", "", {{"site.miles", "340 mi"}}),
        longer("15-what-it-scales", "", {{"season_prices.pilot_minimum", "9 h"}});
    CHECK(check["pilot_hours"] == doctest::Approx(2 * 6));
    CHECK(check["pilot_hours"] == doctest::Approx(move["haul.pilot_hours"]));
    CHECK(far["pilot_hours"] == doctest::Approx(2 * (340 / 35.0 + 340 / 48.0)));
    CHECK(longer["pilot_hours"] == doctest::Approx(2 * 9));
    const Demo shorter("15-what-it-scales", "", {{"load.length", "84 ft"}});
    CHECK(shorter["pilot_hours"] == doctest::Approx(6)); // 12.5 ft wide: one
}

TEST_CASE("the axle weights of a load add up to the truck and what it carries") {
    const auto stops = [](Demo::Sets sets) {
        return !Demo("15-what-it-scales", "", std::move(sets)).faults().empty();
    };
    CHECK(!stops({}));
    CHECK(stops({{"load.ripper", "on_machine"}}));                          // 18,000 lb too light
    CHECK(stops({{"load.blade", "on_machine"}}));                           // 33,000 lb too light
    CHECK(stops({{"w5", "20,000 lb"}}));                                    // an axle read wrong
    CHECK(stops({{"w4", "0 lb"}, {"truck", "51,000 lb"}}));                 // a gap in the list
    CHECK(!stops({{"w9", "0 lb"}, {"truck", "45,000 lb"}}));                // one axle fewer
    CHECK(!stops({{"load.ripper", "on_machine"}, {"truck", "57,000 lb"}})); // a lighter truck
}

TEST_CASE("fields under one move share it") {
    const Demo three("07-three-fields");
    CHECK(three["haul.lowbed_hours"] == doctest::Approx(2 * (46 / 35.0 + 46 / 48.0 + 2.5)));
    CHECK(three["haul.walking"] == doctest::Approx(2 * 1.4 / 3));
    CHECK(three["acres"] == doctest::Approx(62 + 28 + 37));
    CHECK(three["machine_hours"] ==
          doctest::Approx(three["home.block_hours"] + three["river.block_hours"] +
                          three["hill.block_hours"]));
}

TEST_CASE("a small job costs the minimum, a large one does not") {
    CHECK(Demo("09-smallest-job")["ripping.amount"] >= 7500);
    CHECK(Demo("09-smallest-job")["ripping.margin"] < 7500);
    CHECK(Demo("09-smallest-job")["ripping.amount"] <
          7500 + 7.5); // rounded up to the dollar an acre
    const Demo large("01-first-price");
    CHECK(large["ripping.amount"] < large["ripping.margin"] + 118);
}

TEST_CASE("the margin is a share of the price") {
    const Demo job("01-first-price");
    CHECK((job["ripping.margin"] - job["ripping.reserve"]) / job["ripping.margin"] ==
          doctest::Approx(0.12));
}

TEST_CASE(
    "three shanks at six feet in a moderate pan are refused, and the model says how many go") {
    Demo three("08-hard-pan", "Three shanks");
    const std::vector<lang::Code> faults = three.faults();
    REQUIRE(!faults.empty());
    CHECK(faults.front() == lang::Code::E504);
    CHECK(three["shanks_that_go"] == 1);
}

TEST_CASE("a crawler that runs fewer hours owns each hour dearer, by what does not run with it") {
    const Demo full("01-first-price"),
        idle("01-first-price", "", {{"crawler.hours_per_year", "1,500 h/yr"}});
    const double fixed = full["crawler.interest_per_year"] + full["crawler.insurance_per_year"] +
                         full["crawler.guidance_per_year"];
    const double fixed_idle = idle["crawler.interest_per_year"] +
                              idle["crawler.insurance_per_year"] +
                              idle["crawler.guidance_per_year"];
    CHECK(idle["crawler.own_per_hour"] - full["crawler.own_per_hour"] ==
          doctest::Approx(fixed_idle / 1500 - fixed / 2300));
}

TEST_CASE("the speed is what the pull leaves, until a contractor says what he makes") {
    const Demo easy("01-first-price"), hard("08-hard-pan"),
        known("08-hard-pan", "", {{"speed", "1.1 mi/h"}});
    // 375 lbf at 1 mi/h are one horsepower (33,000 / 88, exactly).
    CHECK(hard["speed"] == doctest::Approx(375 * 850 * 0.78 * 0.78 / hard["pull"]));
    CHECK(easy["pull"] < hard["pull"]);
    CHECK(easy["speed"] ==
          1.5); // power allows more: the operator holds the upper end of the trade's
    CHECK(hard["speed"] < 1.5);
    CHECK(known["speed"] == doctest::Approx(1.1));
    CHECK(known["pulling"] == doctest::Approx(known["travel"] / 1.1 * (0.75 + 0.25 / 0.6)));
}

TEST_CASE("the fuel clause goes by whole steps of a dime") {
    const Demo job("01-first-price", "",
                   {{"fuel_now", "$5.19/gal"}}); // 72 cents over 4.47: seven steps
    CHECK(job["fuel_surcharge_now"] ==
          doctest::Approx(std::round(job["gallons_per_acre"] * 0.70 * 100) / 100));
    CHECK(Demo("01-first-price", "", {{"fuel_now", "$4.20/gal"}})["fuel_surcharge_now"] == 0);
}

TEST_CASE("the whole job adds its services up, and shares what they share") {
    Demo whole("14-old-block-to-rows");
    // Each service begins on a Monday and works to Saturday: on its last day so many have passed.
    const auto passed = [&](const std::string& service) {
        int day = 0;
        for (int work = 0; work < whole[service + ".days"]; ++day)
            if (day % 7 != 6)
                ++work;
        return day;
    };
    CHECK(whole["planted"] ==
          doctest::Approx(passed("clearing") + 7 + passed("rip") + passed("smoothing") +
                          passed("leveling") + 14 + passed("planting")));
    double tractor_moves = 0;
    for (const engine::CostRow& row : whole.estimate().costs)
        if (row.name.find("move_tractor") != std::string::npos &&
            row.name.find("lowbed") != std::string::npos)
            tractor_moves += 1;
    CHECK(tractor_moves == 1);
    CHECK(whole["clearing.trees"] == doctest::Approx(38 * 43560.0 / (24 * 20) * 0.92));
    // The services by themselves, on the same ground, cost the same.
    const Demo disc = Demo::of_text("job \"d\"\nmodel \"disc-float\"\nseason \"2027\"\nset area = "
                                    "38 ac\nset site.miles = 46 mi\n");
    CHECK(whole["disc_and_float.cost"] ==
          doctest::Approx(disc["discing.cost"] + disc["floating.cost"]));
    const Demo plant = Demo::of_text(
        "job \"p\"\nmodel \"plant\"\nseason \"2027\"\nset area = 38 ac\nset row_width = 21 ft\n"
        "set tree_spacing = 15 ft\nset site.miles = 46 mi\n");
    CHECK(whole["planting.cost"] == doctest::Approx(plant["planting.cost"]));
}

TEST_CASE("wood is burned only with a permit in hand") {
    CHECK(!Demo("10-trees-out", "", {{"with_the_wood", "burn_with_permit"}}).faults().empty());
    CHECK(Demo("10-trees-out", "",
               {{"with_the_wood", "burn_with_permit"}, {"burn_permits", "1 permit"}})
              .faults()
              .empty());
}

TEST_CASE(
    "taking the machine down is half a mechanic's day, and a shank costs about twelve thousand") {
    // common practice, no source
    const Demo job("01-first-price");
    CHECK(job["haul.take_down"] == doctest::Approx(job["crew.day_hours"] / 2).epsilon(0.2));
    CHECK(job["crawler.shank"] == doctest::Approx(12000).epsilon(0.1));
}

} // namespace
} // namespace acre::tests
