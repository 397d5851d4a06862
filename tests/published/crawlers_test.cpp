// Several crawlers on one job: they share every block by pace and finish together, and so many like
// the first are the same however the job says it.
#include <cmath>
#include <string>
#include <vector>

#include "tests/support/demo.h"

namespace crawlers_test {

using namespace acre;
using namespace acre::tests;

namespace {

std::string job_of(const std::string& rest) {
    return "job \"Two blocks far away\"\nmodel \"deep-rip\"\nseason \"2027\"\n"
           "date 2027-06-21\nset site.miles = 130 mi\nset site.sleeps = away\n"
           "set site.fields = 2\n" +
           rest +
           "block home\n  set area = 118 ac\n  set run = 1,250 ft\n"
           "block hill\n  set area = 37 ac\n  set method = crossed\n  set run = 900 ft\n";
}

} // namespace

TEST_CASE("machines = N equals N entries that set nothing") {
    const char* totals[] = {"cost.total",    "price.total",
                            "days",          "crew_trips",
                            "nights",        "gallons",
                            "standing_by",   "standing_by_with_crew",
                            "lost_trip",     "tips_used",
                            "tips_to_carry", "pace",
                            "shifts",        "move_in_and_out.amount"};
    const Demo one = Demo::of_text(job_of(""));
    for (int n = 1; n <= 6; ++n) {
        CAPTURE(n);
        const Demo shortly = Demo::of_text(job_of("set machines = " + std::to_string(n) + "\n"));
        std::string entries;
        for (int i = 0; i < n; ++i)
            entries += "machine m" + std::to_string(i) + "\n";
        const Demo listed = Demo::of_text(job_of(entries));
        for (const char* name : totals) {
            CAPTURE(name);
            CHECK(listed[name] == doctest::Approx(shortly[name]).epsilon(1e-12));
        }
        // Each crawler moves, and costs its nights; together they work the same hours in fewer
        // days.
        CHECK(shortly["machine_hours"] == doctest::Approx(one["machine_hours"]).epsilon(1e-12));
        CHECK(shortly["hours_each"] * n == doctest::Approx(one["hours_each"]).epsilon(1e-12));
        CHECK(shortly["days"] ==
              std::ceil(one["hours_each"] / (n * one["crew.days_of_work"]) - 1e-9));
        CHECK(shortly["standby_machine"] ==
              doctest::Approx(n * one["standby_machine"]).epsilon(1e-12));
        CHECK(shortly["other_crawlers.amount"] ==
              doctest::Approx((n - 1) * one["haul.all_moves"]).epsilon(1e-12));
    }
    CHECK(one["haul.all_moves"] == doctest::Approx(one["move_in_and_out.cost"]).epsilon(1e-12));
}

TEST_CASE("listing crawlers and setting how many is an error") {
    Demo both = Demo::of_text(job_of("set machines = 3\nmachine hazel\nmachine walt\n"));
    CHECK(both.faults() == std::vector<lang::Code>{lang::Code::E504});
}

TEST_CASE("two unlike crawlers share a field by their pace and finish together") {
    const Demo pair("05-two-crawlers", "",
                    {{"hazel.speed", "1.7 mi/h"}, {"walt.speed", "1.25 mi/h"}});
    // Acres an hour by hand: 7 ft apart, pulls of 2,510 ft, 0.7 min a turn, 50 min of work an hour.
    const auto pace = [](double speed) {
        return 7 * 2510 / 43560.0 / (2510 / (speed * 5280) + 0.7 / 60) * 50 / 60;
    };
    CHECK(pair["pace"] == doctest::Approx(pace(1.7) + pace(1.25)));
    CHECK(pair["hours_each"] == doctest::Approx(212 / (pace(1.7) + pace(1.25))));
    CHECK(pair["hazel.machine_hours"] == pair["walt.machine_hours"]);
    // In the ground each as long as its pulls take.
    CHECK(pair["walt.ground_hours"] ==
          doctest::Approx(pair["hours_each"] * pace(1.25) * 43560 / 7 / 5280 / 1.25));
    // Walt has its own price and power; what it does not say itself is as the season has it.
    CHECK(pair["walt.rig.depreciation"] == doctest::Approx(585'000 * 0.75 / 15000));
    CHECK(pair["walt.rig.burn"] / pair["hazel.rig.burn"] == doctest::Approx(600 / 850.0));
    CHECK(pair["hazel.rig.depreciation"] == doctest::Approx(82));
    CHECK(pair["hazel.rig.own_per_hour"] == pair["crawler.own_per_hour"]);
}

TEST_CASE("three crawlers of three kinds are one model") {
    const Demo three = Demo::of_text(
        job_of("machine hazel\nmachine walt\n  set engine = 600 hp\n  set bought_for = $585,000\n"
               "machine hired\n  set engine = 700 hp\n  set rig.life = 9,000 h\n"));
    double paces = 0;
    for (const char* block : {"home", "hill"}) {
        const std::string of = block;
        double shares = 0;
        for (const char* machine : {"hazel", "walt", "hired"}) {
            const std::string name = of + "." + machine;
            shares += three[name + ".share"];
            paces += three[name + ".shank_hours"];
        }
        CHECK(shares == doctest::Approx(1)); // they do all of it
        CHECK(three[of + ".walt.alone"] > three[of + ".hazel.alone"]);
    }
    CHECK(three["hazel.ground_hours"] + three["walt.ground_hours"] + three["hired.ground_hours"] ==
          doctest::Approx(paces));
    CHECK(three["hired.rig.own_per_hour"] > three["hazel.rig.own_per_hour"]);
}

} // namespace crawlers_test
