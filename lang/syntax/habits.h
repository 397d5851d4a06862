// How people write numbers, units, quotes and comments elsewhere: `$6 500`, `6 ft 6 in`, `7'`,
// curly quotes, `//`, `6 ft ± 1 ft`. A statement that broke off at one of these is told what to
// write, with the edit.
#pragma once

#include <optional>
#include <string>

#include "lang/diag/diagnostic.h"
#include "lang/syntax/messages.h"

namespace acre::lang {

// Nothing: the break is of another kind.
std::optional<Diagnostic> describe_habit(const Break& b);
// Those of numbers, units and money among them.
std::optional<Diagnostic> describe_number_habit(const Break& b);
// Those of ranges. S103, S110.
std::optional<Diagnostic> describe_range_habit(const Break& b);

// Words that stand for others, or where none may: `if`, `else`, labels without quotes.
std::optional<Diagnostic> describe_word_habit(const Break& b);

// What stands for a date from `written` to the end of the statement, as year-month-day. S117; an
// edit only where day and month cannot be taken for each other.
Diagnostic describe_date(std::string_view text, Span written);

} // namespace acre::lang
