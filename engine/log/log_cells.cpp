#include "engine/log/log_cells.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "lang/units/calendar.h"
#include "lang/units/money.h"

namespace acre::engine {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
        text.remove_suffix(1);
    return text;
}

// Commas between groups of three digits, before the point; false: they part something else.
bool parts_thousands(std::string_view number) {
    number.remove_prefix(number.starts_with('-') ? 1 : 0);
    const std::size_t end = std::min(number.find('.'), number.size());
    for (std::size_t at = 0; at < end; ++at)
        if ((end - at) % 4 == 0 ? number[at] != ',' : !is_digit(number[at]))
            return false;
    return end % 4 != 0 && number.find(',', end) == number.npos;
}

} // namespace

std::optional<double> figure_in(std::string_view cell, bool semicolons) {
    std::string digits;
    const std::string& sign = lang::shown_money().sign;
    if (const std::size_t at = cell.find(sign); !sign.empty() && at != std::string_view::npos)
        digits =
            std::string(trimmed(cell.substr(0, at))).append(trimmed(cell.substr(at + sign.size())));
    else
        digits = std::string(trimmed(cell));
    if (digits.find(',') != std::string::npos && (semicolons || !parts_thousands(digits)))
        return std::nullopt;
    std::erase(digits, ',');
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

std::optional<std::string> day_in(std::string_view cell, bool american) {
    std::string day(cell);
    if (american) {
        const std::size_t first = cell.find('/'), last = cell.rfind('/');
        if (first == last || cell.size() - last != 5) // a year has four digits
            return std::nullopt;
        day = fmt::format("{}-{:0>2}-{:0>2}", cell.substr(last + 1), cell.substr(0, first),
                          cell.substr(first + 1, last - first - 1));
    }
    if (!lang::day_number(day))
        return std::nullopt;
    return day;
}

std::string plain_word(std::string_view text) {
    std::string word;
    for (const char c : text) {
        const bool space = c == ' ' || c == '_' || c == '-' || c == '\t';
        if (space && (word.empty() || word.back() == ' '))
            continue;
        word += space ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    if (!word.empty() && word.back() == ' ')
        word.pop_back();
    return word;
}

bool is_american_date(std::string_view head) {
    std::string word = plain_word(head);
    std::erase_if(word, [](char c) { return c == '(' || c == ')'; });
    return word == "date mm/dd/yyyy" || word == "date m/d/yyyy";
}

} // namespace acre::engine
