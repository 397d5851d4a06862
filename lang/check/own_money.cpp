#include "lang/check/own_money.h"

#include <algorithm>

#include "lang/units/letters.h"

namespace acre::lang {
namespace {

std::string_view money_word_in(std::string_view unit, bool with_dollars) {
    for (std::size_t at = 0; at < unit.size();) {
        if (const std::size_t sign = money_sign_size(unit.substr(at)); sign > 0) {
            if (const std::string_view word = unit.substr(at, sign); with_dollars || word != "$")
                return word;
            at += sign;
            continue;
        }
        std::size_t end = at;
        while (end < unit.size() &&
               (is_letter(unit[end]) || is_digit(unit[end]) || unit[end] == '_'))
            ++end;
        if (const std::string_view word = unit.substr(at, end - at); is_money_code(word))
            return word;
        at = std::max(end, at + 1);
    }
    return {};
}

} // namespace

std::string_view money_of_number(const ast::UnitText& unit) {
    return unit.dollar ? unit.sign : money_word_in(unit.text, true);
}

std::string_view money_of_unit(std::string_view unit) {
    return money_word_in(unit, false);
}

bool is_own_money(std::string_view word, const Currency& own) {
    return word == own.code || word == own.sign || code_of_sign(word) == own.code;
}

std::string_view code_of_money(std::string_view word) {
    return is_money_code(word) ? word : code_of_sign(word);
}

} // namespace acre::lang
