// Limits of texts from strangers, at and past each.
#include <doctest/doctest.h>

#include <string>

#include "tests/support/parse_text.h"

namespace limits_test {

using namespace acre;
using tests::parse_text;

namespace {

std::string repeat(std::string_view piece, std::size_t times) {
    std::string s;
    s.reserve(piece.size() * times);
    for (std::size_t i = 0; i < times; ++i)
        s += piece;
    return s;
}

// The code of the only error of a formula; empty when there is none.
std::string error_of(const std::string& formula) {
    const tests::Parsed p = parse_text("model \"m\"\nx : 1 = " + formula + "\n");
    CHECK(p.diagnostics.error_count() <= 1);
    return p.diagnostics.all().empty()
               ? ""
               : std::string(lang::name_of(p.diagnostics.all().front().code));
}

} // namespace

TEST_CASE("brackets, calls, conditions and signs nest to the limit and no deeper") {
    const std::size_t n = lang::max_nesting;
    struct Nest {
        const char* open;
        const char* middle;
        const char* close;
    };
    for (const Nest& nest :
         {Nest{"(", "a", ")"}, Nest{"f(", "a", ")"}, Nest{"-", "a", ""}, Nest{"not ", "a", ""},
          Nest{"a ^ ", "a", ""}, Nest{"when a then b otherwise ", "c", ""},
          Nest{"(when a then b otherwise ", "c", ")"}}) {
        CAPTURE(nest.open);
        const std::size_t levels = std::string_view(nest.open).starts_with("(when") ? n / 2 : n;
        CHECK(error_of(repeat(nest.open, levels) + nest.middle + repeat(nest.close, levels)) == "");
        CHECK(error_of(repeat(nest.open, levels + 1) + nest.middle +
                       repeat(nest.close, levels + 1)) == "S109");
        const std::size_t many = lang::max_statement_bytes / 2 / std::string_view(nest.open).size();
        CHECK(error_of(repeat(nest.open, many) + nest.middle + repeat(nest.close, many / 2)) ==
              "S109");
        CHECK(error_of(repeat(nest.open, many)) == "S109");
    }
    CHECK(error_of(repeat("when a then b ", n) + "otherwise c") == ""); // arms nest in the tree
    CHECK(error_of(repeat("when a then b ", n + 1) + "otherwise c") == "S109");
    CHECK(error_of("3 $/" + repeat("(", 60'000)) == "S107"); // brackets of a unit do not nest
    CHECK(error_of(repeat(")", 60'000)) == "S103");
}

TEST_CASE("an error deep in a formula counts as often as brackets are around it") {
    const std::size_t n = lang::max_nesting - 1;
    const auto errors_of = [](const std::string& formula) {
        const std::size_t lines = formula.size() < 10 ? 12'000 : 4'000;
        return parse_text("model \"m\"\n" + repeat("x : 1 = " + formula + "\n", lines))
            .diagnostics.error_count();
    };
    CHECK(errors_of("1 +") == lang::max_syntax_errors);
    CHECK(errors_of("(1 +") == lang::max_syntax_errors / 2);
    CHECK(errors_of(repeat("(", n) + "1 +") == lang::max_syntax_errors / (n + 1));
    CHECK(errors_of(repeat("(", n) + "1 2" + repeat(")", n)) == lang::max_syntax_errors / (n + 1));
}

TEST_CASE("what stands side by side does not nest") {
    const std::size_t many = 3 * lang::max_nesting;
    REQUIRE(many < lang::max_listed);
    for (const char* piece : {"(a)", "f(a)", "-a", "not a", "a ^ -2", "when a then b otherwise c",
                              "(when a then b when c then d otherwise e)",
                              "f(each row (1, a), (2, b))", "f(each row)"}) {
        CAPTURE(piece);
        CHECK(error_of("f(" + repeat(std::string(piece) + ", ", many) + piece + ")") == "");
    }
}

TEST_CASE("a chain of operators is as long as a tree may be deep") {
    const std::size_t n = lang::max_formula_depth;
    for (const char* link : {" + a", " - a", " * a", " / a", " and a", " or a"}) {
        CAPTURE(link);
        CHECK(error_of("a" + repeat(link, n - 1)) == "");
        CHECK(error_of("a" + repeat(link, n)) == "S109");
        CHECK(error_of("a" + repeat(link, 10'000)) == "S109");
    }
    // chains in brackets in chains: depth is that of the tree, whatever makes it
    std::string nested = "a";
    for (int i = 0; i < 150; ++i)
        nested = "(" + nested + repeat(" + a", 100) + ")";
    CHECK(error_of(nested) == "S109");
    CHECK(error_of("f(" + repeat("a, ", lang::max_listed - 1) + "a)") ==
          ""); // arguments stand side by side
}

TEST_CASE("a table has rows to the limit") {
    std::string text = "model \"m\"\ntable t (a : ft) : ft\n";
    for (std::uint32_t i = 0; i < lang::max_table_rows; ++i)
        text += "  " + std::to_string(i) + " 1\n";
    const tests::Parsed full = parse_text(text);
    CHECK(full.rendered() == "");
    CHECK(std::get<lang::ast::Table>(full.module.statements.front().node).rows.size() ==
          lang::max_table_rows);
    const tests::Parsed over = parse_text(text + "  20000 1\n  20001 1\n  20002 1\n");
    REQUIRE(over.diagnostics.error_count() == 1);
    CHECK(over.diagnostics.all().front().code == lang::Code::S119);
    CHECK(over.position(over.diagnostics.all().front()).line == lang::max_table_rows + 3);
}

TEST_CASE("a file is as large as the limit") {
    std::string text = "model \"m\"\n# ";
    text.resize(lang::max_file_bytes - 1, 'x');
    text += '\n';
    CHECK(parse_text(text).rendered() == "");
    const tests::Parsed over = parse_text(text + "\n");
    REQUIRE(over.diagnostics.error_count() == 1);
    CHECK(over.diagnostics.all().front().code == lang::Code::S118);
    CHECK(over.diagnostics.all().front().title ==
          "the file has 4,194,305 bytes, more than the limit of 4,194,304");
}

TEST_CASE("a statement as long as may be, or of megabytes, is one error or none") {
    const std::size_t long_one = lang::max_statement_bytes - 20, megabytes = 3U << 20U;
    CHECK(error_of(std::string(long_one, '1')) == "S121");
    CHECK(error_of(std::string(long_one, 'a')) ==
          ""); // that there is no such name is told elsewhere
    CHECK(error_of(std::string(long_one, '"')) == "S103");
    CHECK(error_of(std::string(long_one, ' ') + "3") == "");
    CHECK(error_of(repeat("1,", long_one / 2)) == "S121");
    CHECK(error_of(repeat("a.", long_one / 2)) == "S110");
    for (const char c : {'1', 'a', '"', ',', '(', '-'})
        CHECK(error_of(std::string(megabytes, c)) == "S120");
}

TEST_CASE("a file of nothing but errors keeps the first and counts the rest") {
    const tests::Parsed p = parse_text("model \"m\"\n" + repeat("x : 1 = *\n", 20'000));
    CHECK(p.diagnostics.error_count() == lang::max_syntax_errors); // then the text is not read on
    CHECK(p.diagnostics.all().size() == lang::Diagnostics::cap);
}

} // namespace limits_test
