// Calls: functions of the notation, defines and tables, and what is taken over the blocks.
#include <vector>

#include "lang/check/resolve/formula_builder.h"
#include "lang/check/resolve/messages.h"

namespace acre::lang::resolving {

NodeId FormulaBuilder::of(const ast::Call& call, Span span, ChoiceId) {
    if (const Callable* callable = r_.find_callable(call.function.text);
        callable != nullptr && sees(callable->module))
        return call_to(*callable, call, span);
    if (const Builtin* builtin = find_builtin(call.function.text))
        return call_to(*builtin, call, span);
    for (std::uint32_t i = 0; i < call.arg_count; ++i) // their own errors are told all the same
        build(module_.args[call.first_arg + i], none);
    report_unknown_function(r_, where_, call.function);
    return missing(span);
}

// A job calls what its model may call.
bool FormulaBuilder::sees(std::uint32_t module) const {
    const auto from = static_cast<std::size_t>(&module_ - r_.program.modules.data());
    const bool outside = where_.outside || from >= r_.sees.size();
    return r_.sees[outside ? r_.program.model : from][module];
}

NodeId FormulaBuilder::call_to(const Builtin& builtin, const ast::Call& call, Span span) {
    if (call.arg_count < builtin.least || call.arg_count > builtin.most) {
        report_call_length(r_, builtin, call.arg_count, call.function);
        return missing(span);
    }
    if (builtin.op == Op::Sum || builtin.op == Op::Most || builtin.op == Op::Least)
        return over_blocks(builtin, call, span);
    if (builtin.op == Op::Min || builtin.op == Op::Max)
        return with_args(builtin.op, 0, call, span, nullptr);
    const NodeId a = build(module_.args[call.first_arg], none);
    const NodeId b = call.arg_count > 1 ? build(module_.args[call.first_arg + 1], none) : none;
    return make(builtin.op, span, call.function.span, a, b);
}

NodeId FormulaBuilder::call_to(const Callable& callable, const ast::Call& call, Span span) {
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

NodeId FormulaBuilder::over_blocks(const Builtin& builtin, const ast::Call& call, Span span) {
    const ast::ExprId arg = module_.args[call.first_arg];
    const ast::Expr* expr = arg < module_.exprs.size() ? &module_.exprs[arg] : nullptr;
    const auto* name = expr != nullptr ? std::get_if<ast::Name>(&expr->node) : nullptr;
    if (name == nullptr || where_.function != nullptr) {
        const Span place = expr != nullptr ? expr->span : span;
        report_not_of_blocks(r_, builtin.name, r_.sources.text(place), place, none);
        return missing(span);
    }
    const Found found = look_up(r_, where_, name->text);
    if (found.state == Found::State::Absent)
        report_unknown_name(r_, where_, name->text, expr->span);
    if (found.state != Found::State::Line)
        return missing(span);
    if (!found.each_block) {
        if (!of_single_block(found)) {
            report_not_of_blocks(r_, builtin.name, name->text, expr->span, found.line);
            return missing(span);
        }
        return call_node(builtin.op, 0, {line_node(r_, found.line, expr->span)}, span,
                         call.function.span);
    }
    std::vector<NodeId> args;
    Where at = where_;
    for (std::uint32_t b = 0; b < r_.block_count; ++b) {
        at.block = b;
        args.push_back(line_node(r_, look_up(r_, at, name->text).line, expr->span));
        if (r_.full)
            break;
    }
    return call_node(builtin.op, 0, args, span, call.function.span);
}

// A line of an each-block part, where there is one block only: in a job without blocks, or in a
// model used for one block.
bool FormulaBuilder::of_single_block(const Found& found) const {
    if (found.symbol != nullptr)
        return found.symbol->each_block();
    const std::uint32_t part = r_.sheet.lines[found.line].part;
    return part != none && r_.sheet.parts[part].each_block;
}

} // namespace acre::lang::resolving
