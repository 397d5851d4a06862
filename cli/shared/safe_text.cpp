#include "cli/shared/safe_text.h"

#include <charconv>

#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

bool is_number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc() && end == text.data() + text.size();
}

} // namespace

std::string markup_text(std::string_view text) {
    std::string safe;
    for (const char c : lang::terminal_text(text)) {
        switch (c) {
        case '&':
            safe += "&amp;";
            break;
        case '<':
            safe += "&lt;";
            break;
        case '>':
            safe += "&gt;";
            break;
        case '"':
            safe += "&quot;";
            break;
        case '\'':
            safe += "&#39;";
            break;
        default:
            safe += c;
        }
    }
    return safe;
}

std::string csv_field(std::string_view text) {
    std::string field = lang::terminal_text(text);
    const auto first = field.find_first_not_of(' ');
    const bool formula = first != std::string::npos &&
                         std::string_view("=+-@'").find(field[first]) != std::string_view::npos;
    if (formula && !is_number(field))
        field.insert(0, 1, '\'');
    if (field.find_first_of("\",\n") == std::string::npos &&
        (field.empty() || (field.front() != ' ' && field.back() != ' ')))
        return field;
    std::string quoted = "\"";
    for (const char c : field)
        quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

} // namespace acre::cli
