// The checks of single words: new names, choices, dates, how a formula is known.
#include <fmt/format.h>

#include "lang/syntax/parse.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/syntax_error.h"
#include "lang/syntax/word_checks.h"
#include "lang/syntax/words.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

[[noreturn]] void reserved(std::string_view name, Span span) {
    throw SyntaxError{{Code::S108,
                       fmt::format("`{}` is a reserved word and cannot be a name", name),
                       {span, ""},
                       {},
                       {},
                       {{fmt::format("choose another name, such as `{}_1`", name), {}}}}};
}

int two_digits(std::string_view text, std::size_t at) {
    return (text[at] - '0') * 10 + (text[at + 1] - '0');
}

} // namespace

void check_length(std::string_view what, std::string_view text, std::uint32_t limit, Span span) {
    if (text.size() <= limit)
        return;
    throw SyntaxError{
        {Code::S121,
         fmt::format("{} of {} bytes is longer than the limit of {}", what,
                     number_text(static_cast<double>(text.size())), number_text(limit)),
         {span, ""},
         {},
         {},
         {}}};
}

void check_count(std::string_view what, std::size_t count, std::uint32_t limit, Span span) {
    if (count > limit)
        throw SyntaxError{
            {Code::S122,
             fmt::format("more than {} {} in one statement", number_text(limit), what),
             {span, "one too many"},
             {},
             {},
             {}}};
}

void check_new_name(std::string_view name, Span span) {
    check_length("a name", name, max_name_bytes, span);
    if (const std::size_t dot = name.find('.'); dot != std::string_view::npos)
        throw SyntaxError{{Code::S100,
                           fmt::format("a new name cannot have a dot: `{}`", shortened(name)),
                           {span, ""},
                           {},
                           {},
                           {{"use letters, digits and `_`", {}}}}};
    if (is_reserved(keyword_of(name)))
        reserved(name, span);
}

void check_choice_name(std::string_view name, Span span) {
    check_length("a name", name, max_name_bytes, span);
    if (!is_value_word(keyword_of(name)))
        reserved(name, span);
}

ast::Known read_known(std::string_view word, Span span) {
    if (word == "read")
        return ast::Known::Read;
    if (word == "recalled")
        return ast::Known::Recalled;
    if (word == "common_practice")
        return ast::Known::CommonPractice;
    if (word == "ours")
        return ast::Known::Ours;
    throw SyntaxError{{Code::S100,
                       fmt::format("`{}` does not say how sure a formula is", shortened(word)),
                       {span, ""},
                       {},
                       {},
                       {{"write one of  read  recalled  common_practice  ours", {}}}}};
}

ast::Date read_date(std::string_view text, Span span) {
    const int year = two_digits(text, 0) * 100 + two_digits(text, 2);
    const int month = two_digits(text, 5);
    const int day = two_digits(text, 8);
    const auto wrong = [&](std::string title) {
        throw SyntaxError{{Code::S117, std::move(title), {span, "no such date"}, {}, {}, {}}};
    };
    if (month < 1 || month > 12)
        wrong(fmt::format("there is no month {}", month));
    const int last = days_in_month(year, month);
    if (day < 1 || day > last)
        wrong(fmt::format("{} has {} days, not {}", month_text(year, month), last, day));
    return {year, month, day, span};
}

} // namespace acre::lang
