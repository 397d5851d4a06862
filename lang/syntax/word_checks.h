// The checks of single words: new names, choices, dates, how a formula is known. All throw
// SyntaxError.
#pragma once

#include <string_view>
#include <vector>

#include "lang/syntax/ast.h"

namespace acre::lang {

// S121 a name, number or text of more bytes than its limit; `what` with its article.
void check_length(std::string_view what, std::string_view text, std::uint32_t limit, Span span);
// S122 more of `what` (plural) than the limit; the last of them is at `span`.
void check_count(std::string_view what, std::size_t count, std::uint32_t limit, Span span);
void check_new_name(std::string_view name,
                    Span span); // S108 a word of the notation; S100 a dotted name
void check_choice_name(std::string_view name, Span span); // S108, but `yes` and `no` are choices
ast::Known read_known(std::string_view word, Span span);  // S100
ast::Date read_date(std::string_view text, Span span);    // S117; `text` is 0000-00-00
int read_weekday(std::string_view word, Span span);       // S117; 0: Sunday
void check_days(const std::vector<ast::Date>& days, Span span); // S117 the last before the first

} // namespace acre::lang
