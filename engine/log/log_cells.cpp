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
bool parts_thousands(std::string_view digits) {
    if (digits.find(',') == std::string_view::npos)
        return true;
    std::size_t start = !digits.empty() && digits[0] == '-' ? 1 : 0;
    const std::size_t end = std::min(digits.find('.'), digits.size());
    std::size_t run = 0;
    bool first = true;
    for (std::size_t at = start; at <= end; ++at) {
        if (at < end && is_digit(digits[at])) {
            ++run;
            continue;
        }
        if (at < end && digits[at] != ',')
            return false;
        if (first ? run == 0 || run > 3 : run != 3)
            return false;
        first = false;
        run = 0;
    }
    return digits.find(',', end) == std::string_view::npos;
}

// So many digits, one at least; -1: none.
int number_of(std::string_view text, std::size_t most) {
    if (text.empty() || text.size() > most || !std::all_of(text.begin(), text.end(), is_digit))
        return -1;
    int value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
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
        const std::size_t first = cell.find('/');
        const std::size_t second = first == cell.npos ? cell.npos : cell.find('/', first + 1);
        if (second == cell.npos || cell.size() - second != 5)
            return std::nullopt;
        const int month = number_of(cell.substr(0, first), 2);
        const int of_month = number_of(cell.substr(first + 1, second - first - 1), 2);
        const int year = number_of(cell.substr(second + 1), 4);
        if (month < 0 || of_month < 0 || year < 0)
            return std::nullopt;
        day = fmt::format("{:04}-{:02}-{:02}", year, month, of_month);
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
