#include "engine/plan/plan_roots.h"

#include <algorithm>

#include <fmt/format.h>

#include "lang/diag/place.h"

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
    // Not the share of profit: of a price of nothing there is none, and that stops no price.
    lines.insert(lines.end(),
                 {sheet.cost_total, sheet.price_total, sheet.price_per_unit, sheet.profit_total});
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
    if (roots.empty())
        slots.insert(slots.end(), requires_.begin(), requires_.end());
    return slots;
}

void report_unset_givens(const lang::Sheet& sheet, const Compiled& compiled,
                         const lang::SourceMap& sources, std::span<const char> asked,
                         lang::Diagnostics& diagnostics) {
    std::vector<lang::LineId> lines;
    for (const Origins::Unset& unset : compiled.origins.unset)
        if (asked[unset.slot] != 0)
            lines.push_back(unset.line);
    if (lines.empty())
        return;
    std::sort(lines.begin(), lines.end());

    constexpr std::size_t most_shown = 20;
    lang::Diagnostic diagnostic{lang::Code::I603, {}, {}, {}, {}, {}};
    const lang::Line& first = sheet.lines[lines.front()];
    diagnostic.title = lines.size() == 1
                           ? fmt::format("`{}` is required and has no value", first.name)
                           : fmt::format("{} required values are missing", lines.size());
    diagnostic.primary = {first.name_span, "no value"};
    std::string help = lines.size() == 1 ? "set it in the job or the season:"
                                         : "set them in the job or the season:";
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (i == most_shown) {
            diagnostic.notes.push_back(fmt::format("and {} more", lines.size() - most_shown));
            break;
        }
        const lang::Line& line = sheet.lines[lines[i]];
        diagnostic.notes.push_back(fmt::format(
            "`{}`{}{} ({})", line.name, line.unit_text.empty() ? "" : " in " + line.unit_text,
            line.label.empty() ? "" : ", " + line.label,
            lang::spoken_place(sources, line.name_span)));
        if (i < 3)
            help += fmt::format("{} set {} = …", i == 0 ? " " : ",", line.name);
    }
    diagnostic.helps.push_back({std::move(help), {}});
    diagnostics.add(std::move(diagnostic));
}

} // namespace acre::engine
