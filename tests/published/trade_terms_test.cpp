// What a quote's terms and a job's conditions come to: moves, ground, standby, hours sold, extras.
// Hand arithmetic, and shares that the trade charges.
#include "tests/support/demo.h"

namespace acre::tests {
namespace {

TEST_CASE("what a load weighs is the crawler less what comes off") {
    const Demo check("15-what-it-scales"), rip("01-first-price");
    CHECK(check["machine"] == rip["crawler.weight"]);
    CHECK(check["carried"] == doctest::Approx(240'000 - 33'000 - 18'000 - 36'000));
}

TEST_CASE("each excavator rides on a trailer of its own, and so do grinder and loader") {
    CHECK(Demo("10-trees-out")["move_pullers.trailers"] == 4);
    CHECK(Demo("10-trees-out", "", {{"move_pullers.excavators", "3"}})["move_pullers.trailers"] ==
          5);
}

TEST_CASE("wet ground is refused, moist ground cautioned") {
    CHECK(!Demo("01-first-price", "", {{"moisture", "wet"}}).faults().empty());
    Demo moist("01-first-price", "", {{"moisture", "moist"}});
    bool told = false;
    for (const engine::CautionRow& row : moist.estimate().cautions)
        told = told || row.text.starts_with("Moist ground");
    CHECK(told);
    CHECK(moist["pull"] < Demo("01-first-price")["pull"]);
}

// A slip plow costs $150 to 300 an acre more than a shank, and its pull is a third more at least; a
// second way is charged at 60 to 75 % of the first: from memory.
TEST_CASE("a slip plow and a second way cost what the trade charges for them") {
    const Demo shank("04-crossed"), plow("04-crossed", "Slip plow"),
        crossed("04-crossed", "Crossed");
    CHECK(plow["pull"] / shank["pull"] >= 1.3);
    CHECK(plow["pull"] / shank["pull"] <= 2);
    CHECK(plow["ripping.rate"] - shank["ripping.rate"] >= 150);
    CHECK(plow["ripping.rate"] - shank["ripping.rate"] <= 300);
    CHECK(crossed["ripping.rate"] / shank["ripping.rate"] >= 1.6);
    CHECK(crossed["ripping.rate"] / shank["ripping.rate"] <= 1.75);
    // distance over speed, each way: 7.5 and 8.5 ft apart, 1.4 times as fast
    CHECK((crossed["pulling"] / shank["pulling"] - 1) == doctest::Approx(7.5 / 8.5 / 1.4));
}

// A day of two twelves: 22 meter hours of ownership stand still, and 24 h of operators.
TEST_CASE("standby covers what stands still at the shifts planned, or the public rate") {
    const Demo job("01-first-price"),
        public_rate("01-first-price", "", {{"standby_by", "public_rate"}});
    CHECK(job["standby_machine"] == doctest::Approx(22 * job["crawler.own_per_hour"]));
    CHECK(job["standby_crew"] == doctest::Approx(24 * job["crew.operator_hour"]));
    CHECK(job["standing_by_with_crew"] ==
          doctest::Approx(job["standby_machine"] + job["standby_crew"]));
    CHECK(public_rate["standing_by"] == doctest::Approx(8 * job["crawler.standby_per_hour"]));
    const Demo away("06-far-away");
    CHECK(away["standby_nights"] == doctest::Approx(3 * 165.0)); // two operators and a mechanic
}

TEST_CASE("an hour is sold at what it costs, with the steps of the price") {
    const Demo job("01-first-price");
    const double cost = job["crawler.cost_per_hour"] + job["crew.operator"] + job["crew.mechanic"] +
                        job["crew.foreman"];
    CHECK(job["crawler_by_the_hour"] == doctest::Approx(cost * 1.09 * 1.03 / 0.88));
}

TEST_CASE("extras cost nothing until a job sets them, and wait for the fumigator") {
    const Demo plain("14-old-block-to-rows"),
        strips("14-old-block-to-rows", "", {{"extras.fumigated", "38 ac"}});
    CHECK(plain["around_the_job.amount"] == 0);
    CHECK(strips["around_the_job.cost"] == doctest::Approx(38 * 1820.0));
    CHECK(strips["planted"] - plain["planted"] == doctest::Approx(30));
}

// By hand: 222,000 lb sits 42 % of 14.5 ft behind the front of the tracks, the point 20.5 ft; the
// ripper bar hangs on the point; 70 % of it before the tracks lose their grip.
TEST_CASE("what the machine can push down at the point, and what lifts it") {
    const Demo sharp("19-into-the-pan");
    const double down = 0.70 * (222'000 * 0.42 * 14.5 / 20.5 + 18'000);
    CHECK(sharp["crawler.push_down"] == doctest::Approx(down));
    CHECK(sharp["pushes_up"] < 0.75 * down);
    CHECK(Demo("19-into-the-pan", "Points worn down").faults() ==
          std::vector<lang::Code>{lang::Code::E504});
    const Demo weighted("19-into-the-pan", "Counterweight");
    CHECK(weighted["crawler.push_down"] == doctest::Approx(down + 0.70 * 16'000));
    CHECK(weighted["pushes_up"] > down);
    CHECK(weighted["grip_pull"] == doctest::Approx(0.70 * (240'000 + 16'000)));
    // The second stage runs through broken ground, and so does its point.
    const Demo stages("19-into-the-pan", "Two stages");
    CHECK(stages["pushes_up"] == doctest::Approx(0.65 * weighted["pushes_up"]));
    CHECK(stages["crosswise"] == doctest::Approx(0.65 * sharp["pull"]));
    // Angle of entry and of friction on steel below 90 degrees together: the point draws itself in.
    CHECK(Demo("01-first-price")["pushes_up"] == 0);
}

TEST_CASE("two stages whose first way is the whole depth are a job ripped both ways") {
    const Demo crossed("04-crossed", "Crossed"),
        same("04-crossed", "Crossed", {{"first_depth", "6 ft"}});
    CHECK(same["ripping.amount"] == crossed["ripping.amount"]);
    CHECK(crossed["cross_speed"] / crossed["speed"] <= 1.4 + 1e-9);
    CHECK(crossed["crosswise"] == doctest::Approx(0.65 * crossed["pull"]));
}

TEST_CASE("fuel for a day of one shift, and a tank") {
    const Demo one("01-first-price", "", {{"crew.shifts_per_day", "1 shift/day"}});
    const double an_hour = 850 * 0.90 * 0.36 / 7; // 12 hours less one of service
    CHECK(one["fuel_a_day"] == doctest::Approx(11 * an_hour));
    CHECK(one["fills_a_day"] == doctest::Approx(11 * an_hour / 450));
    CHECK(Demo("07-three-fields", "Three crawlers")["fuel_a_day"] ==
          doctest::Approx(3 * 22 * an_hour));
}

TEST_CASE("the law is the state's, and a job without one is told so") {
    const auto told = [](Demo job, const char* words) {
        const auto& cautions = job.estimate().cautions;
        return std::any_of(cautions.begin(), cautions.end(), [&](const engine::CautionRow& row) {
            return row.text.find(words) != std::string::npos;
        });
    };
    const Demo::Sets oregon = {{"season_prices.state", "oregon"}},
                     none = {{"season_prices.state", "another"}};
    CHECK(told(Demo("01-first-price"), "Gov. Code 4216.2"));
    CHECK(!told(Demo("01-first-price"), "No state is named"));
    CHECK(told(Demo("01-first-price", "", oregon), "OAR 952-001-0050"));
    CHECK(!told(Demo("01-first-price", "", oregon), "Gov. Code"));
    CHECK(told(Demo("01-first-price", "", none), "No state is named"));
    // Ten hours a day, six days: 60 h, 20 of them at one and a half; California pays the same here.
    CHECK(Demo("11-disc-and-float", "", oregon)["crew.day_share"] == doctest::Approx(70.0 / 60));
    // Three days of twelve hours: 36 a week. California pays four of the twelve at one and a half.
    const Demo::Sets long_days = {{"season_prices.state", "oregon"}, {"crew.days_per_week", "3"}};
    CHECK(Demo("01-first-price", "", long_days)["crew.paid_share"] == 1);
    CHECK(Demo("01-first-price", "", {{"crew.days_per_week", "3"}})["crew.paid_share"] ==
          doctest::Approx(14.0 / 12));
}

// Each state's own rules, and nothing of California's that does not say it was read for California.
TEST_CASE("no state goes silently by California's rules") {
    const std::pair<const char*, const char*> says[] = {
        {"oregon", "renew by day 30"},
        {"washington", "good for 45 days"},
        {"arizona", "R17-6-401"},
        {"arizona", "15 working days"},
        {"colorado", "2 CCR 601-4"},
        {"colorado", "30 days from their due date"},
        {"another", "read it, with its date"},
    };
    for (const auto& [state, words] : says) {
        CAPTURE(state);
        CAPTURE(words);
        Demo job("14-old-block-to-rows", "", {{"season_prices.state", state}});
        bool told = false;
        for (const engine::CautionRow& row : job.estimate().cautions) {
            CAPTURE(row.text);
            told = told || row.text.find(words) != std::string::npos;
            CHECK((row.text.find("California") == std::string::npos ||
                   row.text.find("for California only") != std::string::npos ||
                   row.text.find("California's rule only") != std::string::npos ||
                   row.text.find("in California the water boards too") != std::string::npos));
        }
        CHECK(told);
    }
    // Days that a ticket lives, and what a long load asks for.
    const auto of = [](const char* state, const char* line) {
        return Demo("01-first-price", "", {{"season_prices.state", state}})[line];
    };
    CHECK(of("oregon", "ground_law.ticket_days") == 30);
    CHECK(of("washington", "ground_law.ticket_days") == 45);
    CHECK(of("colorado", "ground_law.ticket_days") == 30);
    CHECK(of("california", "haul.route_review.amount") == 2 * 50);
    CHECK(of("colorado", "haul.route_review.amount") == 0);
    CHECK(of("another", "haul.route_review.amount") ==
          2 * 50); // nobody named a state: as dear as any
    const auto burns = [](const char* state, const char* words) {
        Demo job("10-trees-out", "",
                 {{"season_prices.state", state},
                  {"with_the_wood", "burn_with_permit"},
                  {"burn_permits", "1 permit"}});
        const auto& cautions = job.estimate().cautions;
        return std::any_of(cautions.begin(), cautions.end(), [&](const engine::CautionRow& row) {
            return row.text.find(words) != std::string::npos;
        });
    };
    CHECK(burns("arizona", "R18-2-602"));
    CHECK(burns("colorado", "5 CCR 1001-11"));
    CHECK(burns("oregon", "OAR 340-264-0040(4)"));
    CHECK(burns("washington", "WAC 173-430"));
    CHECK(burns("another", "ask before the trees are down"));
}

} // namespace
} // namespace acre::tests
