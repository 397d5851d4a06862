// Calls: functions of the notation, defines and tables, and what is taken over the entries of
// lists.
#include <vector>

#include "lang/check/resolve/formula_builder.h"
#include "lang/check/resolve/messages.h"

namespace acre::lang::resolving {

NodeId FormulaBuilder::of(const ast::Call& call, Span span, ChoiceId) {
    if (const Callable* callable = r_.find_callable(call.function.text);
        callable != nullptr && sees(callable->module))
        return call_to(*callable, call, span);
    if (const Builtin* builtin = find_builtin(call.function.text, r_.program.notation)) {
        if (call.each == ast::none)
            return call_to(*builtin, call, span);
        report_takes_no_list(r_, call.function, module_.eaches[call.each].list.span);
        return missing(span);
    }
    for (std::uint32_t i = 0; i < call.arg_count; ++i) // their own errors are told all the same
        build(module_.args[call.first_arg + i], none);
    report_unknown_function(r_, where_, call.function);
    return missing(span);
}

// A job calls what its model may call.
bool FormulaBuilder::sees(std::uint32_t module) const {
    const Modules& modules = r_.program.modules;
    std::size_t from = 0;
    while (from < modules.size() && &modules[from] != &module_)
        ++from;
    const bool outside = where_.outside || from >= r_.sees.size();
    return r_.sees[outside ? r_.program.model : from][module];
}

NodeId FormulaBuilder::call_to(const Builtin& builtin, const ast::Call& call, Span span) {
    if (call.arg_count < builtin.least || call.arg_count > builtin.most) {
        report_call_length(r_, builtin, call.arg_count, call.function);
        return missing(span);
    }
    const bool in_rows = where_.function != nullptr && !where_.function->list.empty();
    if (builtin.name == "before")
        return in_rows ? before_row(builtin, call, span) : before(builtin, call, span);
    if (builtin.name == "how_many")
        return how_many(call, span);
    if (builtin.op == Op::Sum || builtin.op == Op::Most || builtin.op == Op::Least)
        return in_rows ? over_rows(builtin, call, span) : over_list(builtin, call, span);
    if (builtin.op == Op::Min || builtin.op == Op::Max)
        return with_args(builtin.op, 0, call, span, nullptr);
    const NodeId a = build(module_.args[call.first_arg], none);
    const NodeId b = call.arg_count > 1 ? build(module_.args[call.first_arg + 1], none) : none;
    return make(builtin.op, span, call.function.span, a, b);
}

NodeId FormulaBuilder::call_to(const Callable& callable, const ast::Call& call, Span span) {
    if (!callable.copies.empty())
        return call_over_list(callable, call, span);
    if (call.each != ast::none) {
        report_takes_no_list(r_, call.function, module_.eaches[call.each].list.span);
        return missing(span);
    }
    if (callable.kind == Callable::Kind::Table) {
        if (call.arg_count != 1) {
            report_call_length(r_, callable, call.arg_count, call.function);
            return missing(span);
        }
        const NodeId a = build(module_.args[call.first_arg], none);
        const NodeId id = indexed(Op::Table, callable.index, span, call.function.span);
        r_.sheet.nodes[id].a = a;
        return id;
    }
    const Function& function = r_.sheet.functions[callable.index];
    if (call.arg_count != function.parameters.size()) {
        report_call_length(r_, callable, call.arg_count, call.function);
        return missing(span);
    }
    r_.want(callable);
    return with_args(Op::Define, callable.index, call, span, &function);
}

NodeId FormulaBuilder::with_args(Op op, std::uint32_t index, const ast::Call& call, Span span,
                                 const Function* function) {
    std::vector<NodeId> args(call.arg_count);
    for (std::uint32_t i = 0; i < call.arg_count; ++i) {
        const ChoiceId expected =
            function != nullptr ? choice_of(function->parameter_types[i]) : none;
        args[i] = build(module_.args[call.first_arg + i], expected);
    }
    return call_node(op, index, args, span, call.function.span);
}

NodeId FormulaBuilder::call_node(Op op, std::uint32_t index, const std::vector<NodeId>& args,
                                 Span span, Span op_span) {
    const NodeId id = indexed(op, index, span, op_span);
    r_.sheet.nodes[id].first_arg = static_cast<std::uint32_t>(r_.sheet.args.size());
    r_.sheet.nodes[id].arg_count = static_cast<std::uint32_t>(args.size());
    r_.sheet.args.insert(r_.sheet.args.end(), args.begin(), args.end());
    return id;
}

// The line that a function over a list names; anything else is reported, and no line.
Found FormulaBuilder::line_of_list(const Builtin& builtin, const ast::Call& call, Span span) {
    const ast::ExprId arg = module_.args[call.first_arg];
    const ast::Expr* expr = arg < module_.exprs.size() ? &module_.exprs[arg] : nullptr;
    const auto* name = expr != nullptr ? std::get_if<ast::Name>(&expr->node) : nullptr;
    if (name == nullptr || where_.function != nullptr) {
        const Span place = expr != nullptr ? expr->span : span;
        report_not_of_list(r_, builtin.name, r_.sources.text(place), place, none);
        return {};
    }
    Found found = look_up(r_, where_, name->text);
    if (found.state == Found::State::Absent)
        report_unknown_name(r_, where_, name->text, expr->span);
    if (found.state != Found::State::Line || !found.of.empty() || of_single_entry(found))
        return found;
    report_not_of_list(r_, builtin.name, name->text, expr->span, found.line);
    return {};
}

NodeId FormulaBuilder::line_of_entry(const ast::Call& call, const Entries& at) {
    const ast::Expr& expr = module_.exprs[module_.args[call.first_arg]];
    Where where = where_;
    where.at = at;
    return line_node(r_, look_up(r_, where, std::get<ast::Name>(expr.node).text).line, expr.span);
}

// Over each list that the place has no entry of; over the innermost where it has one of them all.
NodeId FormulaBuilder::over_list(const Builtin& builtin, const ast::Call& call, Span span) {
    const Found found = line_of_list(builtin, call, span);
    if (found.state != Found::State::Line)
        return missing(span);
    Lists over = r_.open(found.of, where_.at);
    if (over.empty() && !found.of.empty())
        over.add(found.of.innermost());
    std::vector<NodeId> args;
    Entries at = where_.at;
    const std::uint32_t copies = r_.copies(over, {});
    for (std::uint32_t c = 0; c < copies && !r_.full; ++c) {
        const Entries copy = r_.copy(over, {}, c);
        for (const std::uint32_t list : over)
            at.put(list, copy[list]);
        args.push_back(line_of_entry(call, at));
    }
    return call_node(builtin.op, 0, args, span, call.function.span);
}

// The sum over the entries that stand before the one at hand; at the first there is none.
NodeId FormulaBuilder::before(const Builtin& builtin, const ast::Call& call, Span span) {
    const Found found = line_of_list(builtin, call, span);
    if (found.state != Found::State::Line)
        return missing(span);
    const Line& line = r_.sheet.lines[found.line];
    if (found.of.empty() || !r_.open(found.of, where_.at).empty()) {
        report_before_outside(r_, where_, found, call.function.span);
        return missing(span);
    }
    if (line.type.kind != Type::Kind::Number) {
        const Span arg = module_.exprs[module_.args[call.first_arg]].span;
        if (line.type.kind == Type::Kind::Choice)
            report_choice_before(r_, arg);
        else if (line.role == Role::CostQuantity)
            report_not_of_list(r_, builtin.name, r_.sources.text(arg), arg, none);
        return missing(span);
    }
    const std::uint32_t list = found.of.innermost();
    std::vector<NodeId> args;
    Entries at = where_.at;
    for (std::uint32_t e = 0; e < where_.at[list] && !r_.full; ++e) {
        at.put(list, e);
        args.push_back(line_of_entry(call, at));
    }
    if (args.empty())
        return number_node(r_, 0, line.type.unit, span);
    return call_node(Op::Sum, 0, args, span, call.function.span);
}

NodeId FormulaBuilder::how_many(const ast::Call& call, Span span) {
    const ast::ExprId arg = module_.args[call.first_arg];
    const ast::Expr* expr = arg < module_.exprs.size() ? &module_.exprs[arg] : nullptr;
    const auto* name = expr != nullptr ? std::get_if<ast::Name>(&expr->node) : nullptr;
    const Span place = expr != nullptr ? expr->span : span;
    const std::uint32_t list = name != nullptr ? r_.find_list(name->text) : none;
    if (list != none && where_.function != nullptr && where_.function->list == name->text)
        return number_node(r_, where_.function->rows, one, span);
    if (list != none)
        return number_node(r_, r_.lists[list].count(), one, span);
    report_no_list(r_, {r_.sources.text(place), place});
    return missing(span);
}

// A line of a part `each` of a list, where there is one entry only: in a model used for one.
bool FormulaBuilder::of_single_entry(const Found& found) const {
    const std::uint32_t part = r_.sheet.lines[found.line].part;
    return part != none && r_.sheet.parts[part].each_entry;
}

} // namespace acre::lang::resolving
