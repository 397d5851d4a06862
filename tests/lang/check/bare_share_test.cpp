#include "lang/check/bare_share.h"

#include <initializer_list>
#include <string>

#include <doctest/doctest.h>

#include "lang/units/share.h"
#include "tests/support/compile_text.h"

namespace bare_share_test {

using namespace acre;
using lang::Code;
using tests::compile_text;

namespace {

const std::string head = "model \"m\"\ngiven area = 40 ac  \"area\"\n"
                         "given lost = 10 %  \"lost\"\ngiven plain = 3  \"plain\"\n"
                         "define kept (gone : %) : % = 100 % - gone\n"
                         "table worn (load : %) : %  below hold  above hold\n  0  0\n  50  50\n";

// The numbers and names that S124 points at.
std::string found(const std::string& lines) {
    const auto out = compile_text(head + lines);
    std::string list;
    for (const lang::Diagnostic& d : out.diagnostics.all())
        if (d.code == Code::S124)
            list += (list.empty() ? "" : " ") + std::string(out.sources->text(d.primary.span));
    return list;
}

} // namespace

TEST_CASE("a bare number is no share, wherever a share is declared") {
    struct Row {
        const char *lines, *found;
    };
    for (const Row& row : std::initializer_list<Row>{
             {"given a : % = 15  \"a\"\n", "15"},
             {"given a : % = -15  \"a\"\n", "15"},
             {"a : % = 0.15  \"a\"\n", "0.15"},
             {"a : % = when area > 3 ac then 15 % otherwise 20  \"a\"\n", "20"},
             {"a : % = when area > 3 ac then 15 otherwise 20  \"a\"\n", "15 20"},
             {"a : % = min(5, lost)  \"a\"\n", "5"},
             {"a : 1 = 1 - max(lost, 5)  \"a\"\n", "5"},
             {"a : 1 = 1 - (when area > 3 ac then lost otherwise 5)  \"a\"\n", "5"},
             {"a : 1 = 1 - round(lost, 5)  \"a\"\n", "5"},
             {"a : % = kept(15)  \"a\"\n", "15"},
             {"a : % = worn(15)  \"a\"\n", "15"},
             {"require lost < 30  \"much\"\n", "30"},
             {"require 0.3 > lost  \"much\"\n", "0.3"},
             {"given a = 15 %  \"a\"  within 0 .. 1\n", "1"},
             {"given a = 15 %  \"a\"  swing 10 .. 20\n", "10 20"},
             {"cost c : $/ac = $1/ac over area\nprice \"P\" lump\n  overhead 8\n", "8"},
             {"given b = 2 swing 1 .. 3\ngiven c = 2 swing 1 .. 3\ncorrelate b, c 60\n", "60"},
             {"cost c : $/ac = $1/ac over area\nprice \"P\" lump\n  margin plain\n", "plain"},
         })
        CHECK_MESSAGE(found(row.lines) == std::string(row.found), std::string(row.lines),
                      found(row.lines));
}

TEST_CASE("what is no share by itself stays, and so does 0") {
    for (const char* lines :
         {"a : % = 1 - lost  \"a\"\n", "a : % = 2 * lost  \"a\"\n", "a : % = lost / 2  \"a\"\n",
          "a : % = 0  \"a\"\n", "given a = 15 %  \"a\"  within 0 .. 100 %\n",
          "a : 1 = 0.15  \"a\"\n", "a : 1 = min(1, plain)  \"a\"\n", "a : % = lost ^ 2  \"a\"\n",
          "require plain < 30  \"much\"\n", "a : % = 1 / plain  \"a\"\n",
          "cost c : $/ac = $1/ac over area\nprice \"P\" lump\n  overhead 0\n",
          "cost c : $/ac = $1/ac over area\nprice \"P\" lump\n  margin 1 - 1 / (1 + lost)\n"})
        CHECK_MESSAGE(found(lines).empty(), std::string(lines), found(lines));
}

TEST_CASE("both mends are offered, the likely one first") {
    struct Row {
        const char* written;
        double value;
        const char *likely, *other;
    };
    for (const Row& row : std::initializer_list<Row>{
             {"15", 15, "15 %", "1,500 %"},
             {"93.5", 93.5, "93.5 %", "9,350 %"},
             {"0.08", 0.08, "8 %", "0.08 %"},
             {"0.0825", 0.0825, "8.25 %", "0.0825 %"},
             {"0.29", 0.29, "29 %", "0.29 %"},
             {"1", 1, "100 %", "1 %"},
             {"1,500", 1500, "1,500 %", "150,000 %"},
         }) {
        const lang::ShareMends mends = lang::share_mends(row.value, row.written);
        CHECK(mends.likely == row.likely);
        CHECK(mends.other == row.other);
    }
}

TEST_CASE("texts of the first version of the notation keep its rules") {
    tests::Choices choices;
    const std::string text = head + "a : % = 0.15  \"a\"\n";
    tests::MemoryLoader loader(choices.files);
    lang::Request request = tests::request_of(text, choices);
    request.notation = 1;
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    CHECK(lang::compile(request, loader, sources, diagnostics).has_value());
    request.notation = 2;
    lang::SourceMap again;
    CHECK_FALSE(lang::compile(request, loader, again, diagnostics).has_value());
}

} // namespace bare_share_test
