#include <doctest/doctest.h>

#include <string>

#include "lang/syntax/parse.h"
#include "tests/support/compile_text.h"

namespace check_test {

using namespace acre;
using namespace acre::lang;
using tests::compile_ok;
using tests::compile_text;
using tests::expect_diag;

namespace {

const Node& formula(const Sheet& sheet, std::string_view line) {
    const LineId id = sheet.find(line);
    REQUIRE(id != none);
    REQUIRE(sheet.lines[id].value != none);
    return sheet.nodes[sheet.lines[id].value];
}

// The codes reported, in order of place.
std::string codes(const std::string& text, const tests::Choices& choices = {}) {
    std::string out;
    const tests::Compilation c = compile_text(text, choices);
    for (const Diagnostic& d : c.diagnostics.all())
        out += std::string(out.empty() ? "" : " ") + std::string(name_of(d.code));
    return out;
}

const std::string head = "model \"m\"\n"
                         "given fuel_rate = $40/h\n"
                         "given land = $12/ac\n"
                         "given pace = 5 ac/h\n"
                         "given season_use : h/yr = 800 h/yr\n"
                         "given owning = $30,000/yr\n"
                         "given age = 9 yr\n"
                         "given depth = 5 ft\n"
                         "choice texture = fine | coarse\n"
                         "given soil : texture = fine\n"
                         "given method = full | rows\n";

} // namespace

TEST_CASE("a conversion stands only where scales differ, with the exact factor") {
    const tests::Compilation c = compile_ok(head + "a : in = depth\n"
                                                   "b : ft = depth\n"
                                                   "c : ft = depth + 6 in\n"
                                                   "d : in = 6 in + depth\n"
                                                   "e : ac/h = 1.5 mi/h * depth\n"
                                                   "f : % = 1 - 0.5\n");
    const Sheet& sheet = **c.sheet;
    CHECK(formula(sheet, "a").op == Op::Convert);
    CHECK(formula(sheet, "a").conversion.factor == 12);
    CHECK(formula(sheet, "b").op == Op::Line);
    CHECK(formula(sheet, "c").op == Op::Add);
    CHECK(sheet.nodes[formula(sheet, "c").b].op == Op::Convert); // the right side comes to the left
    CHECK(sheet.nodes[formula(sheet, "c").b].conversion.divide);
    CHECK(formula(sheet, "d").op == Op::Add);
    CHECK(sheet.nodes[formula(sheet, "d").b].conversion.factor == 12);
    // mi.ft/h to ac/h: divided by 8.25, which is exact.
    CHECK(formula(sheet, "e").op == Op::Convert);
    CHECK(formula(sheet, "e").conversion.divide);
    CHECK(formula(sheet, "e").conversion.factor == 8.25);
    CHECK(formula(sheet, "f").conversion.factor == 100);
}

TEST_CASE("every node of a checked sheet has a type") {
    const tests::Compilation c = compile_ok(
        head + "define f (x : ft, t : texture) : ft = y + x\n"
               "  y : in = when t is fine then x otherwise 2 * x\n"
               "table burn (load : %) : gal/h\n"
               "  0 1\n"
               "  100 2\n"
               "a : ft = f(depth, soil)\n"
               "b : gal/h = burn(1 - 0.5) + burn(50 %)\n"
               "g : ft = min(depth, 6 in, 1 yd)\n"
               "r : day = ceil(2.5 day, 1 day)\n"
               "q : ft = sqrt(2 ac)\n"
               "s : 1 = sin(30 deg)\n"
               "w : ft = when method is rows and not (depth > 3 ft) then 1 ft otherwise 2 in\n"
               "require depth < 1 yd * 3 or soil is not fine \"no\"\n");
    const Sheet& sheet = **c.sheet;
    for (const Node& node : sheet.nodes) {
        CHECK(node.type.kind != Type::Kind::Poison);
        if (node.op == Op::Convert) {
            CHECK(sheet.nodes[node.a].type.unit.dim == node.type.unit.dim);
            CHECK_FALSE(sheet.nodes[node.a].type.unit.scale == node.type.unit.scale);
        }
    }
    const Node& min = formula(sheet, "g");
    CHECK(sheet.nodes[sheet.args[min.first_arg]].op == Op::Line);
    CHECK(sheet.nodes[sheet.args[min.first_arg + 1]].op == Op::Convert);
    const Node& table = formula(sheet, "b");
    CHECK(sheet.nodes[sheet.nodes[table.a].a].op == Op::Convert); // 1 - 0.5 becomes 50 %
    CHECK(sheet.nodes[sheet.nodes[table.b].a].op == Op::Number);
}

TEST_CASE("settings, bounds, swings and steps come in the unit of their given") {
    const tests::Compilation c = compile_ok(
        "job \"j\"\nmodel \"m\"\nset depth = 1 yd\n",
        {{{"m.rate", "model \"m\"\n"
                     "given depth = 24 in within 1 ft .. 2 m swing 0.5 yd .. 1.5 yd \"depth\"\n"
                     "given area = 10 ac \"area\"\n"
                     "cost work : $/ac = $100/ac over area \"work\"\n"
                     "price \"Job\" per ac of area\n"
                     "  margin 15 %\n"
                     "  at least 90,000 cent\n"}}});
    const Sheet& sheet = **c.sheet;
    const LineId depth = sheet.find("depth");
    const Given& given = sheet.givens[sheet.lines[depth].given];
    REQUIRE(given.settings.size() == 2);
    CHECK(given.settings[0].value != given.settings[1].value);
    CHECK(sheet.lines[depth].value == given.settings[1].value);
    CHECK(sheet.nodes[given.settings[1].value].conversion.factor == 36);
    for (const NodeId bound :
         {given.within_low, given.within_high, given.swing_low, given.swing_high})
        CHECK(sheet.nodes[bound].type.unit.scale == sheet.lines[depth].type.unit.scale);
    CHECK(sheet.nodes[sheet.prices[0].steps[1].value].type.unit.dim.exponent[Money] == 1);
}

TEST_CASE("a formula is checked against what others declare, so one mistake is one error") {
    CHECK(codes(head + "a : $/h = land\n"
                       "b : $/h = a + $1/h\n"
                       "c : $/ac = b / pace\n") == "U302");
    CHECK(codes(head + "a : ft = depth + nothing + age\n") ==
          "N201"); // what is missing silences its sum
    CHECK(codes(head + "a : ft = (depth + age) * 2 + depth\n") == "U301");
    CHECK(codes(head + "a : ft = f(age)\ndefine f (x : ft) : $ = x\n") ==
          "U302 U305 U302"); // three mistakes
}

TEST_CASE("each mistake has its code") {
    struct {
        const char* text;
        const char* codes;
    } const rows[] = {
        {"a : $/h = fuel_rate + land\n", "U301"},
        {"a : $/h = fuel_rate - land\n", "U301"},
        {"a : $/h = min(fuel_rate, land)\n", "U301"},
        {"a : $/h = when depth > 1 ft then fuel_rate otherwise land\n", "U301"},
        {"require depth > age \"x\"\n", "U301"},
        {"a : day = ceil(1 day, 1 h)\n", "U301"},
        {"a : ft = depth + 1\n", "U301"},
        {"a : $/h = fuel_rate + owning\n", "U303"},
        {"a : $/yr = min(owning, fuel_rate)\n", "U303"},
        {"a : $/ac = fuel_rate\n", "U302"},
        {"a : $/h = 24.50\n", "U304"},
        {"a : $/h = $24.50/ac\n", "U304"},
        {"given w : $/h = 24.50\n", "U304"},
        {"given w = 3 ft within 1 .. 2 yr\n", "U304 U304"},
        {"given w = 3 ft swing 1 h .. 2 m\n", "U304"},
        {"a : 1 = exp(depth)\n", "U305"},
        {"a : 1 = cos(1)\n", "U305"},
        {"a : ft = round(depth)\n", "U305"},
        {"a : 1 = age ^ 0.68\n", "U306"},
        {"a : 1 = 2 ^ depth\n", "U306"},
        {"a : 1 = depth ^ age\n", "U306"},
        {"a : ft = sqrt(depth)\n", "U307"},
        {"a : 1 = depth > 1 ft\n", "U308"},
        {"a : ft = when depth then 1 ft otherwise 2 ft\n", "U308"},
        {"require not depth \"x\"\n", "U308"},
        {"caution when depth + 1 ft \"x\"\n", "U308"},
        {"a : 1 = 1 + (depth > 1 ft)\n", "U308"},
        {"a : 1 = soil + 1\n", "U309"},
        {"require soil == 3 \"x\"\n", "U309"},
        {"a : 1 = soil\n", "U309"},
        {"require soil == method \"x\"\n", "U313"},
        {"cost c : $/h = fuel_rate over 10 ac\n", "U310"},
        {"a : 1 = (1 mi) ^ 100\n", "U312"},
        {"a : 1 = a\n", "G401"},
        {"a : 1 = b\nb : 1 = c\nc : 1 = a\n", "G401"},
        {"define f (x : 1) : 1 = f(x)\n", "G402"},
        {"define f (x : 1) : 1 = g(x)\ndefine g (x : 1) : 1 = f(x)\n", "G402"},
        {"a : in = 1 in + 20 gal/ac\n", "L805"},
    };
    for (const auto& row : rows) {
        CAPTURE(std::string(row.text));
        CHECK(codes(head + row.text) == row.codes);
    }
}

TEST_CASE("what is right is left in peace") {
    for (const char* text : {
             "a : $/h = fuel_rate + owning / season_use\n",
             "a : $/ac = fuel_rate / pace + land\n",
             "a : ft^2 = depth ^ 2\n",
             "a : 1/ft = depth ^ -1\n",
             "a : 1 = (age / 1 yr) ^ 0.68\n",
             "a : 1 = 50 % + 0.25\n",
             "a : $ = 15 % * $100\n",
             "a : ft = sqrt(43,560 ft^2)\n",
             "a : deg = atan(1) * 2\n",
             "a : mph = 3 mi/h + 1 km/h\n",
             "a : hp = 300 kW + 375 lbf.mi/h\n",
             "a : h = 30 min + 1 h + 60 s\n",
             "a : yr = 6 mo + age\n",
             "a : ac = 5,280 ft * 33 ft + 2 ac + 1 ha\n",
             "a : gal/ac = 1 in + 2 in\n", // one length declared as another: the author says so
             "require 8 h/day * 2 day > 3 h \"x\"\n",
             "ground : texture = when soil is fine then coarse otherwise fine\n",
         }) {
        CAPTURE(std::string(text));
        CHECK(codes(head + text).empty());
    }
}

TEST_CASE("a loop is told once, with a mark on each step of a shortest way round") {
    const Diagnostic d =
        expect_diag(head + "a : 1 = b + c\nb : 1 = a * 2\nc : 1 = d\nd : 1 = a\n", Code::G401);
    CHECK(d.title == "2 lines depend on each other in a loop");
    CHECK(d.primary.text == "`a` uses `b`");
    REQUIRE(d.others.size() == 1);
    CHECK(d.others[0].text == "`b` uses `a`");
    std::string chain;
    for (int i = 0; i < 3000; ++i)
        chain.append("x" + std::to_string(i))
            .append(" : 1 = x" + std::to_string((i + 1) % 3000))
            .append("\n");
    const Diagnostic large = expect_diag("model \"m\"\n" + chain, Code::G401);
    CHECK(large.others.size() == 5);
    CHECK(large.notes.at(0) == "and so on, 3000 steps in all, back to `x0`");
}

TEST_CASE("loops in their thousands are counted, and what they cost stays in proportion") {
    std::string text = "model \"m\"\n";
    for (int i = 0; i < 30'000; ++i)
        text.append("x" + std::to_string(i)).append(" : 1 = x" + std::to_string(i)).append("\n");
    const tests::Compilation c = compile_text(text);
    CHECK(c.diagnostics.error_count() == 30'000);
    CHECK(c.diagnostics.all().size() == Diagnostics::cap);
}

TEST_CASE("a formula as deep as may be is checked, in words too") {
    const auto deep = [](const std::string& inner) {
        std::string formula = inner;
        for (int i = 0; i < 190; ++i)
            formula = "(" + formula + ") + depth";
        return formula;
    };
    CHECK(codes(head + "a : ft = " + deep("depth") + "\n").empty());
    CHECK(codes(head + "a : $/h = " + deep("depth") + "\n") == "U302");
    std::string sum = "depth";
    for (std::uint32_t i = 2; i < max_formula_depth; ++i)
        sum += " * 1.5";
    CHECK(codes(head + "a : ft = " + sum + "\n").empty());
    CHECK(codes(head + "a : $/h = " + sum + "\n") == "U302");
}

TEST_CASE("a loop through a value that a job sets is found, one through a value that is not in "
          "force is none") {
    const tests::Files files = {
        {"m.rate", "model \"m\"\ngiven a = 1 \"a\"\nb : 1 = a + 1 \"b\"\n"}};
    CHECK(codes("job \"j\"\nmodel \"m\"\nset a = b\n", {files}) == "G401");
    CHECK(codes("job \"j\"\nmodel \"m\"\nset a = b\n", {files, "", {{"a", "2"}}}).empty());
}

TEST_CASE("each line has the label, the unit and the reason of its statement") {
    const tests::Compilation c = compile_ok(
        "model \"m\"\ngiven area = 8 ac  \"acres\"\nx : ft = 3 ft  \"width\"  because \"map\"\n"
        "cost c : $/ac = $3/ac over area  \"spread\"  because \"quote\"\n"
        "event e = 0.1 1/ac over area costs $30  \"a lost tip\"\n");
    const Sheet& sheet = **c.sheet;
    struct Row {
        const char *name, *label, *unit, *because;
    };
    for (const Row& row : {Row{"area", "acres", "ac", ""}, Row{"x", "width", "ft", "map"},
                           Row{"c", "spread", "$/ac", "quote"}, Row{"c.quantity", "", "ac", ""},
                           Row{"c.amount", "", "$", ""}, Row{"e", "a lost tip", "1", ""},
                           Row{"e.amount", "", "$", ""}, Row{"e.money", "", "$", ""}}) {
        CAPTURE(std::string(row.name));
        REQUIRE(sheet.find(row.name) != none);
        const Line& line = sheet.lines[sheet.find(row.name)];
        CHECK(line.label == row.label);
        CHECK(line.unit_text == row.unit);
        CHECK(line.because == row.because);
    }
}

TEST_CASE("what is computed has no swing to correlate, and the line that computes it is shown") {
    const tests::Compilation c =
        compile_text("model \"m\"\ngiven a = 1 swing 0 .. 2\nx : 1 = 2\ncorrelate a, x 60 %\n");
    REQUIRE(c.diagnostics.error_count() == 1);
    const Diagnostic& d = c.diagnostics.all()[0];
    CHECK(d.title == "`x` is computed; only givens can be correlated");
    REQUIRE(d.others.size() == 1);
    CHECK(c.sources->file(d.others[0].span.file).position(d.others[0].span.begin).line == 3);
}

} // namespace check_test
