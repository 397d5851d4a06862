#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/explain.h"
#include "tests/property/random_model.h"
#include "tests/support/naive_value.h"
#include "tests/support/priced.h"

using namespace acre;
using namespace acre::tests;

TEST_CASE("the plan says what the plainest reader of the same formulas says") {
    int answers = 0;
    int poisoned = 0;
    for (unsigned seed = 1; seed <= 150; ++seed) {
        const std::string text = RandomModel(Dice(std::uint64_t{seed})).text(12);
        CAPTURE(text);
        const Priced p = priced_ok(text);
        for (int i = 0; i < 12; ++i) {
            NaiveValue naive(p.sheet());
            const std::string name = "l" + std::to_string(i);
            const double expected = naive.line(name);
            const double got = p.value(name);
            CAPTURE(name);
            CAPTURE(seed);
            REQUIRE(std::isnan(got) == std::isnan(expected));
            ++(std::isnan(expected) ? poisoned : answers);
            if (!std::isnan(expected))
                REQUIRE(std::fabs(got - expected) <= 1e-11 * std::fmax(naive.largest(), 1));
        }
    }
    // Both kinds must be met, or this proves little.
    CHECK(answers > 600);
    CHECK(poisoned > 60);
}

TEST_CASE("a line without an answer has a fault with a place, a line with one has none, and both can be explained") {
    int faults = 0;
    for (unsigned seed = 200; seed < 260; ++seed) {
        const std::string text = RandomModel(Dice(std::uint64_t{seed})).text(12);
        CAPTURE(text);
        const Priced p = priced_ok(text);
        for (int i = 0; i < 12; ++i) {
            const std::string name = "l" + std::to_string(i);
            CAPTURE(name);
            const std::vector<lang::LineId> roots{p.line(name)};
            lang::Diagnostics diagnostics;
            engine::report_faults(p.checked(), *p.compiled, p.values, *p.text.sources, roots, diagnostics);
            REQUIRE((diagnostics.error_count() > 0) == std::isnan(p.value(name)));
            for (const lang::Diagnostic& fault : diagnostics.all()) {
                ++faults;
                REQUIRE(fault.primary.span.begin < fault.primary.span.end);
                REQUIRE(fault.title.find("lawful") == std::string::npos);
                REQUIRE(fault.title.find("`l") != std::string::npos); // the line is named
            }
            const engine::Step step = engine::explain(p.checked(), *p.compiled, p.values, *p.text.sources, roots.front());
            REQUIRE_FALSE(step.written.empty());
            REQUIRE(step.with_numbers.find("g0") == std::string::npos);
        }
    }
    CHECK(faults > 100);
}
