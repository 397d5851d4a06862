// The checks of single words: new names, choices, dates, how a formula is known.
#include <fmt/format.h>

#include "lang/diag/suggest.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/syntax_error.h"
#include "lang/syntax/word_checks.h"
#include "lang/syntax/words.h"
#include "lang/units/calendar.h"
#include "lang/units/letters.h"
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

int read_weekday(std::string_view word, Span span) {
    std::string small;
    for (const char c : word)
        small += to_lower(c);
    std::vector<std::string_view> names;
    for (int day = 0; day < 7; ++day) {
        const std::string_view name = weekday_name(day);
        if (word == name)
            return day;
        names.push_back(name);
    }
    Diagnostic d{Code::S117, fmt::format("`{}` is no day of the week", shortened(word)),
                 {span, ""}, {},
                 {},         {}};
    const bool plural = small.ends_with('s');
    for (const std::string_view name : names) // Sun, sundays, Sunday
        if (small.size() >= 3 &&
            (name.starts_with(small) || (plural && name == small.substr(0, small.size() - 1))))
            d.helps.push_back({fmt::format("write  {}", name), Edit{span, std::string(name)}});
    if (d.helps.empty())
        for (const std::string_view near : near_names(small, names, 1))
            d.helps.push_back(
                {fmt::format("did you mean `{}`?", near), Edit{span, std::string(near)}});
    if (d.helps.empty())
        d.helps.push_back({"write a day such as  sunday  or a date such as  2027-07-05", {}});
    throw SyntaxError{std::move(d)};
}

void check_days(const std::vector<ast::Date>& days, Span span) {
    if (days.size() < 2)
        return;
    const auto text = [](const ast::Date& day) {
        return date_text(day_number(day.year, day.month, day.day));
    };
    const std::string first = text(days[0]);
    const std::string last = text(days[1]);
    if (first <= last)
        return;
    const std::string turned = fmt::format("{} .. {}", last, first);
    throw SyntaxError{{Code::S117,
                       "the second date is before the first",
                       {{span.file, days[0].span.begin, days[1].span.end}, "must rise"},
                       {},
                       {},
                       {{fmt::format("write the earlier one first:  {}", turned),
                         Edit{{span.file, days[0].span.begin, days[1].span.end}, turned}}}}};
}

} // namespace acre::lang
