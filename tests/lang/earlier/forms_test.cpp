// Removed forms are warned of, renewed by one edit each, and mean the same before and after.
#include "lang/earlier/forms.h"

#include <string>

#include <doctest/doctest.h>

#include "lang/syntax/tidy.h"
#include "tests/support/compile_text.h"
#include "tests/support/parse_text.h"

namespace forms_test {

using namespace acre;
using tests::compile_text;

namespace {

struct Row {
    const char* before;
    const char* after;
};

std::string renewed(const std::string& text, lang::FileKind kind = lang::FileKind::Model) {
    return lang::renewed("t", text, kind);
}

} // namespace

TEST_CASE("each removed form of a model is renewed, and only that") {
    const Row rows[] = {
        {"use \"site\" as site", "use \"site\""},
        {"use \"library/season-prices\" as season_prices", "use \"library/season-prices\""},
        {"use \"site\" as place", "use \"site\" as place"},
        {"use \"site\" as site with miles = 3 mi", "use \"site\" as site with miles = 3 mi"},
        {"given a = 3 ft swing triangular 2 ft .. 4 ft", "given a = 3 ft swing 2 ft .. 4 ft"},
        {"given a = 3 swing step 2 .. 4", "given a = 3 swing whole 2 .. 4"},
        {"given a = 3 swing pert 2 .. 4", "given a = 3 swing pert 2 .. 4"},
        {"given wage = 28 $/h", "given wage = $28/h"},
        {"x : $ = 1,000 $ + 2.50 \u20AC", "x : $ = $1,000 + \u20AC2.50"},
        {"x : $/ac/ft = 12 $/(ac.ft)", "x : $/ac/ft = $12/(ac.ft)"},
        {"x : $ = 6.500 $", "x : $ = 6.500 $"}, // thousands to some
        {"x : $ = 45 USD", "x : $ = 45 USD"},
        {"unit bundle = 5 $", "unit bundle = 5 $"},
        {"table t (a : lb) : step $/move  below error above hold\n  1  2\n  2  3",
         "table t (a : lb) : step $/move above hold\n  1  2\n  2  3"},
        {"table t (a : lb) : $/move above error\n  1  2\n  2  3",
         "table t (a : lb) : $/move\n  1  2\n  2  3"},
        {"price \"R\" lump\n  contingency 3 %\n  margin 15 %",
         "price \"R\" lump\n  reserve 3 %\n  margin 15 %"},
        {"x : $ = rip.contingency - rip.contingency_2 - contingency",
         "x : $ = rip.reserve - rip.reserve_2 - contingency"},
        {"contingency : $ = $3", "contingency : $ = $3"}, // somebody's own name
        {"given m = rows | field\nrequire m == rows or field != m \"x\"",
         "given m = rows | field\nrequire m is rows or field != m \"x\""},
        {"choice c = rows | field\ncaution when m != field and k == no \"x\"",
         "choice c = rows | field\ncaution when m is not field and k is no \"x\""},
        {"given m = rows | a\ngiven a = 3\nx : 1 = when b == a then 1 otherwise 2",
         "given m = rows | a\ngiven a = 3\nx : 1 = when b == a then 1 otherwise 2"},
        {"caution \"swing step 3 $/h\"  # swing step 12 $/h",
         "caution \"swing step 3 $/h\"  # swing step 12 $/h"},
    };
    for (const Row& row : rows) {
        CAPTURE(std::string(row.before));
        const std::string head = "model \"m\"\n";
        CHECK(renewed(head + row.before + "\n") == head + row.after + "\n");
        CHECK(renewed(head + row.after + "\n") == head + row.after + "\n");
    }
}

TEST_CASE("those of jobs and seasons") {
    CHECK(renewed("job \"j\"\nmodel \"m\"\nset a = 12 $/ac swing step 1 .. 3\n",
                  lang::FileKind::Job) ==
          "job \"j\"\nmodel \"m\"\nset a = $12/ac swing whole 1 .. 3\n");
    CHECK(renewed("season \"s\"\nset a = 12 $/ac\n", lang::FileKind::Season) ==
          "season \"s\"\nset a = $12/ac\n");
}

TEST_CASE("a text with errors stays as it is") {
    const std::string text = "model \"m\"\ngiven a = 12 $/h swing step\n";
    CHECK(renewed(text) == text);
}

TEST_CASE("each is warned of with its edit, and a sealed text of an earlier version is not") {
    const std::string text = "model \"m\"\nchoice way = along | across\n"
                             "given method : way = along  \"way\"\n"
                             "given wage = 28 $/h  \"wage\"  swing triangular $20/h .. $30/h\n"
                             "hours : h = when method == along then 2 h otherwise 3 h  \"h\"\n"
                             "cost c : $/h = wage over hours  \"c\"\n"
                             "price \"R\" lump\n  contingency 3 %\n";
    const tests::Compilation now = compile_text(text);
    REQUIRE(now.sheet.has_value());
    std::string told;
    for (const lang::Diagnostic& d : now.diagnostics.all())
        if (d.code == lang::Code::L835)
            told += d.helps.front().text + "; ";
    CHECK(told == "write  $28/h; leave `triangular` out; write  method is along; write  reserve; ");
    tests::Choices sealed;
    sealed.notation = 3;
    const tests::Compilation then = compile_text(text, sealed);
    REQUIRE(then.sheet.has_value());
    CHECK(then.find(lang::Code::L835) == nullptr);
}

TEST_CASE("words that are newer than a text are names in it") {
    const std::string text = "model \"m\"\ngiven choose = 3  \"c\"\ngiven may = 4  \"m\"\n"
                             "define before (x : 1) : 1 = x + 1\n"
                             "y : 1 = before(choose) * may  \"y\"\n";
    CHECK_FALSE(compile_text(text).sheet.has_value());
    tests::Choices sealed;
    sealed.notation = 1;
    const tests::Compilation first = compile_text(text, sealed);
    CHECK_MESSAGE(first.sheet.has_value(), first.rendered());
    CHECK_FALSE(compile_text(text).sheet.has_value()); // and the next one is read by today's
}

TEST_CASE("a reserve is a reserve under either word") {
    const auto line = [](const char* step, const char* name) {
        const tests::Compilation c =
            compile_text("model \"m\"\ncost c : $/h = $3/h over 2 h  \"c\"\nprice \"R\" lump\n  " +
                         std::string(step) + " 3 %\n");
        REQUIRE(c.sheet.has_value());
        return (**c.sheet).find(name) != lang::none;
    };
    CHECK(line("reserve", "r.reserve"));
    CHECK(line("contingency", "r.contingency"));
}

} // namespace forms_test
