// What is said where slope, swing and share of the spread name different givens.
#include "engine/questions/risk/matters_most.h"

#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace matters_most_test {

using namespace acre::engine;

namespace {

// Two givens: the first by slope, the second by swing. The first swings 1 .. 3 around 2.
struct Asked {
    SensitivityAnswer sensitivity;
    RiskAnswer risk;

    Asked() {
        sensitivity.effects.resize(2);
        for (std::size_t i = 0; i < 2; ++i) {
            Effect& effect = sensitivity.effects[i];
            effect.given.name = effect.given.called = i == 0 ? "pace" : "fuel";
            effect.value = 2;
            effect.swing = Range{1, 3};
            effect.at_low = 10;
            effect.at_high = 20;
            effect.elasticity = 1;
        }
        sensitivity.effects[1].swing = Range{1.5, 2.5};
        sensitivity.by_slope = {0, 1};
        sensitivity.by_swing = {1, 0};
        risk.factors.resize(2);
        risk.factors[0].given = sensitivity.effects[0].given;
        risk.factors[1].given = sensitivity.effects[1].given;
        risk.factors[0].swing = risk.factors[1].swing = Range{1, 3};
        risk.shares.emplace();
        risk.shares->shares.resize(1);
        risk.shares->shares[0].factor = 1;
    }
    std::vector<std::string> why() const { return matters_most(risk, sensitivity).why; }
};

} // namespace

TEST_CASE("a swing is told in percent of its given, of a value of zero as none") {
    Asked asked;
    CHECK(asked.why() ==
          std::vector<std::string>{"Slope is for a 1 % change, swing for the plausible range: fuel "
                                   "swings by 50 % of itself, pace by 100 %."});
    asked.sensitivity.effects[1].value = -2;
    CHECK(asked.why()[0].find("fuel swings by 50 %") != std::string::npos);
    asked.sensitivity.effects[1].value = 0;
    CHECK(asked.why()[0].find("fuel swings by 0 %") != std::string::npos);
}

TEST_CASE("why the first by slope is not the first by swing") {
    const auto says = [](const auto& change, const std::string& words) {
        Asked asked;
        change(asked.sensitivity.effects[0]);
        const std::vector<std::string> why = asked.why();
        REQUIRE(why.size() == 1);
        CHECK(why[0].find(words) != std::string::npos);
    };
    says([](Effect& e) { e.chosen = true; }, "pace is chosen before work starts");
    says([](Effect& e) { e.swing.reset(); }, "pace has no swing");
    says([](Effect& e) { e.swing_trouble = "it is empty"; }, "The swing of pace cannot be used");
    says([](Effect& e) { e.at_low = NAN; }, "no answer at the low end of the swing of pace");
    says([](Effect& e) { e.at_high = NAN; }, "no answer at the high end of the swing of pace");
    says([](Effect& e) { e.at_low = e.at_high = NAN; }, "no answer at the low end");
}

TEST_CASE("why the first by swing has not the greatest share") {
    Asked asked;
    asked.sensitivity.by_slope = {1, 0};
    CHECK(asked.why().empty());
    CHECK(matters_most(asked.risk, asked.sensitivity).agree);
    asked.risk.shares->shares[0].factor = 0;
    REQUIRE(asked.why().size() == 1);
    CHECK(asked.why()[0].ends_with("which is more for pace."));
    CHECK_FALSE(matters_most(asked.risk, asked.sensitivity).agree);
    asked.risk.factors[0].swing.reset();
    REQUIRE(asked.why().size() == 1);
    CHECK(asked.why()[0].starts_with("pace is an event"));
    // A choice, and what is chosen, are not drawn: the next one that swings counts.
    asked.sensitivity.by_swing = {0, 1};
    asked.sensitivity.effects[0].chosen = true;
    CHECK(matters_most(asked.risk, asked.sensitivity).by_swing == "fuel");
    asked.risk.shares.reset();
    CHECK(matters_most(asked.risk, asked.sensitivity).by_share.empty());
}

} // namespace matters_most_test
