#include "engine/plan/plan_roots.h"

#include <algorithm>

namespace acre::engine {

using lang::none;

Slot slot_of(const Compiled& compiled, lang::LineId line) {
    const Slot slot = compiled.plan.line_slot[line];
    if (slot != no_slot)
        return slot;
    const auto& unset = compiled.origins.unset;
    const auto found =
        std::find_if(unset.begin(), unset.end(), [&](const auto& u) { return u.line == line; });
    return found == unset.end() ? no_slot : found->slot;
}

std::vector<lang::LineId> root_lines(const lang::Sheet& sheet,
                                     std::span<const lang::LineId> roots) {
    std::vector<lang::LineId> lines(roots.begin(), roots.end());
    if (!roots.empty())
        return lines;
    if (sheet.prices.empty()) {
        for (lang::LineId line = 0; line < sheet.lines.size(); ++line)
            lines.push_back(line);
        return lines;
    }
    for (const lang::Cost& cost : sheet.costs)
        lines.push_back(cost.amount);
    for (const lang::PriceItem& item : sheet.prices) {
        lines.insert(lines.end(), {item.cost, item.quantity, item.amount, item.rate});
        for (const lang::PriceStep& step : item.steps)
            lines.push_back(step.line);
    }
    // Not the shares of the price: of a price of nothing there are none, and that stops no price.
    lines.insert(lines.end(), {sheet.cost_total, sheet.price_total, sheet.price_per_unit,
                               sheet.overhead_total, sheet.contribution_total, sheet.profit_total});
    lines.erase(std::remove(lines.begin(), lines.end(), none), lines.end());
    return lines;
}

std::vector<Slot> root_slots(const lang::Sheet& sheet, const Compiled& compiled,
                             std::span<const lang::LineId> roots) {
    std::vector<Slot> slots;
    for (const lang::LineId line : root_lines(sheet, roots))
        if (const Slot slot = slot_of(compiled, line); slot != no_slot)
            slots.push_back(slot);
    const std::vector<Slot>& requires_ = compiled.plan.require_slot;
    if (roots.empty()) {
        slots.insert(slots.end(), requires_.begin(), requires_.end());
        for (const Slot costs : compiled.plan.require_costs)
            if (costs != no_slot)
                slots.push_back(costs);
    }
    return slots;
}

} // namespace acre::engine
