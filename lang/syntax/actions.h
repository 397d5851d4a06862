// What the rules of the grammar build: pieces of formulas, and the draft of the statement they
// stand in. Included by parse.cpp only.
#pragma once

#include "lang/syntax/draft.h"
#include "lang/syntax/formulas.h"
#include "lang/syntax/grammar.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/word_checks.h"

namespace acre::lang {

// Where the rules put what they find.
struct Reading {
    Formulas& formulas;
    Draft& draft;
};

namespace grammar {

template <typename Rule> struct action : tao::pegtl::nothing<Rule> {};

// clang-format off
#define ACRE_ON(rule) template <> struct action<rule> { \
    template <typename Input> static void apply([[maybe_unused]] const Input& in, Reading& r); }; \
    template <typename Input> void action<rule>::apply( \
        [[maybe_unused]] const Input& in, [[maybe_unused]] Reading& r)

// --- formulas
ACRE_ON(number_text)    { r.formulas.number(in.string_view()); }
ACRE_ON(clock_text)     { r.formulas.clock(in.string_view()); }
ACRE_ON(dollar_number)  { r.formulas.number(in.string_view()); }
ACRE_ON(dollar_start)   { r.formulas.dollar(in.string_view()); }
ACRE_ON(dollar_tail)    { r.formulas.unit_of_number(in.string_view()); }
ACRE_ON(unit_behind)    { r.formulas.unit_of_number(in.string_view()); }
ACRE_ON(used_text)      { r.formulas.name(in.string_view()); }
ACRE_ON(bracket_open)   { r.formulas.open_bracket(in.string_view()); }
ACRE_ON(bracket_close)  { r.formulas.close_bracket(in.string_view()); }
ACRE_ON(call_open)      { r.formulas.open_call(in.string_view()); }
ACRE_ON(call_close)     { r.formulas.close_call(in.string_view()); }
ACRE_ON(call_list_text) { r.formulas.each(in.string_view()); }
ACRE_ON(row_open)       { r.formulas.open_row(in.string_view()); }
ACRE_ON(row_close)      { r.formulas.close_row(in.string_view()); }
ACRE_ON(head_open)      { r.formulas.open_bracket(in.string_view()); }
ACRE_ON(head_close)     { r.formulas.close_head(); }
ACRE_ON(power_sign)     { r.formulas.enter(in.string_view());
                          r.formulas.sign(in.string_view().substr(0, 1)); }
ACRE_ON(power_tail)     { r.formulas.leave(); r.formulas.fold_binary(); }
ACRE_ON(minus)          { r.formulas.unary_sign(in.string_view().substr(0, 1)); }
ACRE_ON(negative)       { r.formulas.fold_negate(); }
ACRE_ON(negative_cell)  { r.formulas.fold_negate(); }
ACRE_ON(not_sign)       { r.formulas.unary_sign(in.string_view().substr(0, 3)); }
ACRE_ON(denied)         { r.formulas.fold_not(); }
ACRE_ON(product_tail)   { r.formulas.fold_binary(); }
ACRE_ON(sum_tail)       { r.formulas.fold_binary(); }
ACRE_ON(compare_tail)   { r.formulas.fold_binary(); }
ACRE_ON(and_tail)       { r.formulas.fold_binary(); }
ACRE_ON(or_tail)        { r.formulas.fold_binary(); }
ACRE_ON(is_not)         { r.draft.is_not = true; }
ACRE_ON(when_first)     { r.formulas.begin_when(in.string_view().substr(0, 4), true); }
ACRE_ON(when_next)      { r.formulas.begin_when(in.string_view().substr(0, 4), false); }
ACRE_ON(when_form)      { r.formulas.fold_when(); }
ACRE_ON(sum_sign)       { r.formulas.sign(in.string_view()); }
ACRE_ON(product_sign)   {
    if (*in.begin() == '*')
        r.formulas.sign(in.string_view());
    else
        r.formulas.division_sign(in.string_view());
}
ACRE_ON(compare_sign)   { r.formulas.sign(in.string_view()); }
ACRE_ON(and_sign)       { r.formulas.sign(in.string_view().substr(0, 3)); }
ACRE_ON(or_sign)        { r.formulas.sign(in.string_view().substr(0, 2)); }
ACRE_ON(is_text)        {
    check_choice_name(in.string_view(), r.formulas.span(in.string_view()));
    r.formulas.is(in.string_view(), r.draft.is_not);
    r.draft.is_not = false;
}

// --- pieces of statements
ACRE_ON(new_text) {
    const Span span = r.formulas.span(in.string_view());
    check_new_name(in.string_view(), span);
    r.draft.words.push_back({in.string_view(), span});
}
ACRE_ON(target_text)    { r.draft.words.push_back({in.string_view(),
                          r.formulas.span(in.string_view())}); }
ACRE_ON(choice_text)    {
    const Span span = r.formulas.span(in.string_view());
    check_choice_name(in.string_view(), span);
    r.draft.options.push_back({in.string_view(), span});
    check_count("options", r.draft.options.size(), max_options, span);
}
ACRE_ON(text_text)      {
    const std::string_view text = in.string_view().substr(1, in.size() - 2);
    const Span span = r.formulas.span(in.string_view());
    check_length("a text", text, max_text_bytes, span);
    r.draft.texts.push_back({text, span});
    check_count("texts", r.draft.texts.size(), max_listed, span);
}
ACRE_ON(unit_declared)  { r.draft.units.push_back({in.string_view(),
                          r.formulas.span(in.string_view()), false}); }
ACRE_ON(exact_number)   {
    r.draft.number = in.string_view();
    r.draft.number_span = r.formulas.span(in.string_view());
    r.formulas.number(in.string_view()); // for its checks
    r.formulas.take();
}
ACRE_ON(label)          { r.draft.take_text(r.draft.label, "the label"); }
ACRE_ON(because)        { r.draft.take_text(r.draft.because, "`because`"); }
ACRE_ON(within)         { r.draft.take_range(r.formulas, r.draft.within, "`within`"); }
ACRE_ON(swing)          { r.draft.take_swing(r.formulas, false); }
ACRE_ON(of_it)          { r.draft.of_it = true; }
ACRE_ON(choose)         { r.draft.take_swing(r.formulas, true); }
ACRE_ON(may_be_negative) { r.draft.take_sign(r.formulas.span(in.string_view())); }
ACRE_ON(triangular)     { r.draft.shape = ast::SwingShape::Triangular; }
ACRE_ON(pert)           { r.draft.shape = ast::SwingShape::Pert; }
ACRE_ON(even)           { r.draft.shape = ast::SwingShape::Even; }
ACRE_ON(stepwise)       { r.draft.shape = ast::SwingShape::Step; }
ACRE_ON(hold)           { r.draft.hold = true; }
ACRE_ON(below)          { r.draft.take_end(r.draft.below, "`below`",
                          r.formulas.span(in.string_view())); }
ACRE_ON(above)          { r.draft.take_end(r.draft.above, "`above`",
                          r.formulas.span(in.string_view())); }
ACRE_ON(parameter)      {
    auto& into = r.draft.each ? r.draft.columns : r.draft.parameters;
    into.push_back({r.draft.words.back(), r.draft.units.back()});
    check_count("parameters", into.size(), max_parameters, r.draft.words.back().span);
    r.draft.words.pop_back();
    r.draft.units.pop_back();
}
ACRE_ON(define_list_text) { r.draft.each = {in.string_view(),
                          r.formulas.span(in.string_view())}; }
ACRE_ON(shown)          {
    check_count("names", r.draft.words.size(), max_listed, r.draft.words.back().span);
}
ACRE_ON(counted)        {
    std::vector<ast::Word>& words = r.draft.words;
    r.draft.counted.push_back({words.front(), {}, {}});
    if (words.size() > 1)
        r.draft.counted.back().of = words.back();
    if (words.size() > 2)
        r.draft.counted.back().many = words[1];
    check_count("names", r.draft.counted.size(), max_listed, words.back().span);
    words.clear();
}
ACRE_ON(binding)        {
    r.draft.bindings.push_back({r.draft.words.back(), r.formulas.take()});
    check_count("values", r.draft.bindings.size(), max_listed, r.draft.words.back().span);
    r.draft.words.pop_back();
}
ACRE_ON(lump)           { r.draft.lump = true; }
ACRE_ON(round_up)       { r.draft.round_up = true; }
ACRE_ON(staircase)      { r.draft.staircase = true; }
ACRE_ON(native)         { r.draft.native = true; }
ACRE_ON(code_text)      { r.draft.words.push_back({in.string_view(),
                          r.formulas.span(in.string_view())}); }
ACRE_ON(known_text)     { r.draft.known = read_known(in.string_view(),
                          r.formulas.span(in.string_view())); }
ACRE_ON(date_text)      { r.draft.dates.push_back(read_date(in.string_view(),
                          r.formulas.span(in.string_view()))); }
ACRE_ON(days)           { check_days(r.draft.dates, r.formulas.span(in.string_view())); }
ACRE_ON(within_days)    { r.draft.take_days(r.formulas.span(in.string_view())); }
ACRE_ON(weekday)        { r.draft.weekday = read_weekday(in.string_view(),
                          r.formulas.span(in.string_view())); }

#undef ACRE_ON
// clang-format on

} // namespace grammar

} // namespace acre::lang
