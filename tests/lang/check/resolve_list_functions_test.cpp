// Functions over a list: what their columns become, what calls hand them, and what is wrong.
#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"
#include "tests/support/value_of.h"

namespace resolve_list_functions_test {

using namespace acre;
using tests::Files;
using tests::resolve_ok;
using tests::resolve_text;

namespace {

const std::string head = R"(model "m"
list layer = top | pan  "ground"
define load (share : 1) each layer (thick : ft, weight : lb/ft) : lb = share * sum(own)
  own : lb = thick * weight
define deep () each layer (thick : ft) : ft = most(bottom)
  bottom : ft = before(thick) + thick
)";
const std::string layers = R"(part "Layers" each layer
  given thick : ft = when layer is top then 3 ft otherwise 1 ft
  weight : lb/ft = 100 lb/ft
)";

std::string errors(const std::string& text) {
    return resolve_text(text).codes();
}

} // namespace

TEST_CASE("a call hands the lines of every entry, column by column") {
    const auto out = resolve_ok(head + layers + "all : lb = load(2, each layer)\n");
    const lang::Node& call = out.sheet.nodes[out.line("all").value];
    const lang::Function& function = out.sheet.functions[call.index];
    CHECK(function.rows == 2);
    CHECK(function.parameters ==
          std::vector<std::string>{"share", "thick_1", "weight_1", "thick_2", "weight_2"});
    std::string args;
    for (std::uint32_t i = 0; i < call.arg_count; ++i)
        args += tests::written(out.sheet, out.sheet.args[call.first_arg + i]) + " ";
    CHECK(args == "2 top.thick top.weight pan.thick pan.weight ");
    REQUIRE(function.locals.size() == 2);
    CHECK(function.locals[1].name == "own_2");
}

TEST_CASE("the job's entries are the rows, in its order") {
    const auto out =
        tests::compile_ok("job \"j\"\nmodel \"m\"\nlayer sand\nlayer clay\n  set thick = 4 "
                          "ft\nlayer rock\n",
                          {{{"m.rate", head + layers + "all : ft = deep(each layer)\n"}}});
    const lang::Sheet& sheet = **out.sheet;
    const lang::Node& call = sheet.nodes[sheet.lines[sheet.find("all")].value];
    CHECK(sheet.functions[call.index].rows == 3);
    CHECK(sheet.lines[sheet.nodes[sheet.args[call.first_arg + 1]].index].name == "clay.thick");
}

TEST_CASE("within a part each of the outer list, the entries of the inner one") {
    const auto out =
        resolve_ok("model \"m\"\nlist block = a | b\n" + head.substr(head.find('\n') + 1) +
                   "part \"L\" each layer of block\n  given thick = 2 ft\n"
                   "part \"B\" each block\n  all : ft = deep(each layer)\n");
    const lang::Node& call = out.sheet.nodes[out.line("b.all").value];
    CHECK(tests::written(out.sheet, out.sheet.args[call.first_arg + 1]) == "b.pan.thick");
}

TEST_CASE("a line stands for one row whichever part of its formula names a column") {
    const auto rows = [](const std::string& formula) {
        const auto out = resolve_ok("model \"m\"\nlist layer\n"
                                    "define f () each layer (thick : ft) : ft = sum(own)\n"
                                    "  own : ft = " +
                                    formula +
                                    "\n"
                                    "  known ours\n"
                                    "x : ft = f(each layer (1 ft), (2 ft), (3 ft))\n");
        return out.sheet.functions[out.sheet.nodes[out.line("x").value].index].locals.size();
    };
    for (const char* formula :
         {"thick", "-thick", "2 * thick", "thick * 2", "1 ft + (2 ft - thick)", "max(1 ft, thick)",
          "when thick > 2 ft then 1 ft otherwise 2 ft", "when 1 > 2 then thick otherwise 2 ft",
          "when 1 > 2 then 2 ft otherwise thick",
          "when not (thick > 2 ft) then 1 ft otherwise 2 ft", "before(thick)",
          "1 ft + before(thick)"}) {
        CAPTURE(formula);
        CHECK(rows(formula) == 3);
    }
}

TEST_CASE("a function hands its rows on to others, as many as it is called with itself") {
    const auto value = [](const std::string& formula, const std::string& entries = "") {
        return tests::value_of(
            "model \"m\"\nlist layer = top | mid | low\n"
            "define inner (share : 1) each layer (thick : ft) : ft = share * sum(thick)\n"
            "  known ours\n"
            "define middle (share : 1) each layer (thick : ft) : ft = 1 ft + inner(share, each "
            "layer)\n  known ours\n"
            "define outer () each layer (thick : ft) : ft = whole\n"
            "  whole : ft = middle(2, each layer) + sum(thick)\n  known ours\n" +
                entries + "x : ft = " + formula + "\n",
            "x");
    };
    // 1 + 2 x (3 + 4) + 3 + 4, and the same of one row and of four.
    CHECK(value("outer(each layer (3 ft), (4 ft))") == 22);
    CHECK(value("outer(each layer (3 ft))") == 10);
    CHECK(value("outer(each layer (3 ft), (4 ft), (1 ft), (2 ft))") == 31);
    CHECK(value("outer(each layer (3 ft)) + outer(each layer (3 ft), (4 ft))") == 32);
    CHECK(value("outer(each layer)", "part \"L\" each layer\n  given thick = 2 ft\n") == 19);
}

TEST_CASE("what is wrong with a call over a list") {
    const std::string ok = head + layers;
    CHECK(errors(ok + "x : lb = load(2)\n") == "N206");
    CHECK(errors(ok + "x : lb = load(each layer)\n") == "N206");
    CHECK(errors(ok + "list leg\nx : lb = load(2, each leg)\n") == "N206");
    CHECK(errors(ok + "x : lb = load(2, each layer (1 ft))\n") == "N206");
    CHECK(errors(ok + "x : lb = max(2 lb, each layer)\n") == "N206");
    CHECK(errors(ok + "define twice (a : ft) : ft = 2 * a\nx : ft = twice(each layer)\n") ==
          "N206");
    CHECK(errors(head + "x : lb = load(2, each layer)\n") == "N219"); // no part has the lines
    CHECK(errors(head +
                 "thick : ft = 3 ft\nweight : lb/ft = 1 lb/ft\nx : lb = load(2, each layer)\n") ==
          "N219"); // of no entry
    CHECK(
        errors(ok + "define outer (a : ft) : ft = a + deep(each layer)\nx : ft = outer(1 ft)\n") ==
        "N219");
    CHECK(
        errors(
            "model \"m\"\nlist block = a | b\n" + head.substr(head.find('\n') + 1) +
            "part \"L\" each layer of block\n  given thick = 2 ft\nx : ft = deep(each layer)\n") ==
        "N215");
    CHECK(errors("model \"m\"\ndefine f () each leyer (a : ft) : ft = sum(a)\nlist layer\n") ==
          "N217");
    CHECK(errors(ok + "x : lb = load(2, each layer, 3)\n") == "S110");
    CHECK(errors(ok + "x : lb = load(2, each layer (1 ft, 2 lb/ft), 3)\n") == "S103");
}

TEST_CASE("what is wrong inside a function over a list") {
    const auto of = [](const std::string& body) {
        return errors(
            "model \"m\"\nlist layer\ndefine f () each layer (thick : ft) : ft = " + body + "\n");
    };
    CHECK(of("sum(thick)").empty());
    CHECK(of("thick") == "N215");
    CHECK(of("sum(deep)\n  deep : ft = thick + before(deep)").empty());
    CHECK(of("deep\n  deep : ft = thick") == "N215");
    CHECK(of("sum(deep)\n  deep : ft = 3 ft") == "N213"); // one value, no row
    CHECK(of("sum(2 * thick)") == "N213");
    CHECK(of("before(thick)") == "N218");
    CHECK(of("sum(thck)") == "N213");
    CHECK(of("1 ft * how_many(layer)").empty());
    CHECK(errors("model \"m\"\nlist layer\ndefine f (thick : ft) each layer (thick : ft) : ft = 1 "
                 "ft\n") == "N202");
}

TEST_CASE("ranges of a column hold for every row, and a wrong unit in a row is told at it") {
    const std::string text =
        "model \"m\"\nlist layer\ndefine f () each layer (thick : ft) : ft native\n"
        "  limit thick 0 ft .. 9 ft\n  tested thick 1 ft .. 5 ft\n"
        "x : ft = f(each layer (1 ft), (2 ft), (3 ft))\n";
    const auto out = resolve_ok(text);
    const lang::Function& function =
        out.sheet.functions[out.sheet.nodes[out.line("x").value].index];
    REQUIRE(function.limits.size() == 3);
    CHECK(function.limits[2].parameter == 2);
    CHECK(function.tested.size() == 3);
    const auto wrong = tests::compile_text(head + "x : ft = deep(each layer (3 ft), (2 h))\n");
    REQUIRE(wrong.find(lang::Code::U305) != nullptr);
    CHECK(wrong.rendered().find("(2 h)") != std::string::npos);
}

} // namespace resolve_list_functions_test
