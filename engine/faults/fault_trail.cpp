#include "engine/faults/fault_trail.h"
#include "engine/job/priced_job.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/plan/operands.h"
#include "engine/plan/plan_roots.h"
#include "engine/words/words.h"
#include "lang/diag/place.h"

namespace acre::engine {

using lang::none;

namespace {

constexpr std::size_t most_notes = 6;
constexpr std::size_t most_looked_at = 5'000;

// Lines of one slot repeat each other: one that is asked for comes first, then a given before a
// line, an author's line before one that a cost or a price made.
int rank(const lang::Line& line, bool asked) {
    return (asked ? 0 : 3) + (line.role == lang::Role::Given ? 0
                              : line.role == lang::Role::Line || line.role == lang::Role::CostRate
                                  ? 1
                                  : 2);
}

} // namespace

FaultTrail::FaultTrail(const PricedJob& job, std::span<const char> asked_lines)
    : sheet_(job.sheet()),
      compiled_(job.compiled()),
      values_(job.values()),
      sources_(job.sources()),
      line_of_slot_(job.plan().size(), none),
      met_by_(job.plan().size(), 0) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
        const Slot slot = compiled.plan.line_slot[id];
        if (slot == no_slot)
            continue;
        lang::LineId& there = line_of_slot_[slot];
        if (there == none || rank(sheet.lines[id], asked_lines[id] != 0) <
                                 rank(sheet.lines[there], asked_lines[there] != 0))
            there = id;
    }
    for (const Origins::Unset& unset : compiled.origins.unset)
        line_of_slot_[unset.slot] = unset.line;
}

std::vector<std::string> FaultTrail::notes(std::span<const Slot> from) const {
    std::vector<lang::LineId> met;
    ++call_;
    std::vector<Slot> queue;
    const auto visit = [&](Slot slot) {
        if (slot == no_slot || met_by_[slot] == call_)
            return;
        met_by_[slot] = call_;
        queue.push_back(slot);
    };
    for (const Slot slot : from)
        visit(slot);
    for (std::size_t next = 0; next < queue.size() && next < most_looked_at; ++next) {
        const Slot slot = queue[next];
        if (line_of_slot_[slot] != none)
            met.push_back(line_of_slot_[slot]);
        const Operation& op = compiled_.plan.operations[slot];
        const std::vector<double>& value = values_.slot;
        if (value[slot] == 0 && op.code == OpCode::Multiply) {
            for (const Slot side : {op.a, op.b})
                if (value[side] == 0)
                    visit(side);
        } else if (value[slot] == 0 && op.code == OpCode::Divide) {
            visit(op.a);
        } else {
            for_each_operand_asked(compiled_.plan, op, value, visit);
        }
    }
    std::vector<std::string> notes;
    for (const lang::LineId line : met) {
        if (notes.size() == most_notes && met.size() > most_notes + 1) {
            notes.push_back(
                fmt::format("and {} more lines and values before these", met.size() - most_notes));
            break;
        }
        notes.push_back(describe(line));
    }
    return notes;
}

std::string FaultTrail::set_by(lang::Layer layer) {
    switch (layer) {
    case lang::Layer::Model:
        return "in the model";
    case lang::Layer::Binding:
        return "set where the model is used";
    case lang::Layer::Field:
        return "from the field's layout";
    case lang::Layer::CommandLine:
        return "set on the command line";
    default:
        return fmt::format("set by the {}", layer_text(layer));
    }
}

std::string FaultTrail::describe(lang::LineId id) const {
    const lang::Line& line = sheet_.lines[id];
    const Slot slot = slot_of(compiled_, id);
    const double value = slot == no_slot ? NAN : values_.slot[slot];
    const bool plain = slot == no_slot || compiled_.plan.operations[slot].code == OpCode::Input;
    std::string text = fmt::format("`{}`", line.name);
    if (!(line.given != none && plain))
        text += fmt::format(" = {}, which", formula_text(sheet_, sources_, id));
    text += fmt::format(" is {}", value_text(sheet_, id, value));
    if (line.given == none)
        return text + fmt::format(" ({})", lang::spoken_place(sources_, line.name_span));
    const lang::Given& given = sheet_.givens[line.given];
    if (given.settings.empty())
        return text;
    const lang::Setting& setting = given.settings.back();
    const bool own = setting.layer == lang::Layer::Model;
    text += fmt::format("{} {}", own ? "" : ",", set_by(setting.layer));
    if (setting.layer != lang::Layer::CommandLine)
        text +=
            fmt::format(" ({})", lang::spoken_place(sources_, own ? line.name_span : setting.span));
    if (!setting.because.empty())
        text += fmt::format(" because \"{}\"", setting.because);
    return text;
}

} // namespace acre::engine
