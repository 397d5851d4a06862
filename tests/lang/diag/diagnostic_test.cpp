#include <doctest/doctest.h>

#include <set>
#include <string>

#include "lang/diag/diagnostic.h"

namespace diagnostic_test {

using namespace acre::lang;

namespace {
Diagnostic at(Code code, std::uint32_t begin) {
    return {code, "title", {{0, begin, begin + 1}, ""}, {}, {}, {}};
}
} // namespace

TEST_CASE(
    "every code has a letter, three digits, a summary of its own and the severity of its letter") {
    std::set<std::string_view> names;
    std::set<std::string_view> summaries;
    for (std::size_t i = 0; i < code_count(); ++i) {
        const Code code = static_cast<Code>(i);
        const std::string_view name = name_of(code);
        CAPTURE(name);
        CHECK(name.size() == 4);
        CHECK(std::string_view("SNUGEIFBJWCQRLP").find(name[0]) != std::string_view::npos);
        CHECK(name.substr(1).find_first_not_of("0123456789") == std::string_view::npos);
        CHECK(names.insert(name).second);
        CHECK(summaries.insert(summary_of(code)).second);
        CHECK(severity_of(code) == (name[0] == 'L' ? Severity::Warning : Severity::Error));
    }
}

TEST_CASE("a repeat of one code at one place is dropped") {
    Diagnostics all;
    all.add(at(Code::U301, 5));
    all.add(at(Code::U301, 5));
    all.add(at(Code::U302, 5));
    all.add(at(Code::U301, 6));
    CHECK(all.error_count() == 3);
    CHECK(all.all().size() == 3);
}

TEST_CASE("past the cap only the counts grow, errors and warnings apart") {
    Diagnostics all;
    for (std::uint32_t i = 0; i < Diagnostics::cap + 7; ++i)
        all.add(at(Code::L801, i));
    CHECK_FALSE(all.has_errors());
    CHECK_FALSE(all.full());
    for (std::uint32_t i = 0; i < Diagnostics::cap + 5; ++i)
        all.add(at(Code::U301, i));
    CHECK(all.full());
    CHECK(all.error_count() == Diagnostics::cap + 5);
    CHECK(all.warning_count() == Diagnostics::cap + 7);
    CHECK(all.all().size() == 2 * Diagnostics::cap);
    CHECK(all.left_out() == 12);
}

TEST_CASE("what another list left out is counted with what it kept") {
    Diagnostics from, to;
    for (std::uint32_t i = 0; i < Diagnostics::cap + 7; ++i)
        from.add(at(Code::U301, i));
    for (std::uint32_t i = 0; i < Diagnostics::cap + 2; ++i)
        from.add(at(Code::L801, i));
    to.add_left_out(from);
    CHECK(to.all().empty());
    CHECK(to.error_count() == 7);
    CHECK(to.warning_count() == 2);
    CHECK(to.left_out() == 9);
}

TEST_CASE("they are sorted by file and place, errors before warnings at one place") {
    Diagnostics all;
    Diagnostic other = at(Code::U301, 1);
    other.primary.span.file = 1;
    all.add(other);
    all.add(at(Code::L805, 9));
    all.add(at(Code::U301, 9));
    all.add(at(Code::N201, 2));
    all.sort();
    std::string order;
    for (const Diagnostic& d : all.all())
        order += std::string(name_of(d.code)) + " ";
    CHECK(order == "N201 U301 L805 U301 ");
    CHECK(all.all().back().primary.span.file == 1);
}

} // namespace diagnostic_test
