#include "lang/check/resolve/tables.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

namespace acre::lang::resolving {
namespace {

struct Cell {
    double value = 0;
    bool good = false;
};

// A number as written, in the unit of its column; a bare number is in that unit already.
Cell read_cell(Resolution& r, const ast::Module& module, ast::ExprId id, const Type& column, std::string_view column_text, Span row) {
    if (id >= module.exprs.size())
        return {};
    const ast::Expr& expr = module.exprs[id];
    double sign = 1;
    const auto* number = std::get_if<ast::Number>(&expr.node);
    if (const auto* negate = std::get_if<ast::Negate>(&expr.node); negate != nullptr && negate->of < module.exprs.size()) {
        sign = -1;
        number = std::get_if<ast::Number>(&module.exprs[negate->of].node);
    }
    if (number == nullptr) {
        r.add(problem(Code::S106, "a row of a table holds two numbers", expr.span, "not a number",
                      {"a table is fixed: put what changes into a line, and the table's value into a formula"}));
        return {};
    }
    if (!number->unit)
        return {sign * number->value, true};
    const Unit* unit = r.units.read(*number->unit);
    if (unit == nullptr || column.kind != Type::Kind::Number)
        return {};
    if (!(unit->dim == column.unit.dim)) {
        Diagnostic d = problem(Code::U304, fmt::format("a row in {} in a column of {}", full_text(*number->unit), column_text), expr.span,
                               full_text(*number->unit), {fmt::format("leave the unit out: the column is in {}", column_text)});
        d.others.push_back({row, {}});
        r.add(std::move(d));
        return {};
    }
    return {sign * conversion(*unit, column.unit).apply(number->value), true};
}

void need_number(Resolution& r, const Type& type, const ast::UnitText& text) {
    if (type.kind == Type::Kind::Choice)
        r.add(problem(Code::U309, fmt::format("a table goes from number to number, and `{}` is a choice", text.text), text.span, "a choice",
                      {"for a choice write  when … is … then … otherwise …"}));
}

} // namespace

Table read_table(Resolution& r, const ast::Module& module, const ast::Table& ast, Span span) {
    Table table;
    table.name = ast.name.text;
    table.label = ast.label ? std::string(ast.label->text) : std::string();
    table.parameter = r.declared_type(ast.parameter.type);
    table.parameter_text = full_text(ast.parameter.type);
    table.result = r.declared_type(ast.unit);
    table.result_text = full_text(ast.unit);
    table.staircase = ast.staircase;
    table.hold_below = ast.below == ast::TableEnd::Hold;
    table.hold_above = ast.above == ast::TableEnd::Hold;
    table.span = span;
    need_number(r, table.parameter, ast.parameter.type);
    need_number(r, table.result, ast.unit);
    table.x.reserve(ast.rows.size());
    table.y.reserve(ast.rows.size());
    const ast::TableRow* last = nullptr;
    for (const ast::TableRow& row : ast.rows) {
        const Cell x = read_cell(r, module, row.x, table.parameter, table.parameter_text, row.span);
        const Cell y = read_cell(r, module, row.y, table.result, table.result_text, row.span);
        if (!x.good || !y.good)
            continue;
        if (last != nullptr && !(x.value > table.x.back())) {
            Diagnostic d = problem(Code::S113, fmt::format("the first column of `{}` must rise from row to row", table.name),
                                   module.exprs[row.x].span, "not above the row before");
            d.others.push_back({module.exprs[last->x].span, {}});
            r.add(std::move(d));
        }
        table.x.push_back(x.value);
        table.y.push_back(y.value);
        last = &row;
    }
    if (ast.rows.size() < 2)
        r.add(problem(Code::S112, fmt::format("the table `{}` needs two rows at least", table.name), ast.name.span,
                      ast.rows.empty() ? "no row" : "one row"));
    return table;
}

} // namespace acre::lang::resolving
