// What stops an answer, in words: values outside their range, requirements not met, prices that
// cannot be, and then whatever poison is left.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/faults/below_zero.h"
#include "engine/faults/fault_origin.h"
#include "engine/faults/faults.h"
#include "engine/faults/line_uses.h"
#include "engine/faults/price_steps.h"
#include "engine/faults/unset_givens.h"
#include "engine/job/priced_job.h"
#include "engine/plan/not_negative.h"
#include "engine/plan/plan_roots.h"
#include "engine/readers/value.h"
#include "engine/words/words.h"
#include "lang/units/ratio.h"

namespace acre::engine {

using lang::none;

namespace {

// A bound given in another unit arrives with the dust of its conversion.
bool below(double value, double bound) {
    return value < bound - 1e-12 * std::fmax(std::fabs(value), std::fabs(bound));
}

// Nothing of it and nothing to pay: such an item of a price is $0 and needs no rate, unless that is
// what was asked for, or it is all that the price is per unit of.
bool is_nothing(const PricedJob& job, const lang::PriceItem& item,
                std::span<const lang::LineId> roots) {
    const lang::Sheet& sheet = job.sheet();
    const auto asked_for = [&](lang::LineId line) {
        return std::find(roots.begin(), roots.end(), line) != roots.end();
    };
    const auto with_rate = std::count_if(sheet.prices.begin(), sheet.prices.end(),
                                         [](const auto& other) { return other.rate != none; });
    return with_rate > 1 && job.value(item.quantity) == 0 && job.value(item.amount) == 0 &&
           !asked_for(item.rate) && !asked_for(sheet.price_per_unit);
}

// Without the rates of what there is nothing of: these have no answer and stop none.
void leave_out_rates_of_nothing(const PricedJob& job, std::span<const lang::LineId> roots,
                                std::vector<lang::LineId>& lines) {
    bool first = true;
    for (const lang::PriceItem& item : job.sheet().prices) {
        if (item.rate == none)
            continue;
        if (is_nothing(job, item, roots)) {
            std::erase(lines, item.rate);
            if (first) // the price all in is per unit of it
                std::erase(lines, job.sheet().price_per_unit);
        }
        first = false;
    }
}

struct Report {
    const PricedJob& job;
    lang::Diagnostics& diagnostics;
    const FaultTrail& trail;
    const std::vector<char>& asked; // by line
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();

    double value(Slot slot) const { return slot == no_slot ? NAN : values.slot[slot]; }
    double value_of_line(lang::LineId line) const { return value(slot_of(compiled, line)); }
    bool is_asked(lang::LineId line) const { return asked[line] != 0; }
    // Nothing for what will only be counted: thousands of faults must not each look for their
    // reason.
    void add_notes(lang::Diagnostic& diagnostic, std::span<const Slot> from) const {
        const bool error = diagnostic.severity() == lang::Severity::Error;
        if ((error ? diagnostics.error_count() : diagnostics.warning_count()) >
            lang::Diagnostics::cap)
            return;
        const std::vector<std::string> notes = trail.notes(from);
        diagnostic.notes.insert(diagnostic.notes.end(), notes.begin(), notes.end());
    }

    // Outside `within` is an error, outside `swing` or `choose` a warning.
    void range(const lang::Given& given, Slot low_slot, Slot high_slot, lang::Code code,
               lang::Span range_span, const char* range_name) const {
        const double low = value(low_slot);
        const double high = value(high_slot);
        const double is = value_of_line(given.line);
        if (code == lang::Code::I602 && below(high, low))
            return empty(given, low, high);
        if (!below(is, low) && !below(high, is))
            return;
        const lang::Line& line = sheet.lines[given.line];
        const std::string bounds = fmt::format("{} .. {}", value_text(sheet, given.line, low),
                                               value_text(sheet, given.line, high));
        lang::Diagnostic diagnostic{code, {}, {}, {}, {}, {}};
        diagnostic.title = fmt::format("`{}` is {}, outside its {} {}", line.name,
                                       value_text(sheet, given.line, is), range_name, bounds);
        const lang::Setting* setting = given.settings.empty() ? nullptr : &given.settings.back();
        const lang::Span value_span =
            line.value == none ? line.name_span : sheet.nodes[line.value].span;
        diagnostic.primary = {value_span,
                              setting == nullptr ? "" : FaultTrail::set_by(setting->layer)};
        if (range_span.begin < range_span.end)
            diagnostic.others.push_back({range_span, range_name});
        if (setting != nullptr && !setting->because.empty())
            diagnostic.notes.push_back(fmt::format("because \"{}\"", setting->because));
        // Bounds that are formulas moved with something.
        const bool moves = compiled.plan.operations[low_slot].code != OpCode::Constant ||
                           compiled.plan.operations[high_slot].code != OpCode::Constant;
        if (moves)
            add_notes(diagnostic, std::vector<Slot>{low_slot, high_slot});
        if (compiled.plan.operations[slot_of(compiled, given.line)].code != OpCode::Input)
            add_notes(diagnostic, std::vector<Slot>{slot_of(compiled, given.line)});
        diagnostics.add(std::move(diagnostic));
    }
    // Bounds that are formulas; of constants the check tells.
    void empty(const lang::Given& given, double low, double high) const {
        const lang::Line& line = sheet.lines[given.line];
        lang::Diagnostic diagnostic{lang::Code::I611,
                                    fmt::format("the allowed range of `{}` is empty: {} .. {}",
                                                line.name, value_text(sheet, given.line, low),
                                                value_text(sheet, given.line, high)),
                                    {given.within_span, "no value is in it"},
                                    {},
                                    {},
                                    {{"write the lower bound first", {}}}};
        const Slot slot = slot_of(compiled, given.line);
        const auto index = static_cast<std::size_t>(&given - sheet.givens.data());
        add_notes(diagnostic, std::vector<Slot>{compiled.plan.within_low[index],
                                                compiled.plan.within_high[index], slot});
        diagnostics.add(std::move(diagnostic));
    }
    // A range of what the job computes: nothing can be drawn in its place, or walked.
    void not_drawn(const lang::Given& given, Slot low, Slot high) const {
        const lang::Line& line = sheet.lines[given.line];
        const Slot slot = slot_of(compiled, given.line);
        if (line.value == none || slot == no_slot ||
            compiled.plan.operations[slot].code == OpCode::Input)
            return;
        if (given.chosen)
            return not_walked(given, low, high);
        lang::Diagnostic diagnostic{lang::Code::L808, {}, {}, {}, {}, {}};
        diagnostic.title = fmt::format("`{}` is computed, so risk cannot draw it from {} .. {}",
                                       line.name, value_text(sheet, given.line, value(low)),
                                       value_text(sheet, given.line, value(high)));
        diagnostic.primary = {given.swing_span, "not used"};
        const double is = value(slot);
        const double shares[] = {100 * value(low) / is, 100 * value(high) / is};
        const bool encloses = shares[0] <= 100 && shares[1] >= 100;
        const std::string mend = fmt::format("{:.0f} % .. {:.0f} % of it",
                                             encloses ? shares[0] : 80, encloses ? shares[1] : 120);
        diagnostic.helps.push_back(
            {fmt::format("write  swing {}", mend), lang::Edit{given.swing_span, mend}});
        diagnostics.add(std::move(diagnostic));
    }
    // A model that binds the given walks what it binds it to.
    void not_walked(const lang::Given& given, Slot low, Slot high) const {
        if (given.settings.empty() || given.settings.back().layer == lang::Layer::Binding)
            return;
        lang::Diagnostic diagnostic{lang::Code::L811, {}, {}, {}, {}, {}};
        diagnostic.title = fmt::format(
            "`{}` is computed, so nothing walks it from {} to {}", sheet.lines[given.line].name,
            value_text(sheet, given.line, value(low)), value_text(sheet, given.line, value(high)));
        diagnostic.primary = {given.swing_span, "not used"};
        diagnostic.helps.push_back(
            {"give the range to what it is computed from, or write  swing 80 % .. 120 % of it  if "
             "nobody knows it",
             {}});
        diagnostics.add(std::move(diagnostic));
    }
    // `all`: also those on which no figure rests. A quote's page may show them, and an option may
    // come to rest on them.
    void ranges(bool all) const {
        for (std::size_t i = 0; i < sheet.givens.size(); ++i) {
            const lang::Given& given = sheet.givens[i];
            const Plan& plan = compiled.plan;
            if (!all && !is_asked(given.line))
                continue;
            if (plan.within_low[i] != no_slot && plan.within_high[i] != no_slot)
                range(given, plan.within_low[i], plan.within_high[i], lang::Code::I602,
                      given.within_span, "allowed range");
            if (given.of_it || plan.swing_low[i] == no_slot || plan.swing_high[i] == no_slot)
                continue;
            not_drawn(given, plan.swing_low[i], plan.swing_high[i]);
            range(given, plan.swing_low[i], plan.swing_high[i], lang::Code::L802, given.swing_span,
                  given.swing_name());
        }
    }

    bool concerns_asked(lang::NodeId condition) const {
        const Uses uses = uses_of(job, condition);
        return std::any_of(uses.lines.begin(), uses.lines.end(),
                           [&](lang::LineId line) { return is_asked(line); });
    }
    void requirements(bool all) const {
        for (std::size_t i = 0; i < sheet.requires_.size(); ++i) {
            const lang::Condition& require = sheet.requires_[i];
            if (require.condition == none || value(compiled.plan.require_slot[i]) != 0)
                continue;
            if (!all && !concerns_asked(require.condition))
                continue;
            lang::Diagnostic diagnostic{lang::Code::E504, {}, {}, {}, {}, {}};
            const std::string where =
                require.entry == none ? "" : fmt::format(" on {}", entry_name(require.entry));
            diagnostic.title = fmt::format("requirement not met{}: {}", where, require.message);
            diagnostic.primary = {sheet.nodes[require.condition].span, ""};
            std::vector<Slot> from;
            for (const lang::LineId line : uses_of(job, require.condition).lines)
                from.push_back(slot_of(compiled, line));
            add_notes(diagnostic, from);
            diagnostics.add(std::move(diagnostic));
        }
    }
    // What a refusal costs is never a gain.
    void refusals_below_zero() const {
        for (std::size_t i = 0; i < sheet.requires_.size(); ++i) {
            const lang::Condition& require = sheet.requires_[i];
            const Slot slot = compiled.plan.require_costs[i];
            if (slot == no_slot || !(values.slot[slot] < -sign_dust))
                continue;
            lang::Diagnostic diagnostic{lang::Code::E509, {}, {}, {}, {}, {}};
            diagnostic.title = fmt::format("a refusal costs {}, below zero",
                                           value_of_node(sheet, require.costs, values.slot[slot]));
            diagnostic.primary = {sheet.nodes[require.costs].span, "is no cost"};
            add_notes(diagnostic, std::vector<Slot>{slot});
            diagnostic.helps.push_back({"turn its sign; what comes in is no cost of a refusal: "
                                        "perhaps  costs max(…, $0)",
                                        {}});
            diagnostics.add(std::move(diagnostic));
        }
    }
    std::string entry_name(std::uint32_t entry) const {
        const lang::Entry& b = sheet.entries[entry];
        return b.label.empty() ? b.name : b.label;
    }

    // A margin of the whole price, and a price per unit of nothing. True if there was one: what
    // follows from it is not told again.
    bool prices(std::span<const lang::LineId> roots) const {
        bool found = false;
        for (const lang::PriceItem& item : sheet.prices) {
            if (item.amount == none || !is_asked(item.amount))
                continue;
            for (const lang::PriceStep& step : item.steps) {
                found = margin(step) || found;
                least_below_zero(step);
            }
            if (item.quantity == none || value_of_line(item.quantity) != 0 ||
                is_nothing(job, item, roots))
                continue;
            lang::Diagnostic diagnostic{lang::Code::E508, {}, {}, {}, {}, {}};
            diagnostic.title =
                fmt::format("the quantity of \"{}\" is {}, so there is no price per {}", item.title,
                            value_text(sheet, item.quantity, 0), item.per_text);
            diagnostic.primary = {sheet.nodes[sheet.lines[item.quantity].value].span,
                                  value_text(sheet, item.quantity, 0)};
            add_notes(diagnostic, std::vector<Slot>{slot_of(compiled, item.quantity)});
            diagnostics.add(std::move(diagnostic));
            found = true;
        }
        return found;
    }
    bool margin(const lang::PriceStep& step) const {
        if (step.kind != lang::ast::StepKind::Margin || step.value == none)
            return false;
        const Slot slot = compiled.origins.slot_of_node[step.value];
        const double share = value(slot) * lang::to_double(sheet.nodes[step.value].type.unit.scale);
        if (!(share >= 1))
            return false;
        lang::Diagnostic diagnostic{lang::Code::E507, {}, {}, {}, {}, {}};
        diagnostic.title = fmt::format("a margin of {} leaves nothing for the cost",
                                       value_of_node(sheet, step.value, value(slot)));
        diagnostic.primary = {step.span, "a share of the price"};
        add_notes(diagnostic, std::vector<Slot>{slot});
        diagnostics.add(std::move(diagnostic));
        return true;
    }
    // A floor below zero lifts nothing.
    void least_below_zero(const lang::PriceStep& step) const {
        if (step.kind != lang::ast::StepKind::AtLeast || step.value == none ||
            !lang::rules_of(sheet.notation).lines_are_not_negative)
            return;
        const Slot slot = compiled.origins.slot_of_node[step.value];
        if (!(value(slot) < 0))
            return;
        lang::Diagnostic diagnostic{lang::Code::E509, {}, {}, {}, {}, {}};
        diagnostic.title = fmt::format("`at least` is {}, below zero",
                                       value_of_node(sheet, step.value, value(slot)));
        diagnostic.primary = {step.span, "lifts no price"};
        add_notes(diagnostic, std::vector<Slot>{slot});
        diagnostic.helps.push_back({"turn its sign, or leave the step out", {}});
        diagnostics.add(std::move(diagnostic));
    }
};

} // namespace

void report_faults(const PricedJob& job, std::span<const lang::LineId> roots,
                   lang::Diagnostics& diagnostics) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    std::vector<lang::LineId> lines = root_lines(sheet, roots);
    leave_out_rates_of_nothing(job, roots, lines);
    std::vector<lang::NodeId> conditions;
    for (const lang::Condition& require : sheet.requires_)
        if (roots.empty() && require.condition != none)
            conditions.push_back(require.condition);
    const std::vector<char> asked = asked_lines(job, lines, conditions);
    std::vector<Slot> slots = root_slots(sheet, compiled, lines);
    if (roots.empty())
        slots.insert(slots.end(), compiled.plan.require_slot.begin(),
                     compiled.plan.require_slot.end());
    // The bounds of what is asked for must have answers too.
    for (std::size_t i = 0; i < sheet.givens.size(); ++i) {
        if (asked[sheet.givens[i].line] == 0)
            continue;
        for (const Slot bound : {compiled.plan.within_low[i], compiled.plan.within_high[i]})
            if (bound != no_slot)
                slots.push_back(bound);
    }
    const std::vector<char> asked_slots = asked_for(compiled.plan, values, slots);

    const FaultTrail trail(job, asked);
    const Report report{job, diagnostics, trail, asked};
    report.ranges(roots.empty());
    report.requirements(roots.empty());
    if (roots.empty())
        report.refusals_below_zero();
    const bool no_price = report.prices(roots);
    report_price_steps(job, asked, diagnostics);
    report_below_zero(job, trail, roots.empty() ? std::span<const char>() : std::span(asked),
                      no_price, diagnostics);
    report_unset_givens(job, asked_slots, diagnostics);
    report_origins(job, trail, {asked, asked_slots}, no_price, diagnostics);
}

} // namespace acre::engine
