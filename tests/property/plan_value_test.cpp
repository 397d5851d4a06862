#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/faults/faults.h"
#include "engine/questions/explain.h"
#include "tests/property/random_model.h"
#include "tests/support/naive_value.h"
#include "tests/support/priced.h"

namespace plan_value_test {

using namespace acre;
using namespace acre::tests;

TEST_CASE("the plan says what the plainest reader of the same formulas says") {
    int answers = 0;
    int poisoned = 0;
    int unsure = 0;
    int vague = 0; // agreements that say little
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
        const std::string text = RandomModel(Dice(seed)).text(12);
        CAPTURE(text);
        const Priced p = priced_ok(text);
        NaiveValue naive(p.sheet());
        for (int i = 0; i < 12; ++i) {
            const std::string name = "l" + std::to_string(i);
            const Naive expected = naive.line(name);
            CAPTURE(name);
            CAPTURE(seed);
            CAPTURE(expected.value);
            CAPTURE(expected.error);
            REQUIRE(expected.agrees(p.value(name)));
            ++(!expected.sure ? unsure : expected.no_answer() ? poisoned : answers);
            vague += expected.error > 1e-6 * std::fmax(1, std::fabs(expected.value)) ? 1 : 0;
        }
    }
    // Both kinds must be met, or this proves little.
    CHECK(answers > 600);
    CHECK(poisoned > 60);
    CHECK(unsure < 90);
    CHECK(vague < 30);
}

TEST_CASE("a line without an answer has a fault with a place, a line with one has none, and both "
          "can be explained") {
    int faults = 0;
    for (std::uint64_t seed = 200; seed < 260; ++seed) {
        const std::string text = RandomModel(Dice(seed)).text(12);
        CAPTURE(text);
        const Priced p = priced_ok(text);
        for (int i = 0; i < 12; ++i) {
            const std::string name = "l" + std::to_string(i);
            CAPTURE(name);
            const std::vector<lang::LineId> roots{p.line(name)};
            lang::Diagnostics diagnostics;
            engine::report_faults(p, roots, diagnostics);
            REQUIRE((diagnostics.error_count() > 0) == std::isnan(p.value(name)));
            for (const lang::Diagnostic& fault : diagnostics.all()) {
                ++faults;
                REQUIRE(fault.primary.span.begin < fault.primary.span.end);
                REQUIRE(fault.title.find("lawful") == std::string::npos);
                REQUIRE(fault.title.find("`l") != std::string::npos); // the line is named
            }
            const engine::ExplainStep step = engine::explain(p, roots.front());
            REQUIRE_FALSE(step.written.empty());
            REQUIRE(step.with_numbers.find("g0") == std::string::npos);
        }
    }
    CHECK(faults > 100);
}

} // namespace plan_value_test
