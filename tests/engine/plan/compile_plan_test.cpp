#include "engine/plan/compile_plan.h"

#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace compile_plan_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

std::size_t count(const Plan& plan, OpCode code) {
    std::size_t n = 0;
    for (const Operation& op : plan.operations)
        n += op.code == code ? 1 : 0;
    return n;
}
const Input* input_of(const Priced& p, const char* name) {
    for (const Input& input : p.plan().inputs)
        if (input.line == p.line(name))
            return &input;
    return nullptr;
}

} // namespace

TEST_CASE(
    "a given whose formula stands alone is an input; one that rests on something is computed") {
    const Priced p = priced_ok("model \"m\"\n"
                               "choice way = one | both\n"
                               "table burn (load : %) : gal/h\n  20  8\n  100  38\n"
                               "define twice (x : ft) : ft = x + x\n"
                               "given area : ac = 2 * 40 ac\n"
                               "given method : way = both\n"
                               "given spacing : ft = area / 43560 ft\n"
                               "given flow : gal/h = burn(60 %)\n"
                               "given reach : ft = twice(3 ft)\n"
                               "given high : in = 2 ft\n");
    REQUIRE(input_of(p, "area") != nullptr);
    CHECK(input_of(p, "area")->value == 80);
    CHECK_FALSE(input_of(p, "area")->is_choice);
    REQUIRE(input_of(p, "method") != nullptr);
    CHECK(input_of(p, "method")->value == 1);
    CHECK(input_of(p, "method")->is_choice);
    REQUIRE(input_of(p, "high") != nullptr);
    CHECK(input_of(p, "high")->value == 24);
    CHECK(input_of(p, "spacing") == nullptr);
    CHECK(input_of(p, "flow") == nullptr);
    CHECK(input_of(p, "reach") == nullptr);
    CHECK(p.value("spacing") == 80);
    CHECK(p.value("flow") == 23);
    CHECK(p.value("reach") == 6);
    // Inputs come first, so that a reader finds them at the front of the plan.
    for (std::size_t i = 0; i < p.plan().inputs.size(); ++i)
        CHECK(p.plan().inputs[i].slot == i);
}

TEST_CASE("a computed given that swings by shares of it is its formula times an input at 1") {
    const std::string head = "model \"m\"\ngiven a = 0.3  \"a\"\ngiven b : 1 = a / 0.7  \"b\"  ";
    const Priced without = priced_ok(head + "\ny : 1 = b * 3\n");
    const Priced p = priced_ok(head + "swing 80 % .. 120 % of it\ny : 1 = b * 3\n");
    REQUIRE(input_of(p, "b") != nullptr);
    CHECK(input_of(p, "b")->is_share);
    CHECK(input_of(p, "b")->value == 1);
    CHECK(p.value("y") == without.value("y")); // every bit
    const std::vector<double> inputs{0.3, 1.1};
    CHECK(evaluate(p.plan(), inputs).slot[p.slot("y")] ==
          doctest::Approx(without.value("y") * 1.1));
    // Set to a number it is an input as any other, and the bounds are values.
    const Priced set =
        priced_ok(head + "swing 80 % .. 120 % of it\ny : 1 = b * 3\n", {.sets = {{"b", "2"}}});
    REQUIRE(input_of(set, "b") != nullptr);
    CHECK_FALSE(input_of(set, "b")->is_share);
    const std::size_t given = set.sheet().lines[set.line("b")].given;
    CHECK(set.values().slot[set.plan().swing_low[given]] == doctest::Approx(1.6));
    CHECK(set.values().slot[set.plan().swing_high[given]] == doctest::Approx(2.4));
}

TEST_CASE("a given with a formula becomes an input when a job sets a value") {
    const Priced p =
        priced_ok("job \"j\"\nmodel \"m\"\nset speed = 2 mi/h\n",
                  {{{"m.rate", "model \"m\"\ngiven top = 3 mi/h\ngiven speed : mi/h = top / 2\n"}},
                   {},
                   {},
                   {}});
    REQUIRE(input_of(p, "speed") != nullptr);
    CHECK(input_of(p, "speed")->value == 2);
}

TEST_CASE("equal parts of different lines are computed once") {
    const Priced p = priced_ok("model \"m\"\n"
                               "given a = 3 ft\n"
                               "given b = 4 ft\n"
                               "x : ft^2 = a * b + a * a\n"
                               "y : ft^2 = b * a + a * a\n"
                               "z : ft^2 = (a * a + b * a) * 2\n");
    CHECK(p.slot("x") == p.slot("y"));
    CHECK(count(p.plan(), OpCode::Multiply) == 3); // a * b, a * a, * 2
    CHECK(p.value("z") == 42);
}

TEST_CASE("numbers between numbers fold away, units and all") {
    const Priced p =
        priced_ok("model \"m\"\ngiven a = 80 ac\nx : ac = a * (2 ^ 3 - 14 ft / 2 ft)\n");
    CHECK(count(p.plan(), OpCode::Add) == 0);
    CHECK(count(p.plan(), OpCode::Divide) == 0);
    CHECK(p.value("x") == 80);
}

TEST_CASE("a function is written out where it is called, once for the same values") {
    const std::string text = "model \"m\"\n"
                             "define hypotenuse (a : ft, b : ft) : ft = sqrt(square_a + b ^ 2)\n  "
                             "square_a : ft^2 = a ^ 2\n"
                             "given x = 3 ft\n"
                             "given y = 4 ft\n"
                             "p : ft = hypotenuse(x, y)\n"
                             "q : ft = hypotenuse(x, y) * 2\n"
                             "r : ft = hypotenuse(y, x)\n";
    const Priced p = priced_ok(text);
    CHECK(p.value("p") == 5);
    CHECK(p.value("q") == 10);
    CHECK(p.value("r") == 5);
    CHECK(p.compiled().origins.inlined.size() == 3);
    // The sum of squares does not mind the order, so all three share the root.
    CHECK(count(p.plan(), OpCode::Sqrt) == 1);
    for (const Origins::Inlined& call : p.compiled().origins.inlined) {
        REQUIRE(call.args.size() == 2);
        REQUIRE(call.locals.size() == 1);
        const double a = p.values().slot[call.args[0]];
        CHECK(p.values().slot[call.locals[0]] == a * a);
    }
}

TEST_CASE("a limit of a function guards its result, a tested range only marks it") {
    const std::string text = "model \"m\"\n"
                             "define pace (width : ft, speed : mi/h) : ac/h = width * speed\n"
                             "  limit width 1 ft .. 100 ft\n"
                             "  tested speed 1 mi/h .. 6 mi/h\n"
                             "given width = 20 ft\n"
                             "given speed = 8 mi/h\n"
                             "p : ac/h = pace(width, speed)\n"
                             "q : ac/h = pace(20 ft, 5 mi/h)\n";
    const Priced p = priced_ok(text);
    CHECK(p.value("p") == doctest::Approx(8 * 20 * 5280 / 43560.0)); // by hand
    CHECK(count(p.plan(), OpCode::Guard) == 2);
    REQUIRE(p.plan().tested.size() == 1); // the second call is known to be inside
    const Plan::TestedRange& range = p.plan().tested.front();
    CHECK(p.values().slot[range.value] == 8);
    CHECK(p.values().slot[range.low] == 1);
    CHECK(p.values().slot[range.high] == 6);
    CHECK(range.parameter == 1);
    CHECK(range.call == p.slot("p"));
    std::vector<double> inputs{0.5, 8};
    CHECK(std::isnan(evaluate(p.plan(), inputs).slot[p.slot("p")]));
}

TEST_CASE("a tower of functions that doubles at each level stops at the bound") {
    std::string text = "model \"m\"\ngiven x = 1\ndefine f0 (x : 1) : 1 = x * 3\n";
    for (int i = 1; i < 64; ++i) {
        const std::string below = "f" + std::to_string(i - 1);
        text += "define f" + std::to_string(i) + " (x : 1) : 1 = " + below + "(x * 2) + " + below +
                "(x + 1)\n";
    }
    const Priced p = priced(text + "y : 1 = f63(x)\n");
    CHECK_FALSE(p.made.value.has_value());
    const lang::Diagnostic* found = p.find(lang::Code::G403);
    REQUIRE(found != nullptr);
    CHECK(found->title == "the calculation grows past 1,000,000 operations in `y`");
    CHECK(p.made.said.diagnostics.error_count() == 1);

    // The same tower with equal calls is small: each level is computed once.
    std::string same = "model \"m\"\ngiven x = 1\ndefine f0 (x : 1) : 1 = x * 3\n";
    for (int i = 1; i < 64; ++i) {
        const std::string below = "f" + std::to_string(i - 1);
        same +=
            "define f" + std::to_string(i) + " (x : 1) : 1 = " + below + "(x) + " + below + "(x)\n";
    }
    const Priced small = priced_ok(same + "y : 1 = f63(x)\n");
    CHECK(small.plan().size() < 70);
    CHECK(small.value("y") == 3 * std::pow(2, 63));
}

TEST_CASE("functions that only shuffle their arguments and leave nothing behind stop too") {
    std::string text = "model \"m\"\n";
    const std::string names = "a, b, c, d, e, f, g, h, i, j, k, l";
    const std::string units =
        "a : 1, b : 1, c : 1, d : 1, e : 1, f : 1, g : 1, h : 1, i : 1, j : 1, k : 1, l : 1";
    text += "define s0 (" + units + ") : 1 = 1\n";
    for (int n = 1; n < 40; ++n) {
        const std::string below = "s" + std::to_string(n - 1);
        text += "define s" + std::to_string(n) + " (" + units + ") : 1 = max(" + below +
                "(b, a, c, d, e, f, g, h, i, j, k, l), " + below +
                "(b, c, d, e, f, g, h, i, j, k, l, a))\n";
    }
    const Priced p = priced(text + "y : 1 = s39(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)\n");
    CHECK_FALSE(p.made.value.has_value());
    CHECK(p.find(lang::Code::G403) != nullptr);
}

TEST_CASE("a chain of nearly a hundred thousand lines, last first, needs no deep stack") {
    std::string text = "model \"m\"\ngiven a = 1 ft\n";
    for (int i = 0; i < 99'990; ++i)
        text += "l" + std::to_string(i) + " : ft = l" + std::to_string(i + 1) + " + 1 ft\n";
    text += "l99990 : ft = a\n";
    const Priced p = priced_ok(text);
    CHECK(p.value("l0") == 99'991);
    CHECK(p.plan().size() == 99'992);
}

TEST_CASE("givens without a value that the answers rest on are told in one diagnostic") {
    const std::string text =
        "model \"m\"\n"
        "given area = 80 ac\n"
        "given hours : h/yr \"meter hours a year\"\n"
        "given bought : $\n"
        "given idle : h\n"
        "given rate : $/h\n"
        "part \"Costs\"\n"
        "  cost owning : $/h = bought * 10 %/yr / hours over 100 h\n"
        "  cost hired : $/h = when area > 500 ac then rate otherwise $10/h over 1 h\n"
        "price \"Ripping\" per ac of area\n";
    const Priced p = priced(text);
    CHECK_FALSE(p.made.value.has_value());
    REQUIRE(p.made.said.diagnostics.error_count() == 1);
    REQUIRE(p.find(lang::Code::I603) != nullptr);
    const lang::Diagnostic& d = *p.find(lang::Code::I603);
    CHECK(d.title == "2 required values are missing");
    REQUIRE(d.notes.size() == 2);
    CHECK(d.notes[0] == "`hours` in h/yr, meter hours a year (test.rate, line 3)");
    CHECK(d.notes[1] == "`bought` in $ (test.rate, line 4)");
    REQUIRE(d.helps.size() == 1);
    CHECK(d.helps[0].text == "set them in the job or the season:  set hours = …, set bought = …");

    Choices choices;
    choices.sets = {{"hours", "1500 h/yr"}, {"bought", "$150,000"}};
    const Priced set = priced_ok(text, choices);
    CHECK(set.value("owning") == 10);
    CHECK(set.plan().line_slot[set.line("idle")] == no_slot);
}

TEST_CASE("every line, requirement, caution and bound has its slot") {
    const Priced p = priced_ok("model \"m\"\n"
                               "given depth = 5 ft within 1 ft .. 8 ft swing 4 ft .. depth_most\n"
                               "depth_most : ft = 7 ft\n"
                               "require depth <= depth_most \"too deep\"\n"
                               "caution when depth > 4 ft \"deep\"\n"
                               "caution \"call before ripping\"\n");
    const Plan& plan = p.plan();
    const auto value = [&](Slot slot) { return p.values().slot[slot]; };
    REQUIRE(plan.require_slot.size() == 1);
    CHECK(value(plan.require_slot[0]) == 1);
    REQUIRE(plan.caution_slot.size() == 2);
    CHECK(value(plan.caution_slot[0]) == 1);
    CHECK(value(plan.caution_slot[1]) == 1);
    CHECK(value(plan.within_low[0]) == 1);
    CHECK(value(plan.within_high[0]) == 8);
    CHECK(value(plan.swing_low[0]) == 4);
    CHECK(plan.swing_high[0] == p.slot("depth_most"));
    CHECK(p.compiled().origins.node.size() == plan.size());
    CHECK(p.compiled().origins.line.size() == plan.size());
    CHECK(p.compiled().origins.outer_node.size() == plan.size());
}

TEST_CASE("a native function that the program does not have is told where it is declared") {
    const Priced p =
        priced("model \"m\"\ndefine moon_pull (x : ft) : lbf native\ny : lbf = moon_pull(3 ft)\n");
    CHECK_FALSE(p.made.value.has_value());
    const lang::Diagnostic* found = p.find(lang::Code::N212);
    REQUIRE(found != nullptr);
    CHECK(found->title == "the program has no function `moon_pull` that takes 1 value");
}

} // namespace compile_plan_test
