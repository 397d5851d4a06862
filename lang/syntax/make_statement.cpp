// What a statement is, made of the pieces that were read. The third part of the assembler.
#include "lang/syntax/assemble.h"
#include "lang/units/money.h"

#include <optional>
#include <vector>

namespace acre::lang {

ast::Line make_line(const Draft& d, ast::ExprId value) {
    return {d.words.front(), d.units.front(), value,
            d.label,         d.because,       d.may_be_negative.has_value()};
}

ast::Set make_set(const Draft& d, ast::ExprId value) {
    return {d.words.front(), value, d.because, d.swing, d.of_it, d.shape, d.within_days};
}

namespace {

ast::Given make_given(Draft& d, ast::ExprId value) {
    ast::Given given;
    given.name = d.words.front();
    if (!d.units.empty())
        given.unit = d.units.front();
    given.options = d.options;
    given.value = value;
    given.label = d.label;
    given.within = d.within;
    given.swing = d.swing;
    given.chosen = d.chosen;
    given.of_it = d.of_it;
    given.shape = d.shape;
    given.because = d.because;
    given.may_be_negative = d.may_be_negative.has_value();
    return given;
}

ast::Table make_table(Draft& d) {
    ast::Table table;
    table.name = d.words.front();
    table.parameter = d.parameters.front();
    table.unit = d.units.front();
    table.staircase = d.staircase;
    table.below = d.below.value_or(ast::TableEnd::Error);
    table.above = d.above.value_or(ast::TableEnd::Error);
    table.label = d.label;
    table.because = d.because;
    return table;
}

ast::Define make_define(Draft& d, ast::ExprId value) {
    ast::Define define;
    define.name = d.words.front();
    define.parameters = d.parameters;
    define.each = d.each;
    define.columns = d.columns;
    define.type = d.units.back();
    define.native = d.native;
    define.value = value;
    define.label = d.label;
    return define;
}

ast::Price make_price(Draft& d, ast::ExprId quantity) {
    ast::Price price;
    price.title = d.texts.front();
    price.covers.assign(d.texts.begin() + 1, d.texts.end());
    price.lump = d.lump;
    if (!d.units.empty())
        price.per = d.units.front();
    price.quantity = quantity;
    return price;
}

ast::Cost make_cost(const Draft& d, ast::ExprId rate, ast::ExprId quantity) {
    return {d.words.front(),
            d.units.front(),
            rate,
            quantity,
            d.label,
            d.because,
            d.may_be_negative.has_value()};
}

ast::Part make_part(const Draft& d) {
    ast::Part part{d.texts.front(), {}, {}};
    if (!d.words.empty())
        part.each = d.words[0];
    if (d.words.size() > 1)
        part.of = d.words[1];
    return part;
}

// Statements of a word and a text.
ast::StatementNode named_by_text(Keyword head, const ast::Text& text) {
    switch (head) {
    case Keyword::Option:
        return ast::Option{text, {}};
    case Keyword::Model:
        return ast::ModelReference{text};
    case Keyword::Season:
        return ast::SeasonReference{text};
    case Keyword::Firm:
        return ast::FirmReference{text};
    case Keyword::With:
        return ast::ValuesReference{text};
    case Keyword::Note:
        return ast::Note{text};
    default:
        return ast::For{text};
    }
}

// "3 mi/h .. 5 mi/h" for `3-5 mi/h`, "$3/h .. $5/h" for `$3-$5/h`: each side has what the other
// says of its unit. The sign of money is no part of a unit's text.
std::string range_text(std::string_view left, const ast::Number& low, std::string_view right,
                       const ast::Number& high) {
    std::string first(left);
    std::string second(right);
    if (low.unit && !high.unit) {
        const std::string_view sign = left.substr(0, money_sign_size(left));
        second = fmt::format("{}{}{}{}", sign, right, sign.empty() ? " " : "", low.unit->text);
    } else if (!low.unit && high.unit) {
        first = fmt::format("{} {}", left, high.unit->text);
    } else if (low.unit && high.unit->text.starts_with(fmt::format("{}/", low.unit->text))) {
        first += high.unit->text.substr(low.unit->text.size());
    }
    return fmt::format("{} .. {}", first, second);
}

// `3-5 mi/h`, without a blank: nobody takes a larger number from a smaller one. S110, and the
// larger one is taken, so that this error is all.
ast::ExprId no_range(const ast::Module& module, ast::ExprId value, std::string_view text,
                     Diagnostics& diagnostics) {
    if (value >= module.exprs.size())
        return value;
    const auto* minus = std::get_if<ast::Binary>(&module.exprs[value].node);
    if (minus == nullptr || minus->op != ast::BinaryOp::Subtract)
        return value;
    const Span left = module.exprs[minus->left].span;
    const Span right = module.exprs[minus->right].span;
    const auto* low = std::get_if<ast::Number>(&module.exprs[minus->left].node);
    const auto* high = std::get_if<ast::Number>(&module.exprs[minus->right].node);
    if (low == nullptr || high == nullptr || low->value >= high->value ||
        left.end != minus->op_span.begin || minus->op_span.end != right.begin)
        return value;
    const auto written = [&](Span s) { return text.substr(s.begin, s.end - s.begin); };
    diagnostics.add({Code::S110,
                     "a value is one figure, not a range",
                     {{left.file, left.begin, right.end}, ""},
                     {},
                     {},
                     {{"write the one figure, and behind it how far it may go:  swing " +
                           range_text(written(left), *low, written(right), *high),
                       {}}}});
    return minus->right;
}

} // namespace

ast::StatementNode Assembler::make(const LogicalLine& line, Draft& d, Formulas& formulas) {
    const std::vector<ast::ExprId>& v = formulas.values();
    const auto value = [&](std::size_t i) { return i < v.size() ? v[i] : ast::none; };
    const auto alias = [&] {
        return d.words.empty() ? std::nullopt : std::optional(d.words.front());
    };
    switch (line.head) {
    case Keyword::Use:
        return ast::Use{d.texts.front(), alias(), d.bindings};
    case Keyword::Noun:
        return ast::Noun{d.words.front()};
    case Keyword::Unit:
        return ast::UnitDefinition{d.words.front(), d.number, d.number_span, d.units.front()};
    case Keyword::Choice:
        return ast::Choice{d.words.front(), d.options};
    case Keyword::Part:
        return make_part(d);
    case Keyword::Given:
        return make_given(d, no_range(module_, value(0), text_, diagnostics_));
    case Keyword::Cost:
        return make_cost(d, value(0), value(1));
    case Keyword::Event:
        return ast::Event{d.words.front(), value(0), value(1), value(2), d.label};
    case Keyword::Correlate:
        return ast::Correlate{d.words[0], d.words[1], value(0)};
    case Keyword::Require:
        return ast::Require{value(0), d.texts.front(), value(1)};
    case Keyword::Caution:
        return ast::Caution{value(0), d.texts.front()};
    case Keyword::Price:
        return make_price(d, value(0));
    case Keyword::Table:
        return make_table(d);
    case Keyword::Define:
        return make_define(d, value(0));
    case Keyword::Set:
        return make_set(d, no_range(module_, value(0), text_, diagnostics_));
    case Keyword::List:
        return ast::List{d.words.front(), d.options, d.label};
    case Keyword::Show:
        return ast::Show{d.words};
    case Keyword::Count:
        return ast::Count{d.counted};
    case Keyword::Fleet:
        return ast::Fleet{value(0), value(1), span(line)};
    case Keyword::Entry:
        return ast::Entry{d.words[0], d.words[1], d.label, {}, {}, {}, ast::none};
    case Keyword::Money:
        return make_money(d, value(0));
    case Keyword::Option:
    case Keyword::Model:
    case Keyword::Season:
    case Keyword::Firm:
    case Keyword::With:
    case Keyword::For:
    case Keyword::Note:
        return named_by_text(line.head, d.texts.front());
    case Keyword::Date:
        return make_dates(d);
    case Keyword::Closed:
        return make_closed(d, span(line));
    case Keyword::Field:
        return ast::Field{d.texts.front(), d.second_text(), value(0)};
    default:
        if (kind_ == FileKind::Firm || kind_ == FileKind::Job)
            return make_page_word(d);
        return make_line(d, value(0));
    }
}

} // namespace acre::lang
