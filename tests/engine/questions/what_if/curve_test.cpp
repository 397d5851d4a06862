// A line over one given: its points, slopes and changes by hand, and what reading it costs.
#include "engine/questions/what_if/curve.h"

#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/plan/effort.h"
#include "tests/support/priced.h"

namespace curve_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

const std::string model = "model \"m\"\ngiven x = 4  within 1 .. 9\n"
                          "y : 1 = max(5 * x, 30)\nz : 1 = x ^ 2\n"
                          "w : 1 = when x > 6 then 100 otherwise x\n";

Curve curve(const Priced& job, const char* line) {
    return {job.compiled(), all_axes(job)[0], job.slot(line)};
}

} // namespace

TEST_CASE("points and slopes of a curve are those of its line, and of one less another") {
    const Priced job = priced_ok(model);
    const Curve y = curve(job, "y"), z = curve(job, "z");
    CHECK(y.at(4).y == 30);
    CHECK(y.at(7).y == 35);
    CHECK(y.slope(4) == 0);
    CHECK(y.slope(7) == 5);
    CHECK(z.slope(7) == doctest::Approx(14));
    CHECK(y.at(4).state == y.at(5).state);
    CHECK(y.at(4).state != y.at(7).state);
    CHECK(std::isnan(z.at(10).y)); // outside of what is allowed
    Curve less = curve(job, "y");
    less.subtract(z, 2);
    CHECK(less.at(7).y == doctest::Approx(35 - 98));
    CHECK(less.slope(7) == doctest::Approx(5 - 28));
    std::vector<double> x;
    for (int k = 0; k <= 2'000; ++k)
        x.push_back(1 + 8 * k / 2'000.0);
    std::vector<CurvePoint> points(x.size());
    less.read(x, points);
    for (std::size_t k = 0; k < x.size(); k += 13) {
        CHECK(points[k].x == x[k]);
        CHECK(points[k].y == doctest::Approx(std::fmax(5 * x[k], 30) - 2 * x[k] * x[k]));
        CHECK(points[k].state == less.at(x[k]).state);
    }
}

TEST_CASE("a change is between two neighboring numbers, on the way up and down") {
    const Priced job = priced_ok(model);
    const Curve w = curve(job, "w");
    const Curve::Change up = w.first_change(w.at(2), w.at(9));
    CHECK(up.before.x == doctest::Approx(6));
    CHECK(std::nextafter(up.before.x, 9) == up.after.x);
    CHECK(up.before.y == doctest::Approx(6));
    CHECK(up.after.y == 100);
    REQUIRE(up.decided != no_slot);
    CHECK(job.compiled().origins.line[up.decided] == job.line("w"));
    const Curve::Change down = w.first_change(w.at(9), w.at(2));
    CHECK(down.before.x == up.after.x);
    CHECK(down.after.x == up.before.x);
}

TEST_CASE("a swing between numbers that are one is a slip, between formulas it stands still") {
    const Priced job =
        priced_ok("model \"m\"\ngiven a = -5  \"a\"  swing -5 .. -5\n"
                  "given b : ft = 12 in  \"b\"  swing 1 ft .. 12 in\n"
                  "given c = 2  \"c\"  swing (when a < 0 then 2 otherwise 1) .. (when a < 0 then 2 "
                  "otherwise 3)\n"
                  "given d = 2  \"d\"  swing 1 / (a + 5) .. 3\ngiven e = 2  \"e\"  swing 1 .. 3\n"
                  "y : 1 = a + b / 1 ft + c + d + e\n");
    const std::vector<Axis> axes = all_axes(job);
    REQUIRE(axes.size() == 5);
    const auto trouble = [&](std::size_t i) {
        const auto said = swing_trouble(job, axes[i]);
        return said ? said->title : std::string();
    };
    REQUIRE(axes[0].swing);
    CHECK(trouble(0) == "the swing of `a` is empty: -5 .. -5");
    REQUIRE(axes[1].swing);
    CHECK(trouble(1) == "the swing of `b` is empty: 1 ft .. 1 ft");
    CHECK_FALSE(axes[2].swing);
    REQUIRE(axes[3].swing);
    CHECK(trouble(3) == "the swing of `d` has no answer in this job");
    CHECK(trouble(4).empty());
}

TEST_CASE("reading costs the making of a reader once, and each point") {
    const Priced job = priced_ok(model);
    const Curve y = curve(job, "y");
    const std::uint64_t made = y.effort();
    CHECK(made >= effort_of_plan * job.plan().size());
    std::vector<double> x(4'000, 5);
    std::vector<CurvePoint> points(x.size());
    y.read(x, points);
    const std::uint64_t once = y.effort() - made;
    CHECK(once >= x.size() * y.effort_of_point());
    y.read(x, points);
    CHECK(y.effort() == made + 2 * once);
    // With another curve taken off, both are read.
    Curve less = curve(job, "y");
    const Curve other = curve(job, "z");
    less.subtract(other);
    CHECK(less.effort_of_point() > y.effort_of_point());
    CHECK(less.effort() >= made + effort_of_plan * job.plan().size());
}

} // namespace curve_test
