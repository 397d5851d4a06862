// Crossings of a line against those of the same line upside down, from right to left and in other
// units: what is found must turn with it, and nothing else.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/what_if/break_even.h"
#include "tests/support/priced.h"

namespace break_even_laws_test {

using namespace acre::engine;
using acre::tests::priced_ok;

namespace {

struct Line {
    std::string formula; // of @
    double low, high, wanted;
    bool from_right = true; // the job's own x: the greatest
};
const std::vector<Line> lines = {
    {"@ ^ 2", -10, 10, 16},
    {"(@ - 1) * (@ - 2) * (@ + 7)", -10, 10, 0},
    {"10 * ceil(@)", 0.5, 9.5, 35},
    {"@ / ceil(@ / 3)", 0.5, 11.9, 2.4},
    {"(@ - 1.37) ^ 2 + 4", -3.1, 5, 4},       // only touches
    {"(@ - 1.2345) * (@ - 1.2346)", 0, 4, 0}, // closer than the points looked at
    {"max(min(@, 4), @ - 2)", 1, 10, 4},      // level in the middle
    {"max(@, 6.5)", 1, 10, 6.5},              // at one end
    {"max(@, 7) - min(@, 3)", 1, 10, 6},
    {"1 / (@ - 8)", 2, 10, 1}, // over a pole
    {"sqrt(@ - 3)", 0, 10, 2}, // not there below 3
    {"@ + (when @ > 3 then 0.0001 otherwise 0)", 1, 10, 3.00005},
    {"@ ^ 2 + 3", 1, 10, 200}, // never
};

BreakEvenAnswer crossings(const Line& line, const std::string& x = "x",
                          const std::string& unit = "") {
    std::string formula = line.formula;
    for (std::size_t at; (at = formula.find('@')) != std::string::npos;)
        formula.replace(at, 1, x);
    const auto number = [&](double n) { return std::to_string(n) + unit; };
    const auto job =
        priced_ok("model \"m\"\ngiven x = " + number(line.from_right ? line.high : line.low) +
                  "  \"how far\"  within " + number(line.low) + " .. " + number(line.high) +
                  "\ny : 1 = " + formula + "  \"how much\"  may be negative\n");
    const auto answer = ask(job.job(), BreakEvenQuestion{"x", "y", line.wanted, {}});
    REQUIRE_MESSAGE(answer.value.has_value(), acre::tests::title_of(answer.said));
    return *answer;
}

bool near(double a, double b) {
    return std::fabs(a - b) <= 2e-6 * std::max(1.0, std::fabs(b));
}

// The same crossings, `right` being those of the other line as they should stand.
void same(const BreakEvenAnswer& is, const std::vector<Crossing>& right) {
    REQUIRE(is.crossings.size() == right.size());
    for (std::size_t k = 0; k < right.size(); ++k) {
        const Crossing &a = is.crossings[k], &b = right[k];
        CHECK(a.kind == b.kind);
        CHECK(near(a.x, b.x));
        CHECK(near(a.x_after, b.x_after));
        CHECK(near(a.before, b.before));
        CHECK(near(a.after, b.after));
        CHECK(a.rising == b.rising);
        CHECK(a.line == b.line);
    }
}

bool has_direction(const Crossing& crossing) {
    return crossing.kind == CrossingKind::Root || crossing.kind == CrossingKind::Jump;
}

} // namespace

TEST_CASE("a line upside down crosses at the same places the other way") {
    for (Line line : lines) {
        CAPTURE(line.formula);
        const BreakEvenAnswer up = crossings(line);
        std::vector<Crossing> right = up.crossings;
        for (Crossing& crossing : right) {
            crossing.rising = has_direction(crossing) && !crossing.rising;
            crossing.before = -crossing.before;
            crossing.after = -crossing.after;
        }
        line.formula = "-(" + line.formula + ")";
        line.wanted = -line.wanted;
        const BreakEvenAnswer down = crossings(line);
        same(down, right);
        CHECK(near(down.least, -up.greatest));
        CHECK(near(down.greatest, -up.least));
        CHECK(near(down.nearest, -up.nearest));
        CHECK(down.unanswered.size() == up.unanswered.size());
        CHECK(down.now == doctest::Approx(-up.now));
    }
}

TEST_CASE("a line from right to left crosses at the opposite places, last first") {
    for (Line line : lines) {
        CAPTURE(line.formula);
        const BreakEvenAnswer there = crossings(line);
        std::vector<Crossing> right;
        for (Crossing crossing : there.crossings) {
            std::swap(crossing.x, crossing.x_after);
            std::swap(crossing.before, crossing.after);
            crossing.x = -crossing.x;
            crossing.x_after = -crossing.x_after;
            crossing.rising = has_direction(crossing) && !crossing.rising;
            right.insert(right.begin(), crossing);
        }
        std::swap(line.low, line.high);
        line.low = -line.low;
        line.high = -line.high;
        line.from_right = false;
        const BreakEvenAnswer back = crossings(line, "(-x)");
        same(back, right);
        CHECK(near(back.least, there.least));
        CHECK(near(back.greatest, there.greatest));
        CHECK(near(std::fabs(back.nearest - line.wanted), std::fabs(there.nearest - line.wanted)));
        REQUIRE(back.unanswered.size() == there.unanswered.size());
        if (!back.unanswered.empty()) {
            CHECK(std::fabs(back.unanswered.back().high + there.unanswered.front().low) < 0.005);
            CHECK(std::fabs(back.unanswered.back().low + there.unanswered.front().high) < 0.005);
        }
    }
}

TEST_CASE("the unit of a given changes no crossing") {
    for (const Line& line : lines) {
        CAPTURE(line.formula);
        same(crossings(line, "(x / 1 ft)", " ft"), crossings(line).crossings);
    }
}

TEST_CASE("a step is a jump however small, unless rounding makes such") {
    const auto step_of = [](const std::string& size, double wanted) {
        const BreakEvenAnswer found =
            crossings({"@ + (when @ > 3 then " + size + " otherwise 0)", 1, 10, wanted});
        REQUIRE(found.crossings.size() == 1);
        CHECK(found.crossings[0].x == doctest::Approx(3));
        return found.crossings[0];
    };
    for (const std::string text : {"0.01", "0.0001", "0.000001", "0.0000001"}) {
        CAPTURE(text);
        const double size = std::stod(text);
        const Crossing jump = step_of(text, 3 + size / 2);
        CHECK(jump.kind == CrossingKind::Jump);
        CHECK(jump.after - jump.before == doctest::Approx(size).epsilon(1e-6));
        CHECK(jump.line == "y");
    }
    CHECK(step_of("0.000000001", 3 + 5e-10).kind == CrossingKind::Root);
}

TEST_CASE("an answer says what moves and which line") {
    const BreakEvenAnswer found = crossings({"@ ^ 2", 1, 10, 16});
    CHECK(found.title == "m");
    CHECK(found.given.name == "x");
    CHECK(found.given.called == "how far");
    CHECK(found.line.name == "y");
    CHECK(found.line.called == "how much");
    CHECK(found.value == 10);
    CHECK(found.now == 100);
    CHECK(found.wanted == 16);
    CHECK(found.range.low == 1);
    CHECK(found.range.high == 10);
}

} // namespace break_even_laws_test
