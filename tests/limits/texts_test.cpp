// One file of the notation, at its limits.
#include "lang/units/unit.h"
#include "tests/limits/limits.h"
#include "tests/support/compile_text.h"
#include "tests/support/parse_text.h"

namespace acre::tests {
namespace {

std::string model_line() {
    return "model \"m\"\n";
}
std::string parsed(const std::string& text) {
    return parse_text(text).rendered();
}
std::string parsed_line(const std::string& formula) {
    return parsed(model_line() + "a : 1 = " + formula + "\n");
}

std::string table_of(std::uint64_t rows) {
    std::string text = model_line() + "table t (x : 1) : 1\n";
    for (std::uint64_t i = 0; i < rows; ++i)
        text += " " + std::to_string(i) + " 1\n";
    return text;
}

// Past so many errors the rest is not read.
std::string errors_of(std::uint64_t n) {
    const Parsed p = parse_text(model_line() + repeated("x : 1 = *\n", n));
    return p.diagnostics.error_count() < n ? "the rest is not read" : "";
}

} // namespace

std::vector<LimitCase> cases_of_texts() {
    return {
        {"max_file_bytes",
         [](auto n) {
             return parsed(model_line() + "#" + std::string(n - model_line().size() - 1, 'x'));
         }},
        {"max_statement_bytes", [](auto n) { return parsed_line(std::string(n - 9, ' ') + "1"); }},
        {"max_name_bytes",
         [](auto n) { return parsed(model_line() + std::string(n, 'a') + " : 1 = 1\n"); }},
        {"max_text_bytes", [](auto n) { return parsed_line("1 \"" + std::string(n, 'a') + "\""); }},
        {"max_number_bytes", [](auto n) { return parsed_line("0." + std::string(n - 2, '1')); }},
        {"max_options",
         [](auto n) {
             return parsed(model_line() + "choice c = " + counted("o", " | ", n) + "\n");
         }},
        {"max_page_words",
         [](auto n) {
             std::string text = "firm \"f\"\n";
             for (std::uint64_t i = 0; i < n; ++i)
                 text += ": w" + std::to_string(i) + " = \"\"\n";
             return parse_text(text, lang::FileKind::Firm).rendered();
         }},
        {"max_closed",
         [](auto n) {
             return parse_text("season \"s\"\n" + repeated("closed 2027-07-05\n", n),
                               lang::FileKind::Season)
                 .rendered();
         }},
        {"max_parameters",
         [](auto n) {
             return parsed(model_line() + "define f (p : 1, " + counted("q", " : 1, ", n - 1) +
                           " : 1) : 1 = 1\n");
         }},
        {"max_listed", [](auto n) { return parsed_line("min(" + repeated("1, ", n - 1) + "1)"); }},
        {"max_inner_lines",
         [](auto n) {
             return parsed(model_line() + "price \"p\" lump\n" + repeated("  overhead 1 %\n", n));
         }},
        {"max_nesting",
         [](auto n) { return parsed_line(std::string(n, '(') + "1" + std::string(n, ')')); }},
        {"max_formula_depth", [](auto n) { return parsed_line(repeated("1+", n - 1) + "1"); }},
        {"max_table_rows", [](auto n) { return parsed(table_of(n)); }},
        {"max_syntax_errors", errors_of},
        {"max_bases",
         [](auto n) {
             return compile_text(model_line() + "noun " +
                                 counted("n", "\nnoun ", n - lang::first_noun) + "\n")
                 .rendered();
         }},
    };
}

TEST_CASE("beside a count, bytes bound what can be listed: a choice and a list of values too") {
    CHECK(parsed(model_line() + "price \"p\" lump covers \"a\"" + repeated(", \"a\"", 1'000) + "\n")
              .find("more than 1,000 texts") != std::string::npos);
    CHECK(parsed(model_line() + "use \"f\" as x with " + counted("g", " = 1, ", 1'001) + " = 1\n")
              .find("more than 1,000 values") != std::string::npos);
    CHECK(parsed(model_line() + "given c = " + counted("o", " | ", 201) + "\n")
              .find("more than 200 options") != std::string::npos);
}

TEST_CASE("a text of everything too long at once gives short messages") {
    const std::string megabyte(std::size_t{1} << 20U, 'a');
    for (const std::string& line :
         {megabyte, megabyte + " : 1 = 1", "a : " + megabyte + " = 1", "a : 1 = " + megabyte,
          "a : 1 = 1 " + megabyte, "a : 1 = \"" + megabyte + "\"", "use \"" + megabyte + "\"",
          "part \"" + megabyte + "\"", "price \"" + megabyte + "\" lump"}) {
        CAPTURE(line.substr(0, 20));
        CHECK(compile_text(model_line() + line + "\n").rendered().size() < 2'000);
    }
}

} // namespace acre::tests
