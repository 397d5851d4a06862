// What a workbook must show once givens were typed over: worked out by the engine's own reader from
// the plan, and which lines must be stale, walked over the plan once more.
#pragma once

#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "engine/native/native.h"
#include "engine/plan/operands.h"
#include "engine/plan/plan_roots.h"
#include "engine/questions/charged.h"
#include "engine/readers/value.h"
#include "engine/words/money.h"
#include "engine/workbook/workbook.h"

namespace acre::tests {

using GivenValues = std::map<std::string, double>; // what is typed over; a choice by its index

struct Expected {
    engine::Values values;
    std::vector<char> stale; // by slot
};

// The lines that a boundary is laid out by, as engine/job/job_fields.h lists them.
inline std::vector<engine::Slot> laid_out_by(const engine::PricedJob& job, const lang::Line& line) {
    std::vector<engine::Slot> slots;
    const std::string prefix =
        line.entry == lang::none ? "" : job.sheet().entries[line.entry].name + ".";
    const bool headed = line.entry == lang::none
                            ? job.sheet().job.field_heading != lang::none
                            : job.sheet().entries[line.entry].field_heading != lang::none;
    for (const char* name :
         {"layout_spacing", "layout_passes", "layout_headland", "layout_row_ends", "layout_offset",
          "layout_turn_circle", "layout_cross_spacing", "layout_row_spacing", "speed", "turn"}) {
        const std::string_view is = name;
        const lang::LineId id = job.sheet().find(prefix + name);
        if (id != lang::none && !(headed && (is == "speed" || is == "turn")))
            slots.push_back(engine::slot_of(job.compiled(), id));
    }
    return slots;
}

inline Expected expected(const engine::PricedJob& job, const GivenValues& typed) {
    using namespace engine;
    const Plan& plan = job.plan();
    std::vector<double> inputs;
    for (const Input& input : plan.inputs) {
        const auto found = typed.find(job.sheet().lines[input.line].name);
        inputs.push_back(found == typed.end() || input.is_share ? input.value : found->second);
    }
    Expected out{evaluate(plan, inputs), std::vector<char>(plan.size(), 0)};
    const auto moved = [&](Slot slot) {
        const double was = job.values().slot[slot];
        const double is = out.values.slot[slot];
        return std::isnan(was) ? !std::isnan(is) : !(std::fabs(is - was) <= 1e-10 * std::fabs(was));
    };
    // A layout rests on lines that stand behind it in the plan: until nothing changes.
    for (bool again = true; again;) {
        again = false;
        for (Slot slot = 0; slot < plan.size(); ++slot) {
            if (out.stale[slot] != 0)
                continue;
            const Operation& op = plan.operations[slot];
            bool stale = false;
            for_each_operand(plan, op,
                             [&](Slot operand) { stale = stale || out.stale[operand] != 0; });
            if (op.code == OpCode::Native)
                for_each_operand(plan, op, [&](Slot operand) { stale = stale || moved(operand); });
            if (op.code == OpCode::Input && !plan.inputs[op.a].is_share && !moved(slot)) {
                const lang::Line& line = job.sheet().lines[plan.inputs[op.a].line];
                const auto& settings = job.sheet().givens[line.given].settings;
                if (!settings.empty() && settings.back().layer == lang::Layer::Field)
                    for (const Slot from : laid_out_by(job, line))
                        stale = stale || moved(from);
            }
            out.stale[slot] = stale ? 1 : 0;
            again = again || stale;
        }
    }
    return out;
}

inline bool every_charge_answers(const engine::PricedJob& job, const engine::Values& values) {
    bool answered = true;
    for (const lang::PriceItem& item : job.sheet().prices)
        for (const lang::LineId line : {item.amount, item.quantity})
            answered = answered && (line == lang::none ||
                                    std::isfinite(values.slot[slot_of(job.compiled(), line)]));
    return answered;
}

inline double dollars_charged(const engine::PricedJob& job, const engine::Values& values) {
    std::int64_t cents = 0;
    for (const lang::PriceItem& item : job.sheet().prices)
        cents += engine::charged(job.sheet(), job.plan(), values, item, 2).cents;
    return static_cast<double>(cents) / 100;
}

} // namespace acre::tests
