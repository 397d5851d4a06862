#include "engine/questions/what_if/plan_bounds.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <random>
#include <string>

#include "engine/native/deep_draft.h"
#include "engine/questions/what_if/job_lanes.h"
#include "engine/readers/value.h"
#include "tests/support/priced.h"

namespace plan_bounds_test {

using namespace acre;
using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

// Every given within its swing, and that is promised.
PlanBounds bounds_of(const PricedJob& job, const std::vector<Axis>& axes) {
    std::vector<std::optional<Range>> promised;
    for (const Axis& axis : axes)
        promised.push_back(axis.swing);
    return PlanBounds(job.plan(), axes, promised);
}
std::vector<Axis> swinging(const PricedJob& job) {
    std::vector<Axis> axes = all_axes(job);
    std::erase_if(axes, [](const Axis& axis) { return !axis.swing; });
    return axes;
}
bool holds(const PricedJob& job, std::size_t require) {
    return bounds_of(job, swinging(job)).holds(job.plan().require_slot[require]);
}

const std::string ground =
    "given depth = 5 ft swing 4 ft .. 6 ft\ngiven entry = 60 deg\ngiven stuck = 0 psf\n"
    "given steel = 25 deg swing 18 deg .. 26 deg\n"
    "up : lbf = max(0 lbf - shank_down_force(depth, 3.5 in, entry, each layer (2 ft, 100 lbf/ft^3, "
    "300 psf, stuck, 30 deg, steel), (0 ft, 100 lbf/ft^3, 900 psf, stuck, 36 deg, 24 deg)), 0 "
    "lbf)\n"
    "require up <= 1,000 lbf \"it lifts\"\n";
std::string model_with(const std::string& lines) {
    return "model \"m\"\nuse \"library/deep-draft\"\n" + lines +
           "cost metal : $/ft = $3/ft over depth\nprice \"p\" lump\n";
}
std::string with(std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
}

// The job's own `b` is outside its swing, where another branch is taken.
const std::string varied_model = model_with(
    "given depth = 5 ft swing 4 ft .. 6 ft\ngiven a = 3 swing -2 .. 4\n"
    "given b = 0.5 swing 1 .. 9\ngiven c = 0 swing -1 .. 1\n"
    "given of_a : 1 = a * 2 + 20 within 10 .. 50 swing 80 % .. 120 % of it\n"
    "table t (x : 1) : 1\n  -10  3\n  0  -1\n  10  4.1\n"
    "u : 1 = a * b - c / b may be negative\n"
    "v : 1 = (a - b) / (b + of_a) * t(a + c) may be negative\n"
    "w : 1 = when a <= b and not (c > 0) then min(a, c) otherwise max(b, ceil(a * 3)) "
    "may be negative\n"
    "x : 1 = when a > 5 or b < 1 then -1000 otherwise abs(c) + sqrt(b) ^ 2 may be negative\n"
    "y : 1 = round(a * b) + floor(c) - (when b >= 0 then 0 otherwise 9) may be negative\n");

std::vector<double> drawn(const Priced& job, const std::vector<Axis>& axes,
                          std::mt19937_64& random) { // inputs; ends as often as what is between
    std::vector<double> inputs;
    for (const Input& input : job.plan().inputs)
        inputs.push_back(input.value);
    for (const Axis& axis : axes) {
        const double share =
            std::clamp(std::uniform_real_distribution<>(-0.5, 1.5)(random), 0.0, 1.0);
        inputs[axis.input] = std::lerp(axis.swing->low, axis.swing->high, share);
    }
    return inputs;
}

} // namespace

TEST_CASE("no value is past its bounds") {
    const Priced job = priced_ok(varied_model);
    const std::vector<Axis> axes = swinging(job);
    const PlanBounds bounds = bounds_of(job, axes);
    CHECK(bounds.of(job.slot("x")).low >= 0); // a branch that nothing takes
    const std::vector<double> settled = bounds.settled();
    CHECK(std::any_of(
        settled.begin(), settled.end(), [](double v) { return v == 1; }));
    CHECK(std::any_of(settled.begin(), settled.end(), [](double v) { return v == 0; }));
    std::mt19937_64 random(7);
    std::size_t looked_at = 0;
    for (int trial = 0; trial < 2'000; ++trial) {
        const Values values = evaluate(job.plan(), drawn(job, axes, random));
        for (Slot slot = 0; slot < job.plan().size(); ++slot) {
            const double value = values.slot[slot];
            if (!std::isnan(settled[slot]) && !(value == settled[slot]))
                FAIL("slot " << slot << " is " << value << ", settled as " << settled[slot]);
            if (std::isnan(value))
                continue;
            ++looked_at;
            if (!(bounds.of(slot).low <= value && value <= bounds.of(slot).high))
                FAIL("slot " << slot << " is " << value << ", past " << bounds.of(slot).low
                             << " .. " << bounds.of(slot).high);
        }
    }
    CHECK(looked_at > 100'000);
}

TEST_CASE("lanes in which truths are settled have the bits of the value reader") {
    const Priced job = priced_ok(varied_model);
    const std::vector<Axis> axes = swinging(job);
    std::vector<std::optional<Range>> promised;
    std::vector<Slot> targets;
    for (const Axis& axis : axes)
        promised.push_back(axis.swing);
    for (const char* line : {"u", "v", "w", "x", "y"})
        targets.push_back(job.slot(line));
    const JobLanes lanes(job.compiled(), axes, targets, targets.size(), promised);
    const JobLanes unsettled(job.compiled(), axes, targets, targets.size());
    CHECK(lanes.size().instructions < unsettled.size().instructions);
    std::mt19937_64 random(3);
    constexpr std::size_t count = 200;
    std::vector<std::vector<double>> in(axes.size(), std::vector<double>(count));
    std::vector<std::vector<double>> out(targets.size(), std::vector<double>(count));
    std::vector<Values> expected;
    for (std::size_t i = 0; i < count; ++i) {
        const std::vector<double> inputs = drawn(job, axes, random);
        expected.push_back(evaluate(job.plan(), inputs));
        for (std::size_t k = 0; k < axes.size(); ++k)
            in[k][i] = inputs[axes[k].input];
    }
    std::vector<const double*> from;
    std::vector<double*> to;
    for (const std::vector<double>& column : in)
        from.push_back(column.data());
    for (std::vector<double>& column : out)
        to.push_back(column.data());
    JobLanes::Scratch scratch = lanes.scratch();
    CHECK(lanes.run(count, from.data(), to.data(), scratch) == 0);
    for (std::size_t k = 0; k < targets.size(); ++k)
        for (std::size_t i = 0; i < count; ++i)
            if (std::bit_cast<std::uint64_t>(out[k][i]) !=
                std::bit_cast<std::uint64_t>(expected[i].slot[targets[k]]))
                FAIL("line " << k << ", lane " << i << ": " << out[k][i]);
}

TEST_CASE("no ground that is proved to press a shank down lifts it") {
    std::mt19937_64 random(11);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    std::uint32_t down = 0;
    while (native_functions()[down].name != "shank_down_force")
        ++down;
    std::size_t proved = 0;
    for (int i = 0; i < 20'000; ++i) {
        const std::size_t layers = 1 + random() % 4;
        const double stuck = random() % 2 == 0 ? 0 : between(0, 200);
        std::vector<double> args = {between(0.5, 8), between(0.1, 2), between(20, 90)};
        for (std::size_t j = 0; j < layers; ++j)
            for (const double arg : {between(0, 3), between(0, 130), between(0, 3'000), stuck,
                                     between(0, 60), between(0, 50)})
                args.push_back(arg);
        std::vector<Bounds> bounds;
        for (const double arg : args)
            bounds.push_back({arg, arg});
        const Bounds proof = native_bounds(down, bounds);
        const double force = native_functions()[down].value(args);
        proved += proof.low > anything.low ? 1 : 0;
        if (force < proof.low)
            FAIL("a force of " << force << " at rake " << args[2]);
    }
    CHECK(proved > 2'000);
}

TEST_CASE("a requirement is proved where the ground cannot lift the shank, and only there") {
    CHECK(holds(priced_ok(model_with(ground)).job(), 0));
    CHECK(!holds(priced_ok(model_with(with(ground, "60 deg", "64 deg"))).job(), 0));
    CHECK(holds(priced_ok(model_with(with(ground, "0 psf", "90 psf"))).job(), 0));
    // what sticks to steel rougher than the ground itself may pull the wedge the other way
    CHECK(!holds(priced_ok(model_with(with(with(ground, "0 psf", "90 psf"), "30 deg, steel",
                                           "20 deg, steel")))
                     .job(),
                 0));
    CHECK(!holds(priced_ok(model_with(with(ground, "1,000 lbf", "0 lbf"))).job(), 0));
}

} // namespace plan_bounds_test
