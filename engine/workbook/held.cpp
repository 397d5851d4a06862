#include "engine/workbook/held.h"

#include <algorithm>
#include <string_view>

#include "engine/plan/operands.h"
#include "engine/plan/plan_roots.h"

namespace acre::engine {

using lang::none;

namespace {

// What engine/job/job_fields.h reads to lay a boundary out.
constexpr std::string_view layout_lines[] = {
    "layout_spacing", "layout_passes",      "layout_headland",      "layout_row_ends",
    "layout_offset",  "layout_turn_circle", "layout_cross_spacing", "layout_row_spacing",
};
constexpr std::string_view heading_lines[] = {"speed", "turn"}; // where no heading is named

void add_slot(const PricedJob& job, const std::string& name, std::vector<Slot>& slots) {
    const lang::LineId line = job.sheet().find(name);
    const Slot slot = line == none ? no_slot : slot_of(job.compiled(), line);
    if (slot != no_slot && job.plan().operations[slot].code != OpCode::Constant)
        slots.push_back(slot);
}

std::string called(const PricedJob& job, Slot slot) {
    const Origins& origins = job.compiled().origins;
    const lang::NodeId node = origins.node[slot];
    std::string what = "a native function";
    if (node != none && job.sheet().nodes[node].op == lang::Op::Define)
        what = job.sheet().functions[job.sheet().nodes[node].index].name;
    const lang::LineId line = origins.line[slot];
    return line == none ? what : what + ", for " + job.sheet().lines[line].name;
}

} // namespace

std::vector<Slot> layout_of(const PricedJob& job, const lang::Given& given) {
    if (given.settings.empty() || given.settings.back().layer != lang::Layer::Field)
        return {};
    const lang::Sheet& sheet = job.sheet();
    const lang::Line& line = sheet.lines[given.line];
    const lang::Entry* entry = line.entry == none ? nullptr : &sheet.entries[line.entry];
    const std::string prefix = entry == nullptr ? "" : entry->name + ".";
    const lang::NodeId heading = entry == nullptr ? sheet.job.field_heading : entry->field_heading;
    std::vector<Slot> slots;
    for (const std::string_view name : layout_lines)
        add_slot(job, prefix + std::string(name), slots);
    for (const std::string_view name : heading_lines)
        if (heading == none)
            add_slot(job, prefix + std::string(name), slots);
    std::sort(slots.begin(), slots.end());
    slots.erase(std::unique(slots.begin(), slots.end()), slots.end());
    return slots;
}

std::vector<HeldValue> held_values(const PricedJob& job) {
    const Plan& plan = job.plan();
    std::vector<HeldValue> held;
    for (const Input& input : plan.inputs) {
        const lang::Line& line = job.sheet().lines[input.line];
        if (input.is_share || line.given == none)
            continue;
        std::vector<Slot> rests_on = layout_of(job, job.sheet().givens[line.given]);
        if (!rests_on.empty())
            held.push_back({input.slot, input.line, line.name + ", from the boundary",
                            std::move(rests_on), 0});
    }
    for (Slot slot = 0; slot < plan.size(); ++slot) {
        if (plan.operations[slot].code != OpCode::Native)
            continue;
        HeldValue value{slot, none, called(job, slot), {}, 0};
        for_each_operand(plan, plan.operations[slot], [&](Slot operand) {
            if (plan.operations[operand].code != OpCode::Constant)
                value.rests_on.push_back(operand);
        });
        std::sort(value.rests_on.begin(), value.rests_on.end());
        value.rests_on.erase(std::unique(value.rests_on.begin(), value.rests_on.end()),
                             value.rests_on.end());
        held.push_back(std::move(value));
    }
    return held;
}

std::vector<Slot> held_slots(const PricedJob& job) {
    std::vector<Slot> slots;
    for (const HeldValue& value : held_values(job))
        slots.push_back(value.slot);
    return slots;
}

} // namespace acre::engine
