#include "lang/syntax/assemble.h"

#include <fmt/format.h>

#include <utility>

#include "lang/syntax/parse.h"

namespace acre::lang {

namespace {

ast::StepKind step_kind(Keyword head, bool up) {
    switch (head) {
    case Keyword::Overhead:
        return ast::StepKind::Overhead;
    case Keyword::Contingency:
        return ast::StepKind::Contingency;
    case Keyword::Reserve:
        return ast::StepKind::Reserve;
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
    if (draft.within_days && kind_ != FileKind::Season)
        misplaced_days(draft.within_days_span);
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
            entry->within = d.second_text();
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
// a model says once what its money is, a model once what its machine costs.
void Assembler::check_once(const LogicalLine& line) {
    if (line.head != Keyword::For && line.head != Keyword::Date && line.head != Keyword::Season &&
        line.head != Keyword::Field && line.head != Keyword::Firm && line.head != Keyword::Money &&
        line.head != Keyword::Fleet)
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
