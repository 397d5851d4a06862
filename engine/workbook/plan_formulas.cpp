#include "engine/workbook/plan_formulas.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/plan/operands.h"
#include "engine/plan/plan_roots.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/slot_kinds.h"
#include "engine/workbook/workbook.h"

namespace acre::engine {

using lang::none;

namespace {

// Beyond these a formula is split: somebody is to read it.
constexpr std::size_t longest = 400; // letters
constexpr int deepest = 12;          // brackets and functions within each other

bool writes_twice(const Plan& plan, const Operation& op) {
    if (op.code == OpCode::Power)
        return plan.operations[op.b].code != OpCode::Constant ||
               std::fabs(plan.constants[plan.operations[op.b].a]) < 1;
    return kind_of(op.code) == OpKind::Whole || op.code == OpCode::Tan || op.code == OpCode::Table;
}

} // namespace

PlanFormulas::PlanFormulas(const PricedJob& job, SheetPlaces places, const std::vector<Slot>& asked)
    : job_(job),
      plan_(job.plan()),
      places_(std::move(places)),
      choice_(choices_of_slots(job)),
      may_fail_(slots_that_may_fail(job.plan())),
      uses_(job.plan().size(), 0),
      owner_(job.plan().size(), none) {
    choose_owners();
    count_uses(asked);
    choose_steps();
    split_long();
    std::sort(steps_.begin(), steps_.end(), [](const Step& a, const Step& b) {
        return std::pair(a.slot, !a.position) < std::pair(b.slot, !b.position);
    });
    for (std::size_t i = 0; i < steps_.size(); ++i)
        step_of_[{steps_[i].slot, steps_[i].position}] = i;
    kept_.clear();
}

bool PlanFormulas::is_share(Slot slot) const {
    const Operation& op = plan_.operations[slot];
    return op.code == OpCode::Input && plan_.inputs[op.a].is_share;
}

// The first line with a formula of its own; a line that only repeats another comes after it.
void PlanFormulas::choose_owners() {
    const lang::Sheet& sheet = job_.sheet();
    for (const bool copies : {false, true}) {
        for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
            const lang::Line& line = sheet.lines[id];
            const Slot slot = slot_of(job_.compiled(), id);
            const bool copy = line.value != none && sheet.nodes[line.value].op == lang::Op::Line;
            const std::uint32_t shows =
                line.type.kind == lang::Type::Kind::Choice ? line.type.choice : none;
            if (slot == no_slot || owner_[slot] != none || copy != copies ||
                (is_constant(slot) && plan_.line_slot[id] != no_slot) || choice_[slot] != shows)
                continue;
            owner_[slot] = id;
        }
    }
}

void PlanFormulas::count_uses(const std::vector<Slot>& asked) {
    for (lang::LineId id = 0; id < job_.sheet().lines.size(); ++id)
        if (const Slot slot = slot_of(job_.compiled(), id); slot != no_slot)
            ++uses_[slot];
    for (const Slot slot : asked)
        uses_[slot] += 2; // a row of its own
    for (Slot slot = static_cast<Slot>(plan_.size()); slot-- > 0;) {
        if (uses_[slot] == 0)
            continue;
        const Operation& op = plan_.operations[slot];
        const std::uint32_t times = op.code == OpCode::Native || writes_twice(plan_, op) ? 2 : 1;
        for_each_operand(plan_, op, [&](Slot operand) { uses_[operand] += times; });
    }
}

void PlanFormulas::choose_steps() {
    for (Slot slot = 0; slot < plan_.size(); ++slot) {
        const Operation& op = plan_.operations[slot];
        if (uses_[slot] == 0 || kind_of(op.code) == OpKind::Source)
            continue;
        if (op.code == OpCode::Table && !plan_.tables[op.a].staircase)
            make_step(slot, true);
        if (op.code == OpCode::Native || (owner_[slot] == none && uses_[slot] > 1))
            make_step(slot);
    }
}

void PlanFormulas::make_step(Slot slot, bool position) {
    if (!step_of_.emplace(std::pair(slot, position), steps_.size()).second)
        return;
    steps_.push_back({slot, position, !position && plan_.operations[slot].code == OpCode::Native});
}

void PlanFormulas::split_long() {
    kept_.resize(plan_.size());
    for (Slot slot = 0; slot < plan_.size(); ++slot) {
        if (uses_[slot] == 0 || kind_of(plan_.operations[slot].code) == OpKind::Source)
            continue;
        if (owner_[slot] != none || step_of_.contains({slot, false}))
            continue;
        Writing writing;
        kept_[slot] = build(slot, writing);
        if (kept_[slot].text.size() > longest || kept_[slot].depth > deepest)
            make_step(slot);
    }
}

std::optional<std::uint32_t> PlanFormulas::row_of(Slot slot) const {
    if (const auto step = step_of_.find({slot, false}); step != step_of_.end())
        return row_of_step(step->second);
    if (owner_[slot] != none)
        return row_of_line(owner_[slot]);
    return std::nullopt;
}

std::string PlanFormulas::elsewhere(Slot slot) const {
    if (const std::optional<std::uint32_t> row = row_of(slot))
        return on_sheet(places_.lines_sheet, fixed_address(*row, places_.value_column));
    return formula_number(is_share(slot) ? 1 : plan_.constants[plan_.operations[slot].a]);
}

// The lines that the author of a formula wrote, so that it is told in these names.
void PlanFormulas::name_lines(lang::NodeId formula, Writing& writing) const {
    if (formula == none)
        return;
    const lang::Sheet& sheet = job_.sheet();
    std::vector<lang::NodeId> open{formula};
    while (!open.empty()) {
        const lang::Node& node = sheet.nodes[open.back()];
        open.pop_back();
        if (node.op == lang::Op::Line) {
            const Slot slot = plan_.line_slot[node.index];
            const lang::Type& type = sheet.lines[node.index].type;
            const std::uint32_t shows = type.kind == lang::Type::Kind::Choice ? type.choice : none;
            if (slot != no_slot && shows == choice_[slot] && !(is_constant(slot) && shows != none))
                writing.named.emplace(slot, node.index);
        }
        lang::for_each_child(sheet, node, [&](lang::NodeId child) { open.push_back(child); });
    }
}

RowFormula PlanFormulas::of_line(lang::LineId id) const {
    const lang::Line& line = job_.sheet().lines[id];
    const Slot slot = slot_of(job_.compiled(), id);
    if (slot == no_slot)
        return {"=NA()", {}};
    const bool own = owner_[slot] == id;
    if (own && kind_of(plan_.operations[slot].code) == OpKind::Source)
        return {};
    for (const bool addresses : {false, true}) {
        Writing writing;
        writing.addresses = addresses;
        const bool repeats =
            !own && line.value != none && job_.sheet().nodes[line.value].op == lang::Op::Line;
        Expression text;
        if (repeats) {
            const lang::LineId other = job_.sheet().nodes[line.value].index;
            text = reference(row_of_line(other), other, writing);
        } else {
            name_lines(line.value, writing);
            writing.named.erase(slot);
            text = of_slot(id, slot, writing);
        }
        if (text.text.size() < most_formula_letters || addresses)
            return {"=" + text.text, std::move(writing.reads)};
    }
    return {};
}

Expression PlanFormulas::of_slot(lang::LineId id, Slot slot, Writing& writing) const {
    const lang::Type& type = job_.sheet().lines[id].type;
    const bool shows_choice = type.kind == lang::Type::Kind::Choice;
    if (owner_[slot] == id && !step_of_.contains({slot, false}))
        return build(slot, writing);
    return as(slot, shows_choice ? type.choice : none, writing);
}

RowFormula PlanFormulas::of_step(std::size_t index) const {
    const Step& step = steps_[index];
    Writing writing;
    if (step.held) {
        for_each_operand(plan_, plan_.operations[step.slot],
                         [&](Slot operand) { raw(operand, writing); });
        return {{}, std::move(writing.reads)};
    }
    const Operation& op = plan_.operations[step.slot];
    for (const bool addresses : {false, true}) {
        writing = {};
        writing.addresses = addresses;
        const Expression text = step.position ? position(op, writing) : build(step.slot, writing);
        if (text.text.size() < most_formula_letters)
            return {"=" + text.text, std::move(writing.reads)};
    }
    return {};
}

Expression PlanFormulas::reference(std::uint32_t row, lang::LineId line, Writing& writing) const {
    if (std::find(writing.reads.begin(), writing.reads.end(), row) == writing.reads.end())
        writing.reads.push_back(row);
    const bool named = line != none && !writing.addresses && line < places_.names.size() &&
                       !places_.names[line].empty();
    return word(named ? places_.names[line] : cell_address(row, places_.value_column));
}

Expression PlanFormulas::raw(Slot slot, Writing& writing) const {
    if (const auto named = writing.named.find(slot); named != writing.named.end())
        return reference(row_of_line(named->second), named->second, writing);
    if (const auto step = step_of_.find({slot, false}); step != step_of_.end())
        return reference(row_of_step(step->second), none, writing);
    if (owner_[slot] != none)
        return reference(row_of_line(owner_[slot]), owner_[slot], writing);
    return kept_.empty() || kind_of(plan_.operations[slot].code) == OpKind::Source
               ? build(slot, writing)
               : kept_[slot];
}

Expression PlanFormulas::number(Slot slot, Writing& writing) const {
    return as(slot, none, writing);
}

// A plan counts the options of a choice from 0; a cell shows their names.
Expression PlanFormulas::as(Slot slot, std::uint32_t choice, Writing& writing) const {
    if (choice == choice_[slot] && !(choice != none && is_constant(slot)))
        return raw(slot, writing);
    if (choice != none && is_constant(slot)) {
        const double value = plan_.constants[plan_.operations[slot].a];
        const std::string option = option_word(job_.sheet().choices[choice], value);
        return word(option.empty() ? "NA()" : formula_text_of(option));
    }
    Expression index = raw(slot, writing);
    if (choice_[slot] != none)
        index = infix(call("MATCH", index, word(places_.lists[choice_[slot]]), word("0")), "-",
                      word("1"), Expression::sum);
    if (choice == none)
        return index;
    return call("INDEX", word(places_.lists[choice]),
                infix(index, "+", word("1"), Expression::sum));
}

} // namespace acre::engine
