// Calls of functions over a list, and what stands inside of such a function.
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/formula_builder.h"
#include "lang/check/resolve/messages.h"

namespace acre::lang::resolving {

// With the rows of the call itself, or with a line of each entry for each column.
NodeId FormulaBuilder::call_over_list(const Callable& callable, const ast::Call& call, Span span) {
    const Function& one_row = r_.sheet.functions[callable.index];
    const ast::Each* each = call.each == ast::none ? nullptr : &module_.eaches[call.each];
    const auto fixed =
        static_cast<std::uint32_t>(one_row.parameters.size() - one_row.columns.size());
    if (each == nullptr || each->list.text != one_row.list || call.arg_count != fixed ||
        !fits(callable, *each)) {
        report_call_over_list(r_, callable, call, each);
        return missing(span);
    }
    std::vector<NodeId> args;
    for (std::uint32_t i = 0; i < fixed; ++i)
        args.push_back(
            build(module_.args[call.first_arg + i], choice_of(one_row.parameter_types[i])));
    std::uint32_t rows = 0;
    if (!each->rows.empty()) {
        for (const ast::Row& row : each->rows)
            for (std::uint32_t c = 0; c < row.arg_count; ++c)
                args.push_back(build(module_.args[row.first_arg + c],
                                     choice_of(one_row.parameter_types[fixed + c])));
        rows = static_cast<std::uint32_t>(each->rows.size());
    } else if (where_.function != nullptr) {
        rows = own_rows(callable, *each, args);
    } else {
        rows = rows_of_entries(callable, *each, args);
    }
    const std::uint32_t copy = copy_for(callable, rows);
    if (rows == 0 || copy == none)
        return missing(span);
    r_.want(callable);
    return call_node(Op::Define, copy, args, span, call.function.span);
}

bool FormulaBuilder::fits(const Callable& callable, const ast::Each& each) const {
    const std::size_t columns = r_.sheet.functions[callable.index].columns.size();
    for (const ast::Row& row : each.rows)
        if (row.arg_count != columns)
            return false;
    return true;
}

// Inside a function over the same list: its own columns and lines of these names. 0: reported.
std::uint32_t FormulaBuilder::own_rows(const Callable& callable, const ast::Each& each,
                                       std::vector<NodeId>& args) {
    const Function& function = *where_.function;
    if (function.list != each.list.text) {
        report_no_entries_here(r_, where_, each.list);
        return 0;
    }
    for (std::uint32_t row = 0; row < function.rows; ++row)
        for (const std::string& column : r_.sheet.functions[callable.index].columns) {
            const NameInFunction name = r_.find_in_function(function, column);
            if (!name.of_row()) {
                report_no_column(r_, callable, column, each.list);
                return 0;
            }
            args.push_back(in_row(name, row, each.list.span));
        }
    return function.rows;
}

// The lines that the place sees by these names, of every entry in turn. 0: reported.
std::uint32_t FormulaBuilder::rows_of_entries(const Callable& callable, const ast::Each& each,
                                              std::vector<NodeId>& args) {
    const std::uint32_t list = r_.find_list(each.list.text);
    if (where_.instance == none) {
        report_no_entries_here(r_, where_, each.list);
        return 0;
    }
    const std::vector<std::string>& columns = r_.sheet.functions[callable.index].columns;
    for (const std::string& column : columns) {
        const Found found = look_up(r_, where_, column);
        if (found.state != Found::State::Line || !found.of.contains(list)) {
            report_no_column(r_, callable, column, each.list);
            return 0;
        }
        Entries at = where_.at;
        at.put(list, 0);
        if (!r_.open(found.of, at)
                 .empty()) { // of another list too, and the place has no entry of it
            Where inside = where_;
            inside.at = at;
            report_read_from_outside(r_, inside, column, each.list.span, found);
            return 0;
        }
    }
    for (std::uint32_t entry = 0; entry < r_.lists[list].count() && !r_.full; ++entry) {
        Where where = where_;
        where.at.put(list, entry);
        for (const std::string& column : columns)
            args.push_back(line_node(r_, look_up(r_, where, column).line, each.list.span));
    }
    return r_.lists[list].count();
}

NodeId FormulaBuilder::in_row(const NameInFunction& name, std::uint32_t row, Span span) {
    const FunctionNames& names = r_.names_of(*where_.function);
    return name.kind == NameInFunction::Kind::Column
               ? indexed(Op::Parameter, names.fixed + row * names.columns + name.index, span, span)
               : indexed(Op::Local, name.index + row, span, span);
}

// `sum(thick)` inside the function: over all its rows.
NodeId FormulaBuilder::over_rows(const Builtin& builtin, const ast::Call& call, Span span) {
    const ast::Expr* arg = row_argument(builtin, call, span);
    if (arg == nullptr)
        return missing(span);
    const NameInFunction name =
        r_.find_in_function(*where_.function, std::get<ast::Name>(arg->node).text);
    std::vector<NodeId> args;
    for (std::uint32_t row = 0; row < where_.function->rows; ++row)
        args.push_back(in_row(name, row, arg->span));
    return call_node(builtin.op, 0, args, span, call.function.span);
}

// The sum over the rows before the one at hand.
NodeId FormulaBuilder::before_row(const Builtin& builtin, const ast::Call& call, Span span) {
    const ast::Expr* arg = row_argument(builtin, call, span);
    if (arg == nullptr)
        return missing(span);
    const NameInFunction name =
        r_.find_in_function(*where_.function, std::get<ast::Name>(arg->node).text);
    if (where_.row == no_row) {
        r_.add(problem(Code::N218,
                       fmt::format("`before` stands outside the list `{}`", where_.function->list),
                       call.function.span, "before which one?",
                       {"for all of them, write  sum(…)",
                        "give it a line of its own in this function: that is one for each row"}));
        return missing(span);
    }
    const bool column = name.kind == NameInFunction::Kind::Column;
    const FunctionNames& names = r_.names_of(*where_.function);
    const Type& type = column ? where_.function->parameter_types[names.fixed + name.index]
                              : where_.function->locals[name.index].type;
    if (type.kind != Type::Kind::Number) {
        if (type.kind == Type::Kind::Choice)
            report_choice_before(r_, arg->span);
        return missing(span);
    }
    std::vector<NodeId> args;
    for (std::uint32_t row = 0; row < where_.row; ++row)
        args.push_back(in_row(name, row, arg->span));
    if (args.empty())
        return number_node(r_, 0, type.unit, span);
    return call_node(Op::Sum, 0, args, span, call.function.span);
}

// The name of a column, or of a line for each row; anything else is reported, and null.
const ast::Expr* FormulaBuilder::row_argument(const Builtin& builtin, const ast::Call& call,
                                              Span span) {
    const ast::ExprId arg = module_.args[call.first_arg];
    const ast::Expr* expr = arg < module_.exprs.size() ? &module_.exprs[arg] : nullptr;
    const auto* name = expr != nullptr ? std::get_if<ast::Name>(&expr->node) : nullptr;
    if (name != nullptr && r_.find_in_function(*where_.function, name->text).of_row())
        return expr;
    const Span place = expr != nullptr ? expr->span : span;
    report_not_of_list(r_, builtin.name, r_.sources.text(place), place, none);
    return nullptr;
}

} // namespace acre::lang::resolving
