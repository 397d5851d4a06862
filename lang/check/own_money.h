// Whose money a figure is in: by its sign or code. Nothing is converted.
#pragma once

#include <string_view>

#include "lang/syntax/ast.h"
#include "lang/units/money.h"

namespace acre::lang {

// The sign or the code of money in the unit of a number; empty: none is written.
std::string_view money_of_number(const ast::UnitText& unit);
// In a unit that belongs to no number. A `$` there is any firm's money: empty.
std::string_view money_of_unit(std::string_view unit);

// Whether a sign or a code that stands at a figure means the money of the firm: its code, its own
// sign, or the sign that means its code where no firm says otherwise.
bool is_own_money(std::string_view word, const Currency& own);
// "EUR" of "EUR" and of "€".
std::string_view code_of_money(std::string_view word);

} // namespace acre::lang
