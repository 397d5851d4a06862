// The page of risk where lists are at their ends.
#include <doctest/doctest.h>

#include <string>

#include "cli/risk/risk_page.h"

namespace risk_text_test {

using namespace acre;

namespace {

// One line, and so many givens of which each makes the same share of its spread.
engine::RiskAnswer answer(std::size_t shares) {
    engine::RiskAnswer risk;
    risk.trials = 4'096;
    engine::Measured cost;
    cost.name = "cost";
    cost.called = "the cost";
    cost.unit = "$";
    cost.at_job = 100;
    cost.bars_width = 1;
    cost.bars = {1, 2};
    risk.measured = {cost};
    risk.shares.emplace();
    risk.shares->spread = 12;
    for (std::size_t i = 0; i < shares; ++i) {
        engine::Factor factor;
        factor.given.called = "given " + std::to_string(i);
        factor.swing = engine::Range{0, 1};
        risk.factors.push_back(factor);
        risk.shares->shares.push_back({i, 0.05, 0.001, 0.06, 0.002});
    }
    return risk;
}

bool says(const engine::RiskAnswer& risk, const std::string& words) {
    return cli::risk_text(risk, false).find(words) != std::string::npos;
}

} // namespace

TEST_CASE("twelve shares are told, and how many there are besides") {
    CHECK(says(answer(12), "  given 11 "));
    CHECK(!says(answer(12), " more, each"));
    CHECK(!says(answer(13), "  given 12 "));
    CHECK(says(answer(13), "  and 1 more, each 6.0 % or less\n"));
}

TEST_CASE("where nothing drawn moves a line that is what drives it") {
    CHECK(says(answer(0), "\nWhat drives the spread of the cost\n"
                          "  Nothing that was drawn moves it.\n"));
    CHECK(!says(answer(1), "Nothing that was drawn"));
}

TEST_CASE("one trial that is refused is enough to say what then counts") {
    engine::RiskAnswer risk = answer(1);
    risk.refusals = {{"the ground refuses", "", 0.0002, 900.0}};
    CHECK(!says(risk, "do not count"));
    risk.refused = 1;
    CHECK(says(risk, "Then the job's own price and cost do not count"));
    CHECK(!says(risk, "in one entry"));
    risk.refusals[0].entry = "home";
    CHECK(says(risk, "  home: the ground refuses "));
    CHECK(says(risk, "A refusal in one entry"));
}

} // namespace risk_text_test
