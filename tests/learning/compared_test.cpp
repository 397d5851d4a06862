// What the season said beside what was measured, before anything is learned.
#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/learning/learn.h"

namespace compared_test {

using namespace acre::engine;

namespace {

// A finished job with one reading.
FinishedJob job(const std::string& quote, Tells tells, double said, double measured, double hours,
                double trials = 0) {
    FinishedJob out;
    out.quote = quote;
    Reading& reading = out.readings.readings.emplace_back();
    reading.tells = tells;
    reading.name = "column";
    reading.label = "what it tells";
    reading.unit = "unit";
    reading.at_season = said;
    reading.rests_on = {0};
    out.measures.push_back({true, measured, 0.1, hours, trials, 0});
    return out;
}

ComparedReading only(const std::vector<FinishedJob>& jobs) {
    Assumptions assumptions(200);
    assumptions.take({"figure", "", "%", 70, Range{30, 95}, {}});
    const LearnAnswer answer = learn(jobs, assumptions);
    CHECK(answer.quotes.size() == jobs.size());
    REQUIRE(answer.compared.size() == 1);
    return answer.compared[0];
}

} // namespace

TEST_CASE("what is told by the hour is compared by hours, days by days, prices job by job") {
    // 2 and 2.5 in 80 and 40 h: (160 + 100) / 120; measured 1.8 and 2.4: (144 + 96) / 120.
    for (const Tells tells : {Tells::Pace, Tells::Burn, Tells::Money}) {
        const ComparedReading row =
            only({job("a", tells, 2, 1.8, 80), job("b", tells, 2.5, 2.4, 40)});
        CHECK(row.tells == tells);
        CHECK(row.jobs == 2);
        CHECK(row.said == doctest::Approx(260.0 / 120));
        CHECK(row.measured == doctest::Approx(2));
        CHECK(row.label == "what it tells");
        CHECK(row.unit == "unit");
    }
    // Breakages by the thousand hours.
    const ComparedReading breaks =
        only({job("a", Tells::Breaks, 0.02, 0.01, 80), job("b", Tells::Breaks, 0.02, 0.05, 40)});
    CHECK(breaks.said == doctest::Approx(20));
    CHECK(breaks.measured == doctest::Approx(1000 * 2.8 / 120));
    CHECK(breaks.label == "what it tells per 1,000 machine hours");
    CHECK(breaks.unit == "1");
    for (const Tells tells : {Tells::FuelPrice, Tells::Hours}) {
        const ComparedReading row = only({job("a", tells, 4, 5, 80), job("b", tells, 6, 6, 40)});
        CHECK(row.said == doctest::Approx(5));
        CHECK(row.measured == doctest::Approx(5.5));
    }
    // 70 % assumed; 60 of 10 days and 90 of 30.
    const ComparedReading days =
        only({job("a", Tells::Days, 0, 60, 80, 10), job("b", Tells::Days, 0, 90, 40, 30)});
    CHECK(days.said == doctest::Approx(70));
    CHECK(days.measured == doctest::Approx((600 + 2700) / 40.0));
}

TEST_CASE("several services under one log are named, and what no log measures is not compared") {
    FinishedJob one = job("a", Tells::Pace, 2, 1.8, 80);
    one.readings.several = true;
    one.measures[0].known = false;
    Assumptions assumptions(200);
    assumptions.take({"figure", "", "%", 70, Range{30, 95}, {}});
    const std::vector<FinishedJob> jobs = {one, job("b", Tells::Burn, 2, 2, 80)};
    const LearnAnswer answer = learn(jobs, assumptions);
    CHECK(answer.quotes == std::vector<std::string>{"a", "b"});
    CHECK(answer.several == std::vector<std::string>{"a"});
    REQUIRE(answer.compared.size() == 1);
    CHECK(answer.compared[0].tells == Tells::Burn);
    CHECK(answer.untold == std::vector<std::string>{"figure"});
    CHECK(answer.refused.empty());
}

TEST_CASE("work that most draws of the season refuse is named, and tells nothing") {
    FinishedJob hard = job("a", Tells::Pace, 2, 1.8, 80);
    hard.readings.readings[0].drawn = {2, std::nan(""), std::nan("")};
    FinishedJob hardly = job("b", Tells::Pace, 2, 1.9, 80);
    hardly.readings.readings[0].drawn = {2, 2, std::nan("")};
    Assumptions assumptions(3);
    assumptions.take({"figure", "", "%", 70, Range{30, 95}, {}});
    const std::vector<FinishedJob> jobs = {hard, hardly};
    const LearnAnswer answer = learn(jobs, assumptions);
    CHECK(answer.refused == std::vector<std::string>{"a"});
    REQUIRE(answer.compared.size() == 1);
    CHECK(answer.compared[0].jobs == 1);
    CHECK(answer.compared[0].measured == doctest::Approx(1.9));
    hard.measures[0].known = false; // its log has nothing of it anyway
    CHECK(learn(std::vector<FinishedJob>{hard}, assumptions).refused.empty());
}

} // namespace compared_test
