// Numbers as people write them: groups of three digits, a point, an exponent.
#include <fmt/format.h>

#include <charconv>
#include <string>
#include <system_error>

#include "lang/syntax/formulas.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/syntax_error.h"
#include "lang/syntax/word_checks.h"
#include "lang/syntax/words.h"

namespace acre::lang {

namespace {

[[noreturn]] void wrong(Span span, std::string title, std::string label, std::vector<Help> helps) {
    throw SyntaxError{
        {Code::S106, std::move(title), {span, std::move(label)}, {}, {}, std::move(helps)}};
}

// One to three digits, not a lone zero, then groups of exactly three; there is a comma.
bool well_grouped(std::string_view whole) {
    const std::size_t first = whole.find(',');
    if (first > 3 || whole.front() == '0')
        return false;
    for (std::size_t at = first; at < whole.size(); at += 4)
        if (whole[at] != ',' || whole.size() - at < 4 ||
            whole.substr(at + 1, 3).find(',') != std::string_view::npos)
            return false;
    return true;
}

std::string without_commas(std::string_view text) {
    std::string digits;
    digits.reserve(text.size());
    for (const char c : text)
        if (c != ',')
            digits += c;
    return digits;
}

// "1,85" as it was perhaps meant.
std::string with_point(std::string_view text) {
    const std::size_t comma = text.find(',');
    return fmt::format("{}.{}", shortened(text.substr(0, comma)),
                       shortened(text.substr(comma + 1)));
}

} // namespace

double read_number(std::string_view text, std::string_view next, Span span) {
    check_length("a number", text, max_number_bytes, span);
    const std::string_view whole = text.substr(0, text.find_first_of(".eE"));
    const bool grouped = whole.find(',') != std::string_view::npos;
    if (grouped && !well_grouped(whole)) {
        std::vector<Help> helps;
        if (whole.front() == '0' ||
            (whole.find(',') == whole.rfind(',') && whole.size() - whole.find(',') != 4))
            helps.push_back({fmt::format("for a decimal, use a point: {}", with_point(text)), {}});
        helps.push_back({"between two values, put a comma and a space", {}});
        wrong(span, fmt::format("the commas in `{}` do not group three digits", shortened(text)),
              "group digits by threes", std::move(helps));
    }
    if (next.starts_with('.') && !next.starts_with("..") &&
        !(next.size() > 1 && is_letter(next[1]))) {
        if (next.size() > 1 && is_digit(next[1]))
            wrong({span.file, span.end, span.end + 1}, "a number has two decimal points",
                  "the second point", {});
        wrong({span.file, span.end, span.end + 1}, "a number cannot end with a decimal point",
              "no digit follows",
              {{fmt::format("write  {}", shortened(text)),
                Edit{{span.file, span.end, span.end + 1}, ""}}});
    }
    std::string buffer;
    if (grouped) {
        buffer = without_commas(text);
        text = buffer;
    }
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error == std::errc::result_out_of_range)
        wrong(span, "the number is too large or too small", "outside 1e-308 to 1e308", {});
    return value;
}

void check_whole_money(std::string_view sign, std::string_view text, std::string_view next,
                       Span span) {
    const std::size_t point = text.find('.');
    if (point == std::string_view::npos || text.size() - point != 4 || point > 3 ||
        text.front() == '0' || text.find_first_of(",eE") != std::string_view::npos)
        return;
    const bool cents = next.size() > 2 && next[0] == ',' && is_digit(next[1]) && is_digit(next[2]);
    if (!cents && !next.empty() && (next[0] == '/' || next[0] == '.'))
        return; // $4.355/gal
    const auto length = static_cast<std::uint32_t>(cents ? 3 : 0);
    const std::string grouped = fmt::format("{},{}", text.substr(0, point), text.substr(point + 1));
    const std::string mended = cents ? fmt::format("{}.{}", grouped, next.substr(1, 2)) : grouped;
    std::vector<Help> helps{{fmt::format("write  {}{}", sign, mended),
                             Edit{{span.file, span.begin, span.end + length}, mended}}};
    if (!cents)
        helps.push_back({fmt::format("for a decimal, write two digits:  {}{}", sign,
                                     text.substr(0, text.size() - 1)),
                         {}});
    wrong({span.file, span.begin, span.end + length},
          fmt::format("`{}{}{}` may be thousands or decimals", sign, text, next.substr(0, length)),
          "three digits behind a point", std::move(helps));
}

} // namespace acre::lang
