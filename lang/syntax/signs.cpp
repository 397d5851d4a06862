#include "lang/syntax/signs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "lang/source/utf8.h"
#include "lang/syntax/words.h"
#include "lang/units/money.h"

namespace acre::lang {

namespace {

struct Replacement {
    std::string_view sign;
    std::string_view instead;
};

constexpr auto replacements = std::to_array<Replacement>({
    {"\u201C", "\""}, {"\u201D", "\""}, {"\u201E", "\""},
    {"\u2018", "\""}, {"\u2019", "\""}, {"'", "\""},
    {"\u00AB", "\""}, {"\u00BB", "\""},                  // quotes
    {"\u2212", "-"},  {"\u2013", "-"},  {"\u2014", "-"}, // dashes
    {"\u00D7", "*"},  {"\u00B7", "*"},  {"\u00F7", "/"},
    {"\u2215", "/"},  {"\\", "/"}, // operators
    {"\u2264", "<="}, {"\u2265", ">="}, {"\u2260", "!="},
    {"&", "and"},     {"!", "not"}, // comparisons
    {"[", "("},       {"]", ")"},       {"{", "("},
    {"}", ")"}, // brackets
    {"\u00B2", "^2"}, {"\u00B3", "^3"}, {"\u00B0", "deg"},
    {"\u2026", ".."},                                    // powers, angles, ranges
    {"\u00A0", " "},  {"\u2009", " "},  {"\u202F", " "}, // blanks of other widths
});

} // namespace

bool is_foreign_sign(std::string_view sign) {
    const char c = sign.front();
    if (sign.size() == 2 && (c == '.' || sign[1] == '='))
        return false;
    return !is_name_char(c) && money_sign_size(sign) == 0 &&
           std::string_view("\"#$%()*+,-./:<=>^|").find(c) == std::string_view::npos;
}

Diagnostic describe_foreign_sign(std::string_view sign, Span span) {
    for (const Replacement& r : replacements) {
        if (r.sign != sign)
            continue;
        const bool blank = r.instead == " ";
        const bool quote = r.instead == "\""; // one of two: by itself it closes nothing
        Diagnostic d{
            Code::S100, blank ? "unusual space character" : fmt::format("unknown sign `{}`", sign),
            {span, ""}, {},
            {},         {}};
        d.helps.push_back(
            {blank ? std::string("type a plain space") : fmt::format("write {}", r.instead),
             quote ? std::nullopt : std::optional(Edit{span, std::string(r.instead)})});
        return d;
    }
    return {Code::S100, fmt::format("unknown sign `{}`", sign),
            {span, ""}, {},
            {},         {{"other signs are fine in quoted text and comments", {}}}};
}

std::string shortened(std::string_view text) {
    constexpr std::size_t most = 40;
    if (text.size() <= most)
        return std::string(text);
    std::size_t cut = most - 3;
    while (cut > 0 && continues_character(text[cut]))
        --cut;
    return std::string(text.substr(0, cut)) + "…";
}

} // namespace acre::lang
