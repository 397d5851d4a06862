#include "lang/syntax/draft.h"

#include <fmt/format.h>

#include "lang/syntax/assemble.h"
#include "lang/syntax/syntax_error.h"

namespace acre::lang {

namespace {

void check_first(bool taken, std::string_view clause, Span span, Span first) {
    if (taken)
        throw SyntaxError{{Code::S116,
                           fmt::format("{} is given twice", clause),
                           {span, "again"},
                           {{first, "first here"}},
                           {},
                           {{"keep one of them", {}}}}};
}

} // namespace

void Draft::clear() {
    words.clear();
    units.clear();
    texts.clear();
    options.clear();
    parameters.clear();
    dates.clear();
    weekday.reset();
    columns.clear();
    counted.clear();
    each.reset();
    bindings.clear();
    label.reset();
    because.reset();
    within.reset();
    within_days.reset();
    swing.reset();
    below.reset();
    above.reset();
    may_be_negative.reset();
    shape = ast::SwingShape::Unstated;
    known = ast::Known::Unstated;
    chosen = of_it = lump = round_up = staircase = native = hold = is_not = false;
}

void Draft::take_text(std::optional<ast::Text>& place, std::string_view clause) {
    if (place)
        check_first(true, clause, texts.back().span, place->span);
    place = texts.back();
    texts.pop_back();
}

void Draft::take_range(Formulas& formulas, std::optional<ast::Range>& place,
                       std::string_view clause) {
    const ast::ExprId high = formulas.take();
    const ast::ExprId low = formulas.take();
    const Span span = join(formulas.expr(low).span, formulas.expr(high).span);
    if (place)
        check_first(true, clause, span, place->span);
    place = ast::Range{low, high, span};
}

void Draft::take_days(Span span) {
    check_first(within_days.has_value(), "`within`", span, within_days_span);
    within_days = make_dates(*this);
    within_days_span = span;
    dates.clear();
}

void Draft::take_swing(Formulas& formulas, bool of_choose) {
    const std::optional<ast::Range> other = chosen != of_choose ? swing : std::nullopt;
    if (other)
        swing.reset();
    take_range(formulas, swing, of_choose ? "`choose`" : "`swing`");
    if (other)
        throw SyntaxError{
            {Code::S123,
             fmt::format("`{}` has a range of choice and a swing", words.front().text),
             {swing->span, of_choose ? "the range of choice" : "the swing"},
             {{other->span, of_choose ? "the swing" : "the range of choice"}},
             {},
             {{"keep  choose  if it is agreed or measured before work starts; keep  swing  if "
               "nobody knows it",
               {}}}}};
    chosen = of_choose;
}

void Draft::take_end(std::optional<ast::TableEnd>& place, std::string_view clause, Span span) {
    Span& where = &place == &below ? below_span : above_span;
    check_first(place.has_value(), clause, span, where);
    where = span;
    place = hold ? ast::TableEnd::Hold : ast::TableEnd::Error;
    hold = false;
}

void Draft::take_sign(Span span) {
    check_first(may_be_negative.has_value(), "`may be negative`", span,
                may_be_negative.value_or(span));
    may_be_negative = span;
}

} // namespace acre::lang
