#include "engine/workbook/cell_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "engine/words/choice_label.h"
#include "engine/workbook/workbook.h"

namespace acre::engine {

namespace {

std::string column_letters(std::uint32_t column) {
    std::string letters;
    for (std::uint32_t left = column + 1; left > 0; left = (left - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (left - 1) % 26));
    return letters;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
std::string lower(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return out;
}

// Up to three letters and digits: a cell, whether or not the sheet has such a column.
bool is_like_cell(std::string_view name) {
    const auto digits = std::find_if(name.begin(), name.end(), is_digit);
    return digits != name.end() && digits - name.begin() <= 3 &&
           std::all_of(digits, name.end(), is_digit) &&
           std::all_of(name.begin(), digits, [](char c) { return c >= 'a' && c <= 'z'; });
}
// r, c, r1, c1, rc, r1c1: rows and columns by number.
bool is_like_row_and_column(std::string_view name) {
    const auto skip = [&](char letter) {
        if (name.empty() || name.front() != letter)
            return false;
        name.remove_prefix(1);
        while (!name.empty() && is_digit(name.front()))
            name.remove_prefix(1);
        return true;
    };
    const bool row = skip('r');
    const bool column = skip('c');
    return name.empty() && (row || column);
}

} // namespace

std::string cell_address(std::uint32_t row, std::uint32_t column) {
    return column_letters(column) + std::to_string(row + 1);
}
std::string fixed_address(std::uint32_t row, std::uint32_t column) {
    return "$" + column_letters(column) + "$" + std::to_string(row + 1);
}
std::string fixed_range(std::uint32_t first_row, std::uint32_t first_column, std::uint32_t last_row,
                        std::uint32_t last_column) {
    return fixed_address(first_row, first_column) + ":" + fixed_address(last_row, last_column);
}
std::string on_sheet(std::string_view sheet, std::string_view place) {
    const bool plain = sheet.find(' ') == std::string_view::npos;
    const std::string quote = plain ? "" : "'";
    return quote + std::string(sheet) + quote + "!" + std::string(place);
}

std::string formula_number(double value) {
    if (std::isnan(value))
        return "NA()";
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
    std::string text(buffer.data(), end);
    std::replace(text.begin(), text.end(), 'e', 'E');
    return value < 0 ? "(" + text + ")" : text;
}

std::string formula_text_of(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        out += c;
        if (c == '"')
            out += c;
    }
    return out + "\"";
}

std::vector<std::string> option_words(const lang::ChoiceType& choice) {
    std::vector<std::string> words;
    std::set<std::string> taken;
    for (const std::string& option : choice.options) {
        const std::string label = choice_label(option);
        std::string word = label;
        for (int count = 2; !taken.insert(lower(word)).second; ++count)
            word = label + " (" + std::to_string(count) + ")";
        words.push_back(std::move(word));
    }
    return words;
}

std::string option_word(const lang::ChoiceType& choice, double value) {
    if (!(value >= 0 && value < static_cast<double>(choice.options.size())))
        return {};
    return option_words(choice)[static_cast<std::size_t>(value)];
}

std::string DefinedNames::take(std::string_view name) {
    std::string base(name);
    const std::string plain = lower(name);
    if (is_like_cell(plain) || is_like_row_and_column(plain) || plain == "true" || plain == "false")
        base += '_';
    std::string out = base;
    for (int count = 2; taken_.contains(lower(out)); ++count)
        out = base + "_" + std::to_string(count);
    if (out.size() > most_defined_name_letters)
        return {};
    taken_.insert(lower(out));
    return out;
}

} // namespace acre::engine
