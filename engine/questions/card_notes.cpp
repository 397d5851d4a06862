#include "engine/questions/card_notes.h"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "engine/plan/effort.h"
#include "engine/questions/what_if/axis.h"
#include "engine/readers/value.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

using lang::none;

// Where it is about one entry, its name before it.
std::string of_entry(const lang::Sheet& sheet, std::uint32_t entry, const std::string& text) {
    if (entry == none)
        return text;
    const lang::Entry& of = sheet.entries[entry];
    return fmt::format("{}: {}", of.label.empty() ? of.name : of.label, text);
}

std::string why_not(const PricedJob& job, const Values& values) {
    const lang::Sheet& sheet = job.sheet();
    const Plan& plan = job.plan();
    for (std::size_t i = 0; i < sheet.requires_.size(); ++i)
        if (values.slot[plan.require_slot[i]] == 0)
            return of_entry(sheet, sheet.requires_[i].entry, sheet.requires_[i].message);
    for (std::size_t i = 0; i < sheet.givens.size(); ++i) {
        const lang::LineId line = sheet.givens[i].line;
        const Slot slot = plan.line_slot[line], low = plan.within_low[i],
                   high = plan.within_high[i];
        if (slot == no_slot || low == no_slot || high == no_slot)
            continue;
        if (values.slot[slot] < values.slot[low] || values.slot[slot] > values.slot[high])
            return fmt::format("`{}` would be {}, outside its allowed range",
                               sheet.lines[line].name, value_text(sheet, line, values.slot[slot]));
    }
    return "a figure that the rate rests on has no answer";
}

std::vector<std::size_t> cautions_shown(const PricedJob& job, const Values& values) {
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; i < job.sheet().cautions.size(); ++i)
        if (values.slot[job.plan().caution_slot[i]] != 0)
            shown.push_back(i);
    return shown;
}

class Noter {
  public:
    Noter(const PricedJob& job, std::vector<Axis> axes) : job_(job), axes_(std::move(axes)) {
        for (const Input& input : job.plan().inputs)
            inputs_.push_back(input.value);
    }

    CardNotes notes(std::span<const CardCell> cells) {
        std::vector<std::vector<std::size_t>> cautions;
        std::vector<std::string> reasons;
        for (const CardCell& cell : cells) {
            for (std::size_t k = 0; k < axes_.size(); ++k)
                inputs_[axes_[k].input] = cell.at[k];
            const Values values = evaluate(job_.plan(), inputs_);
            reasons.push_back(cell.has_rate ? "" : why_not(job_, values));
            cautions.push_back(cell.has_rate ? cautions_shown(job_, values)
                                             : std::vector<std::size_t>());
        }
        const std::set<std::size_t> general = in_all(cells, cautions);
        CardNotes notes;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            std::vector<std::size_t>& at = notes.by_cell.emplace_back();
            if (!reasons[i].empty())
                at.push_back(numbered(notes, reasons[i]));
            for (const std::size_t caution : cautions[i])
                if (const lang::Condition& c = job_.sheet().cautions[caution];
                    !general.contains(caution))
                    at.push_back(numbered(notes, of_entry(job_.sheet(), c.entry, c.message)));
        }
        return notes;
    }

  private:
    static std::set<std::size_t> in_all(std::span<const CardCell> cells,
                                        const std::vector<std::vector<std::size_t>>& cautions) {
        std::set<std::size_t> all;
        bool first = true;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (!cells[i].has_rate)
                continue;
            const std::set<std::size_t> here(cautions[i].begin(), cautions[i].end());
            if (std::exchange(first, false))
                all = here;
            std::erase_if(all, [&](std::size_t caution) { return !here.contains(caution); });
        }
        return all;
    }

    static std::size_t numbered(CardNotes& notes, const std::string& text) {
        const auto there = std::find(notes.text.begin(), notes.text.end(), text);
        if (there == notes.text.end())
            notes.text.push_back(text);
        return static_cast<std::size_t>(std::find(notes.text.begin(), notes.text.end(), text) -
                                        notes.text.begin());
    }

    const PricedJob& job_;
    std::vector<Axis> axes_;
    std::vector<double> inputs_;
};

} // namespace

lang::Outcome<CardNotes> card_notes(const PricedJob& job, std::span<const std::string> givens,
                                    std::span<const CardCell> cells) {
    std::vector<Axis> axes;
    for (const std::string& given : givens) {
        lang::Outcome<Axis> axis = find_axis(job, given);
        if (!axis)
            return std::move(axis.said);
        axes.push_back(*axis);
    }
    if (cells.size() > most_noted_cells || cells.size() * job.plan().size() > max_effort / 8)
        return CardNotes{{}, std::vector<std::vector<std::size_t>>(cells.size())};
    return Noter(job, std::move(axes)).notes(cells);
}

} // namespace acre::engine
