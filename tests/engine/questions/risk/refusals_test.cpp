// What a refusal does to the trials of a job.
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "engine/questions/risk/risk.h"
#include "tests/support/priced.h"

namespace refusals_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

RiskQuestion question(std::uint64_t trials) {
    RiskQuestion q;
    q.trials = trials;
    q.share_trials = 0;
    return q;
}
RiskAnswer ask(const Priced& job, const RiskQuestion& q) {
    const auto answer = acre::engine::ask(job.job(), q);
    REQUIRE_MESSAGE(answer.value.has_value(), acre::tests::title_of(answer.said));
    return *answer;
}

// `hard` even over 0 .. 1: refused above 0.8, and above 0.9 by the second too.
std::string refusing(const std::string& first, const std::string& second) {
    return "model \"m\"\npart \"All\"\n"
           "  given area = 100 ac  \"acres\"\n"
           "  given hard = 0.5  \"hard ground\"  swing even 0 .. 1\n"
           "  require hard <= 0.8  \"too hard\"" +
           first + "\n  require hard <= 0.9  \"rock\"" + second +
           "\n  cost crawler : $ = $1,000 * sqrt(0.8 - min(hard, 0.8)) / sqrt(0.8 - min(hard, "
           "0.8)) over 1\n"
           "price \"Work\" per ac of area\n  markup 25 %\n";
}

} // namespace

TEST_CASE("a refusal that says its cost counts as so much lost, the largest of several") {
    // A refused job has no cost (0 / 0 there), and that does no harm. Profit: $250 with 0.8, -$300
    // with 0.1, -$700 with 0.1.
    const RiskAnswer risk =
        ask(priced_ok(refusing(" costs $300", " costs $700")), question(1 << 16));
    CHECK(risk.without_answer == 0);
    CHECK(static_cast<double>(risk.refused) / static_cast<double>(risk.trials) ==
          doctest::Approx(0.2).epsilon(1e-3));
    CHECK(*risk.loss == doctest::Approx(0.2).epsilon(1e-3));
    const Measured& cost = risk.measured[risk.measured.size() - 4];
    const Measured& profit = risk.measured[risk.measured.size() - 2];
    const Measured& margin = risk.measured[risk.measured.size() - 1];
    CHECK(profit.mean == doctest::Approx(0.8 * 250 - 0.1 * 300 - 0.1 * 700).epsilon(1e-3));
    CHECK(profit.least == -700);
    CHECK(cost.mean == doctest::Approx(1000)); // of the trials that are not refused
    CHECK(margin.mean == doctest::Approx(0.2));
    REQUIRE(risk.refusals.size() == 2);
    CHECK(risk.refusals[0].name == "too hard");
    CHECK(risk.refusals[0].chance == doctest::Approx(0.2).epsilon(1e-3));
    CHECK(*risk.refusals[0].cost == doctest::Approx(300));
    CHECK(risk.refusals[1].chance == doctest::Approx(0.1).epsilon(1e-3));
}

TEST_CASE("overhead as quoted comes on top of what a refusal costs") {
    std::string text = refusing(" costs $300", " costs $700");
    text.replace(text.find("  markup"), 0, "  overhead 10 %\n");
    const RiskAnswer risk = ask(priced_ok(text), question(1 << 12));
    CHECK(risk.overhead == doctest::Approx(100));
    const Measured& contribution = risk.measured[risk.measured.size() - 3];
    const Measured& profit = risk.measured[risk.measured.size() - 2];
    CHECK(contribution.least == -700);
    CHECK(profit.least == doctest::Approx(-800));
    CHECK(profit.greatest == doctest::Approx(1100 * 1.25 - 1000 - 100));
    CHECK(*risk.loss == doctest::Approx(0.2).epsilon(1e-2));
    CHECK(*risk.loss_direct == *risk.loss);
}

TEST_CASE(
    "a refusal that does not say its cost leaves the trial out, and is told with its chance") {
    const RiskAnswer risk = ask(priced_ok(refusing(" costs $300", "")), question(1 << 16));
    // Above 0.9 the rock says nothing, so what the trial costs is not known.
    CHECK(static_cast<double>(risk.without_answer) / static_cast<double>(risk.trials) ==
          doctest::Approx(0.1).epsilon(1e-3));
    CHECK(*risk.loss == doctest::Approx(0.1 / 0.9).epsilon(1e-3));
    const Measured& margin = risk.measured.back();
    CHECK(margin.least == doctest::Approx(0.2)); // nothing of a trial that is left out counts
    REQUIRE(risk.refusals.size() == 2);
    CHECK_FALSE(risk.refusals[1].cost.has_value());
    for (const WithoutAnswer& trial : risk.first_without)
        CHECK(trial.drawn[0] > 0.9);
}

TEST_CASE("a refusal that does not move in this job, or does not happen, is not named") {
    const std::string text = refusing(" costs $300", "") + "require area > 3 ac  \"too small\"\n" +
                             "require hard <= 1  \"never\" costs $1\n";
    const RiskAnswer risk = ask(priced_ok(text), question(1 << 12));
    CHECK(risk.refusals.size() == 2);
}

TEST_CASE("correlations of what does not move are passed over, and none goes past 100 %") {
    const auto correlated = [](const std::string& first, const std::string& second) {
        return "model \"m\"\ngiven k = 1  \"k\"\n"
               "given a = 3  \"a\"  swing even 0 .. 6\ngiven b = 3  \"b\"  swing even 0 .. 6\n"
               "given c = 2  \"c\"  swing even 1 .. 3\n"
               "correlate a, b " +
               first + "\ncorrelate b, c " + second + "\ny : 1 = a + b + c  \"y\"\n";
    };
    RiskQuestion q = question(1 << 14);
    q.lines = {"y"};
    q.hold = {"c"};
    const RiskAnswer risk = ask(priced_ok(correlated("50 %", "90 %")), q);
    CHECK(risk.dependent);
    // Of even ranges 6 wide: 3 + 3, and twice what they share. Ranks go together by 50 %.
    CHECK(std::pow(risk.measured[0].spread, 2) == doctest::Approx(3 + 3 + 2 * 1.5).epsilon(0.01));
    const auto refused = acre::engine::ask(priced_ok(correlated("k * 150 %", "90 %")).job(), q);
    CHECK_FALSE(refused);
    CHECK(acre::tests::title_of(refused.said) == "`a` and `b` cannot move together by 150 %");
}

TEST_CASE("any price above zero can be judged, and none that is not") {
    const Priced job = priced_ok(refusing(" costs $300", " costs $700"));
    RiskQuestion q = question(1 << 10);
    q.total = 0.5;
    CHECK(ask(job, q).paid == 0.5);
    for (const double none : {0.0, -1.0, HUGE_VAL, std::nan("")}) {
        q.total = none;
        const auto answer = acre::engine::ask(job.job(), q);
        CHECK_FALSE(answer);
        CHECK(acre::tests::title_of(answer.said) == "the price is not above zero");
    }
}

} // namespace refusals_test
