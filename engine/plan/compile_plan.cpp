#include "engine/plan/compile_plan.h"

#include <fmt/format.h>

#include "engine/plan/node_compiler.h"
#include "engine/plan/not_negative.h"
#include "engine/plan/plan_builder.h"
#include "engine/plan/plan_roots.h"
#include "lang/units/number_text.h"

namespace acre::engine {

using lang::NodeId;
using lang::none;
using lang::Op;

namespace {

// True when a formula rests on no line and calls nothing, so that its value is the given's own.
bool stands_alone(const lang::Sheet& sheet, NodeId formula) {
    std::vector<NodeId> open{formula};
    while (!open.empty()) {
        const lang::Node& node = sheet.nodes[open.back()];
        open.pop_back();
        switch (node.op) {
        case Op::Line:
        case Op::Define:
        case Op::Table:
        case Op::Sum:
        case Op::Most:
        case Op::Least:
        case Op::Missing:
            return false;
        default:
            break;
        }
        lang::for_each_child(sheet, node, [&](lang::NodeId child) { open.push_back(child); });
    }
    return true;
}

// Givens whose formula stands alone become inputs, first of all, in order. Those that are computed
// and swing by shares of it get an input that multiplies them: at 1, which keeps every bit.
void add_inputs(const lang::Sheet& sheet, PlanBuilder& builder, NodeCompiler& compiler,
                Origins& origins, std::vector<Slot>& line_slots) {
    PlanBuilder scratch(max_plan_operations);
    Origins scratch_origins;
    scratch_origins.slot_of_node.assign(sheet.nodes.size(), no_slot);
    std::vector<Slot> no_lines;
    NodeCompiler folder(sheet, scratch, scratch_origins, no_lines);
    std::vector<lang::LineId> shares;
    for (const lang::Given& given : sheet.givens) {
        const lang::Line& line = sheet.lines[given.line];
        if (line.value == none)
            continue;
        if (!stands_alone(sheet, line.value)) {
            if (given.of_it && given.swing_low != none)
                shares.push_back(given.line);
            continue;
        }
        const Slot folded = folder.node(line.value);
        if (folder.stopped())
            return;
        if (!scratch.is_constant(folded))
            continue; // no answer: kept as operations, so that a fault finds its origin
        const Slot slot = builder.input(scratch.value(folded), given.line,
                                        line.type.kind == lang::Type::Kind::Choice);
        compiler.note(line.value, given.line);
        line_slots[given.line] = slot;
        origins.slot_of_node[line.value] = slot;
    }
    for (const lang::LineId line : shares) {
        compiler.multiply(line, builder.input(1, line, false));
        builder.plan().inputs.back().is_share = true;
        compiler.note(sheet.lines[line].value, line);
    }
}

void add_tables(const lang::Sheet& sheet, Plan& plan) {
    for (const lang::Table& table : sheet.tables)
        plan.tables.push_back(
            {table.x, table.y, table.staircase, table.hold_below, table.hold_above});
}

// Shares of it, in percent: of an input they become values, of what is computed a factor.
Slot swing_bound(const lang::Given& given, Slot percent, const std::vector<Slot>& line_slots,
                 PlanBuilder& builder) {
    if (!given.of_it || percent == no_slot || line_slots[given.line] == no_slot)
        return percent;
    const Slot line = line_slots[given.line];
    const Slot share = builder.emit(OpCode::Divide, percent, builder.constant(100));
    return builder.plan().operations[line].code == OpCode::Input
               ? builder.emit(OpCode::Multiply, line, share)
               : share;
}

void add_conditions(const lang::Sheet& sheet, PlanBuilder& builder, NodeCompiler& compiler,
                    const std::vector<Slot>& line_slots) {
    const auto slot_of = [&](NodeId node) { return node == none ? no_slot : compiler.node(node); };
    Plan& plan = builder.plan();
    for (const lang::Condition& require : sheet.requires_) {
        plan.require_slot.push_back(require.condition == none ? builder.constant(1)
                                                              : compiler.node(require.condition));
        plan.require_costs.push_back(slot_of(require.costs));
    }
    for (const lang::Condition& caution : sheet.cautions)
        plan.caution_slot.push_back(caution.condition == none ? builder.constant(1)
                                                              : compiler.node(caution.condition));
    for (const lang::Correlation& correlation : sheet.correlations)
        plan.correlation_slot.push_back(slot_of(correlation.strength));
    for (const lang::Fleet& fleet : sheet.fleets) {
        plan.fleet_costs.push_back(slot_of(fleet.costs));
        plan.fleet_over.push_back(slot_of(fleet.over));
    }
    for (const lang::Given& given : sheet.givens) {
        plan.given_slot.push_back(line_slots[given.line]);
        plan.within_low.push_back(slot_of(given.within_low));
        plan.within_high.push_back(slot_of(given.within_high));
        plan.swing_low.push_back(swing_bound(given, slot_of(given.swing_low), line_slots, builder));
        plan.swing_high.push_back(
            swing_bound(given, slot_of(given.swing_high), line_slots, builder));
    }
    for (const lang::PriceItem& item : sheet.prices) {
        for (const lang::PriceStep& step : item.steps)
            if (step.value != none)
                compiler.node(step.value);
    }
    compiler.note(none, none);
}

void report_size(const lang::Sheet& sheet, lang::LineId line, lang::Diagnostics& diagnostics) {
    lang::Diagnostic diagnostic{lang::Code::G403, {}, {}, {}, {}, {}};
    diagnostic.title =
        fmt::format("the calculation grows past {:L} operations", max_plan_operations);
    if (line != none) {
        diagnostic.title =
            fmt::format("the calculation grows past {} operations in `{}`",
                        lang::number_text(max_plan_operations), sheet.lines[line].name);
        diagnostic.primary = {sheet.lines[line].name_span, ""};
    }
    diagnostic.notes.push_back(
        "a function is copied wherever it is called, so calls inside calls multiply");
    diagnostic.helps.push_back({"inside the define, give a repeated call a line of its own", {}});
    diagnostics.add(std::move(diagnostic));
}

void report_natives(const lang::Sheet& sheet, const NodeCompiler& compiler,
                    lang::Diagnostics& diagnostics) {
    for (const std::uint32_t index : compiler.unknown_natives()) {
        const lang::Function& function = sheet.functions[index];
        lang::Diagnostic diagnostic{lang::Code::N212, {}, {}, {}, {}, {}};
        const std::size_t count =
            function.parameters.size() - function.columns.size() * function.rows;
        diagnostic.title = fmt::format("the program has no function `{}` that takes {} value{}",
                                       function.name, count, count == 1 ? "" : "s");
        if (!function.list.empty())
            diagnostic.title +=
                fmt::format(" and {} rows of {}", function.rows, function.columns.size());
        diagnostic.primary = {function.name_span, "declared native here"};
        diagnostic.helps.push_back({"write its formula here, after `=` in place of `native`", {}});
        diagnostics.add(std::move(diagnostic));
    }
}

} // namespace

std::optional<Compiled> compile_plan(const lang::CheckedSheet& checked,
                                     lang::Diagnostics& diagnostics) {
    const lang::Sheet& sheet = *checked;
    Compiled compiled;
    PlanBuilder builder(max_plan_operations);
    std::vector<Slot> line_slots(sheet.lines.size(), no_slot);
    compiled.origins.slot_of_node.assign(sheet.nodes.size(), no_slot);
    add_tables(sheet, builder.plan());
    NodeCompiler compiler(sheet, builder, compiled.origins, line_slots);

    add_inputs(sheet, builder, compiler, compiled.origins, line_slots);
    lang::LineId line = 0;
    for (; line < sheet.lines.size() && !compiler.stopped(); ++line)
        compiler.line(line);
    if (!compiler.stopped())
        add_conditions(sheet, builder, compiler, line_slots);
    if (compiler.stopped()) {
        report_size(sheet, line == 0 ? none : line - 1, diagnostics);
        return std::nullopt;
    }
    report_natives(sheet, compiler, diagnostics);
    if (!compiler.unknown_natives().empty())
        return std::nullopt;

    compiled.plan = std::move(builder.plan());
    compiled.plan.line_slot = std::move(line_slots);
    compiled.plan.not_negative = lines_not_negative(sheet);
    for (const Origins::Unset& unset : compiled.origins.unset)
        compiled.plan.line_slot[unset.line] = no_slot;
    return compiled;
}

} // namespace acre::engine
