#include "lang/check/resolve/tables.h"

#include <string>

#include <fmt/format.h>

namespace acre::lang::resolving {
namespace {

void need_number(Resolution& r, const Type& type, const ast::UnitText& text) {
    if (type.kind == Type::Kind::Choice)
        r.add(problem(
            Code::U309, fmt::format("a table takes numbers, and `{}` is a choice", text.text),
            text.span, "a choice", {"for a choice, write  when … is … then … otherwise …"}));
}

// A cell is a number as written; the parser has seen to that.
double cell(const ast::Module& module, ast::ExprId id) {
    if (const auto* negate = std::get_if<ast::Negate>(&module.exprs[id].node))
        return -cell(module, negate->of);
    const auto* number = std::get_if<ast::Number>(&module.exprs[id].node);
    return number != nullptr ? number->value : 0;
}

} // namespace

Table read_table(Resolution& r, const ast::Module& module, const ast::Table& ast, Span span) {
    Table table;
    table.name = ast.name.text;
    table.label = ast.label ? std::string(ast.label->text) : std::string();
    table.parameter_name = ast.parameter.name.text;
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
    for (const ast::TableRow& row : ast.rows) {
        table.x.push_back(cell(module, row.x));
        table.y.push_back(cell(module, row.y));
    }
    return table;
}

} // namespace acre::lang::resolving
