// The lane reader against the value reader, lane by lane, to the last bit: for every operation,
// every width of vector this machine has, any number of lanes, and any choice of what varies.
#include <doctest/doctest.h>

#include <bit>
#include <cmath>
#include <set>

#include "engine/native/native.h"
#include "engine/readers/lanes.h"
#include "engine/readers/lanes/kernels.h"
#include "engine/readers/value.h"
#include "tests/property/random_plan.h"

namespace lane_reader_test {

using namespace acre::engine;
using acre::tests::PlanMaker;
using acre::tests::RandomPlan;

namespace {

bool same(double a, double b) {
    return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b) || (a != a && b != b);
}

struct Lanes {
    std::vector<std::vector<double>> column;
    std::vector<double*> at;
    Lanes(std::size_t columns, std::size_t lanes) : column(columns, std::vector<double>(lanes)) {
        for (auto& c : column)
            at.push_back(c.data());
    }
};

// How many of the answers differ; `sound` counts those that are numbers.
std::size_t differences(const Plan& plan, const std::vector<std::uint32_t>& varied,
                        const std::vector<Slot>& wanted, std::size_t lanes, std::uint32_t bits,
                        PlanMaker& random, std::size_t& sound) {
    const LaneReader reader(plan, varied, wanted, {}, bits);
    const auto scratch = reader.scratch();
    Lanes in(varied.size(), lanes), out(wanted.size(), lanes);
    for (auto& column : in.column)
        for (double& x : column)
            x = random.number();
    reader.run(lanes, in.at.data(), out.at.data(), *scratch);

    std::vector<double> inputs;
    for (const Input& input : plan.inputs)
        inputs.push_back(input.value);
    std::size_t wrong = 0;
    for (std::size_t i = 0; i < lanes; ++i) {
        for (std::size_t k = 0; k < varied.size(); ++k)
            inputs[varied[k]] = in.column[k][i];
        const Values expected = evaluate(plan, inputs);
        for (std::size_t k = 0; k < wanted.size(); ++k) {
            const double x = expected.slot[wanted[k]];
            wrong += !same(x, out.column[k][i]);
            sound += x == x;
        }
    }
    return wrong;
}

std::vector<std::uint32_t> some_inputs(const Plan& plan, PlanMaker& random) {
    std::vector<std::uint32_t> varied;
    const std::size_t of_four = 1 + random.below(4);
    for (std::uint32_t k = 0; k < plan.inputs.size(); ++k)
        if (random.below(4) < of_four)
            varied.push_back(k);
    return varied;
}

} // namespace

TEST_CASE("a batch gives the bits of the value reader, whatever the plan, the width and the number "
          "of lanes") {
    std::size_t sound = 0, answers = 0;
    std::set<OpCode> seen;
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
        PlanMaker random(seed);
        const RandomPlan made = random.make(1 + seed % 12, 40 + seed % 150);
        for (const Operation& op : made.plan.operations)
            seen.insert(op.code);
        std::vector<Slot> wanted;
        for (Slot slot = 0; slot < made.plan.size(); ++slot)
            if (random.below(4) == 0)
                wanted.push_back(slot);
        wanted.push_back(wanted.empty() ? 0 : wanted.front()); // one slot twice
        for (const lanes::KernelSet* set : lanes::kernel_sets())
            for (const std::size_t lanes : {1U, 7U, 16U, 33U}) {
                const auto varied = some_inputs(made.plan, random);
                CAPTURE(seed);
                CAPTURE(set->name);
                CAPTURE(lanes);
                CHECK(differences(made.plan, varied, wanted, lanes, set->bits, random, sound) == 0);
                answers += lanes * wanted.size();
            }
    }
    CHECK(seen.size() == static_cast<std::size_t>(OpCode::Native) + 1); // no operation went untried
    CHECK(sound > answers / 5); // and most plans gave numbers, not only poison
    CHECK(sound < answers);
}

TEST_CASE("full batches and batches a lane short agree too") {
    std::size_t sound = 0;
    for (std::uint64_t seed = 1000; seed < 1006; ++seed) {
        PlanMaker random(seed);
        const RandomPlan made = random.make(10, 120);
        std::vector<Slot> wanted{made.numbers.back(), made.conditions.back(),
                                 made.numbers[made.numbers.size() / 2], 0};
        for (const std::size_t lanes : {511U, 512U})
            CHECK(differences(made.plan, some_inputs(made.plan, random), wanted, lanes, 512, random,
                              sound) == 0);
    }
    CHECK(sound > 0);
}

TEST_CASE("an infinity on the way never comes back as a number") {
    // 1 / (x * x) with x * x too large is poison, not zero; so is min(x * x, 3), and the branch not
    // taken harms nothing.
    Plan plan;
    plan.inputs = {{0, 1e200, 0, false}};
    plan.constants = {1, 3};
    plan.operations = {
        {OpCode::Input, 0},       {OpCode::Constant, 0},    {OpCode::Constant, 1},
        {OpCode::Multiply, 0, 0}, {OpCode::Divide, 1, 3},   {OpCode::Min, 3, 2},
        {OpCode::Less, 3, 2},     {OpCode::Less, 1, 2},     {OpCode::Select, 7, 2, 3},
        {OpCode::Add, 3, 1},      {OpCode::Multiply, 3, 3}, {OpCode::Divide, 9, 10},
        {OpCode::Exp, 3}};
    const std::vector<Slot> wanted{4, 5, 6, 8, 11, 12};
    for (const lanes::KernelSet* set : lanes::kernel_sets()) {
        const LaneReader reader(plan, std::vector<std::uint32_t>{0}, wanted, {}, set->bits);
        const auto scratch = reader.scratch();
        const double x[] = {1e200, 2};
        const double* in[] = {x};
        Lanes out(wanted.size(), 2);
        reader.run(2, in, out.at.data(), *scratch);
        for (const std::size_t k : {0U, 1U, 2U, 4U, 5U})
            CHECK(std::isnan(out.column[k][0]));
        CHECK(out.column[3][0] == 3);
        CHECK(out.column[0][1] == 0.25);
        CHECK(out.column[1][1] == 3);
        CHECK(out.column[2][1] == 0);
        CHECK(out.column[4][1] == 5.0 / 16);
    }
}

TEST_CASE("what does not vary is not done again for each lane") {
    PlanMaker random(7);
    const RandomPlan made = random.make(25, 200);
    const std::vector<Slot> wanted{made.numbers.back()};
    std::vector<std::uint32_t> all(25);
    for (std::uint32_t k = 0; k < all.size(); ++k)
        all[k] = k;
    const LaneReader everything(made.plan, all, wanted);
    const LaneReader nothing(made.plan, {}, wanted);
    CHECK(nothing.size().instructions == 1); // a number copied to the lanes
    CHECK(everything.size().instructions > nothing.size().instructions);
    CHECK(everything.size().instructions < made.plan.size());
}

TEST_CASE("what a native function said of a lane is said again only for the same arguments") {
    // A search over depths is not done again where only prices moved; a lane whose ground moved
    // must not get an old answer.
    for (const std::size_t calls : {1U, 40U}) { // more than are remembered lane by lane
        Plan plan;
        const std::vector<double> ground{5,   0.4, 50,  1.5, 95,  180, 60, 30,  20,
                                         1,   100, 400, 90,  34,  22,  2,  105, 700,
                                         120, 36,  23,  110, 900, 150, 33, 22,  9};
        const std::uint32_t arity = native_functions()[0].arity(4);
        REQUIRE(ground.size() == arity);
        for (std::uint32_t k = 0; k < arity; ++k) {
            plan.inputs.push_back({k, ground[k], k, false});
            plan.operations.push_back({OpCode::Input, k});
        }
        plan.inputs.push_back({arity, 2, arity, false});
        plan.operations.push_back({OpCode::Input, arity}); // a price
        std::vector<Slot> wanted;
        for (std::uint32_t c = 0; c < calls; ++c) {
            plan.calls.push_back({c % 4, {}});
            for (std::uint32_t k = 0; k < arity; ++k)
                plan.calls.back().args.push_back(k);
            plan.operations.push_back({OpCode::Native, c});
            plan.operations.push_back(
                {OpCode::Multiply, static_cast<Slot>(plan.size() - 1), arity});
            wanted.push_back(static_cast<Slot>(plan.size() - 1));
        }
        const std::vector<std::uint32_t> varied{0, 5, arity};
        const LaneReader reader(plan, varied, wanted);
        const auto scratch = reader.scratch();
        constexpr std::size_t lanes = 39;
        Lanes in(3, lanes), out(wanted.size(), lanes);
        std::size_t wrong = 0, sound = 0;
        for (int round = 0; round < 6; ++round) {
            for (std::size_t i = 0; i < lanes; ++i) {
                in.column[2][i] = 1 + round + static_cast<double>(i); // the price, every time
                if (round == 0 || i % 3 == static_cast<std::size_t>(round) % 3) {
                    in.column[0][i] =
                        3 + static_cast<double>((i / 2 + static_cast<std::size_t>(round)) %
                                                5); // neighbors may be alike
                    in.column[1][i] = 150 + static_cast<double>(i % 4);
                }
            }
            reader.run(lanes, in.at.data(), out.at.data(), *scratch);
            for (std::size_t i = 0; i < lanes; ++i) {
                std::vector<double> inputs = ground;
                inputs.push_back(in.column[2][i]);
                inputs[0] = in.column[0][i];
                inputs[5] = in.column[1][i];
                const Values expected = evaluate(plan, inputs);
                for (std::size_t k = 0; k < wanted.size(); ++k) {
                    wrong += !same(expected.slot[wanted[k]], out.column[k][i]);
                    sound += expected.slot[wanted[k]] == expected.slot[wanted[k]];
                }
            }
        }
        CHECK(wrong == 0);
        CHECK(sound == 6 * lanes * calls);
    }
}

} // namespace lane_reader_test
