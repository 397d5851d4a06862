#include "lang/syntax/assemble.h"

#include <fmt/format.h>

#include <utility>

#include "lang/syntax/parse.h"

namespace acre::lang {

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

ast::Line make_line(const Draft& d, ast::ExprId value) {
    return {d.words.front(), d.units.front(), value,
            d.label,         d.because,       d.may_be_negative.has_value()};
}

ast::Part make_part(const Draft& d) {
    ast::Part part{d.texts.front(), {}, {}};
    if (!d.words.empty())
        part.each = d.words[0];
    if (d.words.size() > 1)
        part.of = d.words[1];
    return part;
}

ast::Set make_set(const Draft& d, ast::ExprId value) {
    return {d.words.front(), value, d.because, d.swing, d.of_it, d.shape};
}

ast::StepKind step_kind(Keyword head, bool up) {
    switch (head) {
    case Keyword::Overhead:
        return ast::StepKind::Overhead;
    case Keyword::Contingency:
        return ast::StepKind::Contingency;
    case Keyword::Markup:
        return ast::StepKind::Markup;
    case Keyword::Margin:
        return ast::StepKind::Margin;
    case Keyword::At:
        return ast::StepKind::AtLeast;
    default:
        return up ? ast::StepKind::RoundUp : ast::StepKind::RoundTo;
    }
}

} // namespace

std::optional<double> literal_value(const ast::Module& module, ast::ExprId id) {
    const ast::Expr& expr = module.exprs[id];
    if (const auto* number = std::get_if<ast::Number>(&expr.node))
        return number->value;
    if (const auto* negate = std::get_if<ast::Negate>(&expr.node))
        if (const auto* number = std::get_if<ast::Number>(&module.exprs[negate->of].node))
            return -number->value;
    return std::nullopt;
}

void Assembler::add(std::uint32_t index, Draft& draft, Formulas& formulas) {
    const LogicalLine& line = lines_[index];
    if (index == 0 && says_what_it_is_) {
        module_.title = draft.texts.front();
        return;
    }
    const std::uint32_t parent = line.parent;
    for (std::uint32_t p = parent; p != no_parent; p = lines_[p].parent)
        if (statement_of_[p] != ast::none)
            module_.statements[statement_of_[p]].span.end = line.end;
    if (parent != no_parent && lines_[parent].head != Keyword::Part) {
        if (statement_of_[parent] != ast::none)
            add_inner(line, module_.statements[statement_of_[parent]], draft, formulas);
        return;
    }
    check_once(line);
    statement_of_[index] = static_cast<std::uint32_t>(module_.statements.size());
    const std::uint32_t part = parent == no_parent ? ast::none : statement_of_[parent];
    module_.statements.push_back({span(line), part, make(line, draft, formulas)});
}

// Statements of a word and a text.
static ast::StatementNode named_by_text(Keyword head, const ast::Text& text) {
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
    default:
        return ast::For{text};
    }
}

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
        return make_given(d, value(0));
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
        return make_set(d, value(0));
    case Keyword::List:
        return ast::List{d.words.front(), d.options, d.label};
    case Keyword::Entry:
        return ast::Entry{d.words[0], d.words[1], d.label, {}, {}, ast::none};
    case Keyword::Money:
        return make_money(d, value(0));
    case Keyword::Option:
    case Keyword::Model:
    case Keyword::Season:
    case Keyword::Firm:
    case Keyword::With:
    case Keyword::For:
        return named_by_text(line.head, d.texts.front());
    case Keyword::Date:
        return d.date;
    case Keyword::Field:
        return ast::Field{d.texts.front(), value(0)};
    default:
        if (kind_ == FileKind::Firm)
            return make_firm_word(d);
        return make_line(d, value(0));
    }
}

void Assembler::add_inner(const LogicalLine& line, ast::Statement& parent, Draft& d,
                          Formulas& formulas) {
    const std::vector<ast::ExprId>& v = formulas.values();
    const auto set = [&] { return make_set(d, v.front()); };
    if (auto* table = std::get_if<ast::Table>(&parent.node)) {
        add_row(*table, line, formulas);
    } else if (auto* price = std::get_if<ast::Price>(&parent.node)) {
        price->steps.push_back({step_kind(line.head, d.round_up), v.front(), span(line)});
    } else if (auto* define = std::get_if<ast::Define>(&parent.node)) {
        add_to_define(*define, line, d, formulas);
    } else if (auto* option = std::get_if<ast::Option>(&parent.node)) {
        option->sets.push_back(set());
    } else if (auto* entry = std::get_if<ast::Entry>(&parent.node)) {
        if (line.head == Keyword::Set) {
            entry->sets.push_back(set());
        } else {
            if (entry->field)
                twice("`field`", span(line), entry->field->span);
            entry->field = d.texts.front();
            entry->heading = v.empty() ? ast::none : v.front();
        }
    }
}

void Assembler::add_row(ast::Table& table, const LogicalLine& line, Formulas& formulas) {
    const std::vector<ast::ExprId>& v = formulas.values();
    const ast::TableRow row{v[0], v[1], span(line)};
    const std::optional<double> x = literal_value(module_, row.x);
    const Span x_span = module_.exprs[row.x].span;
    if (x && last_x_ && *x <= *last_x_)
        diagnostics_.add({Code::S113,
                          *x == *last_x_ ? "two rows of a table start with the same number"
                                         : "the first column of a table must rise",
                          {x_span, "must be larger"},
                          {{*last_x_span_, "than this"}},
                          {},
                          {{"sort the rows by their first number", {}}}});
    if (x) {
        last_x_ = x;
        last_x_span_ = x_span;
    }
    table.rows.push_back(row);
}

void Assembler::add_to_define(ast::Define& define, const LogicalLine& line, Draft& d,
                              Formulas& formulas) {
    const std::vector<ast::ExprId>& v = formulas.values();
    const auto add_range = [&](std::vector<ast::ParameterRange>& ranges) {
        for (const ast::ParameterRange& other : ranges)
            if (other.name.text == d.words.front().text)
                twice(fmt::format("`{} {}`", spelling_of(line.head), other.name.text),
                      d.words.front().span, other.name.span);
        ranges.push_back({d.words.front(),
                          {v[0], v[1], join(module_.exprs[v[0]].span, module_.exprs[v[1]].span)},
                          d.label});
    };
    switch (line.head) {
    case Keyword::Source:
        define.sources.push_back(d.texts.front());
        break;
    case Keyword::Note:
        define.notes.push_back(d.texts.front());
        break;
    case Keyword::Known:
        if (define.known != ast::Known::Unstated)
            twice("`known`", span(line), define.type.span);
        define.known = d.known;
        break;
    case Keyword::Tested:
        add_range(define.tested);
        break;
    case Keyword::Limit:
        add_range(define.limits);
        break;
    case Keyword::Example:
        define.examples.push_back({v[0], v[1], v.size() > 2 ? v[2] : ast::none, span(line)});
        break;
    default:
        define.locals.push_back(make_line(d, v.front()));
        break;
    }
}

void Assembler::twice(std::string_view what, Span again, Span first) {
    diagnostics_.add({Code::S116,
                      fmt::format("{} is given twice", what),
                      {again, "again"},
                      {{first, "first here"}},
                      {},
                      {{"keep one of them", {}}}});
}

// A job says once for whom it is, when, for which season, of which firm and which field; a firm or
// a model says once what its money is.
void Assembler::check_once(const LogicalLine& line) {
    if (line.head != Keyword::For && line.head != Keyword::Date && line.head != Keyword::Season &&
        line.head != Keyword::Field && line.head != Keyword::Firm && line.head != Keyword::Money)
        return;
    for (const auto& [word, first] : said_once_) {
        if (word == line.head) {
            twice(fmt::format("`{}`", spelling_of(word)), span(line), first);
            return;
        }
    }
    said_once_.emplace_back(line.head, span(line));
}

void Assembler::close_table() {
    if (table_line_ == no_parent)
        return;
    const LogicalLine& line = lines_[table_line_];
    if (rows_seen_ < 2 && statement_of_[table_line_] != ast::none)
        diagnostics_.add(
            {Code::S112,
             fmt::format("a table needs at least two rows; this one has {}",
                         rows_seen_ == 0 ? "none" : "one"),
             {span(line), ""},
             {},
             {},
             {{"write the rows below it, indented: two numbers a row, the first column rising",
               {}}}});
    table_line_ = no_parent;
}

void Assembler::finish() {
    close_table();
}

} // namespace acre::lang
