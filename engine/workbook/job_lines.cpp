#include "engine/workbook/job_lines.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/plan/plan_roots.h"
#include "engine/questions/explain.h"
#include "engine/words/words.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/job_checks.h"
#include "engine/workbook/sheet_writer.h"
#include "engine/workbook/slot_kinds.h"
#include "lang/units/clock.h"

namespace acre::engine {

using lang::none;

namespace {

// Conditions, bounds of the givens, steps of the prices, and where functions were tested: what
// other sheets read.
std::vector<Slot> asked_beside_lines(const PricedJob& job) {
    const Plan& plan = job.plan();
    std::vector<Slot> slots;
    for (const lang::PriceItem& item : job.sheet().prices)
        for (const lang::PriceStep& step : item.steps)
            if (step.value != none)
                slots.push_back(job.compiled().origins.slot_of_node[step.value]);
    for (const std::vector<Slot>* list : {&plan.require_slot, &plan.require_costs,
                                          &plan.caution_slot, &plan.within_low, &plan.within_high})
        slots.insert(slots.end(), list->begin(), list->end());
    for (const Plan::TestedRange& range : plan.tested)
        slots.insert(slots.end(), {range.value, range.low, range.high});
    std::erase(slots, no_slot);
    std::erase_if(slots, [&](Slot slot) {
        return plan.operations[slot].code == OpCode::Constant ||
               plan.operations[slot].code == OpCode::Input;
    });
    return slots;
}

std::string joined(const std::vector<std::string>& texts) {
    std::string out;
    for (const std::string& text : texts)
        out += (out.empty() ? "" : "; ") + text;
    return out;
}

} // namespace

JobLines::JobLines(const PricedJob& job, SheetPlaces places, std::vector<std::string> typed)
    : job_(job),
      places_(std::move(places)),
      typed_(std::move(typed)),
      formulas_(job, places_, asked_beside_lines(job)),
      held_(held_values(job)),
      may_be_stale_(slots_resting_on(job.plan(), held_slots(job))) {
    const lang::Sheet& sheet = job_.sheet();
    std::vector<char> wanted(job.plan().size(), 0);
    for (const Slot slot : root_slots(sheet, job.compiled(), {}))
        wanted[slot] = 1;
    asked_ = slots_asked_by(job.plan(), std::move(wanted));
    for (lang::LineId line = 0; line < sheet.lines.size(); ++line)
        slot_of_row_[formulas_.row_of_line(line)] = slot_of(job.compiled(), line);
    for (std::size_t i = 0; i < formulas_.steps().size(); ++i)
        slot_of_row_[formulas_.row_of_step(i)] = formulas_.steps()[i].slot;
    const std::uint32_t below =
        places_.first_step + static_cast<std::uint32_t>(formulas_.steps().size()) + 1;
    checks_ = place_checks(job, below, asked_);
}

std::string JobLines::at(std::uint32_t row, std::uint32_t column) const {
    return on_sheet(places_.lines_sheet, fixed_address(row, column));
}
std::string JobLines::value_of(lang::LineId line) const {
    return at(formulas_.row_of_line(line));
}
std::string JobLines::stale_of(Slot slot) const {
    const std::optional<std::uint32_t> row = formulas_.row_of(slot);
    return may_be_stale_[slot] != 0 && row ? at(*row, LinesColumn::stale) : "";
}

std::string JobLines::typed_formula(lang::LineId id) const {
    const lang::Type& type = job_.sheet().lines[id].type;
    const std::string& cell = typed_[id];
    if (type.kind == lang::Type::Kind::Choice)
        return fmt::format("=IF(SUMPRODUCT(--({}={}))=1,{},NA())", places_.lists[type.choice], cell,
                           cell);
    // A spreadsheet keeps a time of day as a part of a day: so 17:30 can be typed.
    const bool clock = job_.sheet().lines[id].unit_text == lang::clock_unit;
    return fmt::format("=IF(ISNUMBER({0}),{0}{1},NA())", cell, clock ? "*24" : "");
}

void JobLines::value_cell(std::uint32_t row, Slot slot, std::uint32_t choice,
                          const std::string& formula, const std::string& unit,
                          SheetWriter& out) const {
    const double value = slot == no_slot ? std::nan("") : job_.values().slot[slot];
    if (choice != none)
        return out.words(row, LinesColumn::value, formula,
                         option_word(job_.sheet().choices[choice], value), Look::Figure);
    if (formula.empty())
        return out.number(row, LinesColumn::value, value, figure_format(unit, value));
    out.formula(row, LinesColumn::value, formula, value, figure_format(unit, value));
}

void JobLines::line_row(lang::LineId id, SheetWriter& out) const {
    const std::uint32_t row = formulas_.row_of_line(id);
    const lang::Line& line = job_.sheet().lines[id];
    const Slot slot = slot_of(job_.compiled(), id);
    RowFormula formula = formulas_.of_line(id);
    if (formula.text.empty())
        formula.text = typed_[id].empty() ? "=NA()" : typed_formula(id);
    const std::string unit = unit_text(job_.sheet(), line);
    const bool shows_choice = line.type.kind == lang::Type::Kind::Choice;
    value_cell(row, slot, shows_choice ? line.type.choice : none, formula.text, unit, out);
    if (slot != no_slot)
        stale_cell(row, slot, formula.reads, out);
    out.text(row, LinesColumn::unit, unit, Look::Unit);
    line_words(id, out);
}

void JobLines::line_words(lang::LineId id, SheetWriter& out) const {
    const std::uint32_t row = formulas_.row_of_line(id);
    const lang::Line& line = job_.sheet().lines[id];
    const ExplainStep told = explain(job_, id, {0});
    out.text(row, LinesColumn::name, line.name);
    out.text(row, LinesColumn::label, line.label, Look::Wrapped);
    out.text(row, LinesColumn::formula, told.written, Look::Wrapped);
    out.text(row, LinesColumn::set_by, told.set_by);
    out.text(row, LinesColumn::because, told.because, Look::Wrapped);
    out.text(row, LinesColumn::source, joined(told.sources), Look::Small);
    out.text(row, LinesColumn::place, told.place, Look::Small);
    if (line.part != none)
        out.text(row, LinesColumn::part, job_.sheet().parts[line.part].title, Look::Small);
    const Slot slot = slot_of(job_.compiled(), id);
    if (job_.plan().not_negative[id] != 0 && slot != no_slot && asked_[slot] != 0)
        out.text(row, LinesColumn::sign, not_below_zero, Look::Small);
}

void JobLines::stale_cell(std::uint32_t row, Slot slot, const std::vector<std::uint32_t>& reads,
                          SheetWriter& out) const {
    if (may_be_stale_[slot] == 0)
        return;
    std::string values;
    const auto add = [&](const std::string& cell) { values += (values.empty() ? "" : ",") + cell; };
    for (const HeldValue& held : held_)
        if (held.slot == slot && formulas_.row_of(slot) == row)
            add(on_sheet(held_sheet_name, fixed_address(held.row, HeldColumn::changed)));
    for (const std::uint32_t read : reads)
        if (const Slot from = slot_of_row_.at(read); from != no_slot && may_be_stale_[from] != 0)
            add(cell_address(read, LinesColumn::stale));
    if (!values.empty())
        out.formula(row, LinesColumn::stale, "=MAX(" + values + ")", 0, stale_format,
                    Look::Warning);
}

void JobLines::step_row(std::size_t index, SheetWriter& out) const {
    const PlanFormulas::Step& step = formulas_.steps()[index];
    const std::uint32_t row = formulas_.row_of_step(index);
    const RowFormula formula = formulas_.of_step(index);
    const Origins& origins = job_.compiled().origins;
    const lang::LineId line = origins.line[step.slot];
    const std::string where = line == none ? "" : job_.sheet().lines[line].name;
    const lang::NodeId node = origins.outer_node[step.slot];
    out.text(row, LinesColumn::label,
             step.held       ? "held value"
             : step.position ? "row of a table"
                             : "step",
             step.held ? Look::Warning : Look::Plain);
    if (step.position)
        out.formula(row, LinesColumn::value, formula.text, std::nan(""), "General");
    else
        value_cell(row, step.slot, formulas_.choice_of(step.slot), formula.text, "", out);
    stale_cell(row, step.slot, formula.reads, out);
    out.text(row, LinesColumn::name, where);
    if (node != none)
        out.text(row, LinesColumn::formula,
                 source_text(job_.sources(), job_.sheet().nodes[node].span), Look::Wrapped);
}

BookSheet JobLines::sheet() const {
    BookSheet sheet;
    sheet.name = places_.lines_sheet;
    sheet.widths = {28, 34, 15, 9, 7, 44, 12, 34, 34, 22, 14, 10};
    sheet.frozen_rows = first_line_row;
    sheet.landscape = true;
    sheet.second_page = LinesColumn::set_by;
    SheetWriter out(sheet);
    const lang::JobInfo& info = job_.sheet().job;
    out.text(0, 0, "All lines", Look::Title);
    out.text(1, 0,
             info.option.empty() ? "The job as quoted: every line of its models, live."
                                 : "With the option \"" + info.option + "\": every line, live.");
    out.headings(first_line_row - 1,
                 {"name", "what it is", "value", "unit", "state", "formula in the model", "set by",
                  "because", "source", "written in", "part", "sign"});
    for (lang::LineId line = 0; line < job_.sheet().lines.size(); ++line)
        line_row(line, out);
    if (!formulas_.steps().empty())
        out.text(places_.first_step - 1, 0, "Steps that formulas share", Look::Part);
    for (std::size_t step = 0; step < formulas_.steps().size(); ++step)
        step_row(step, out);
    write_checks(*this, out);
    const std::string first = std::to_string(first_line_row + 1);
    sheet.red.push_back({first_line_row, 0, checks_.last_row, LinesColumn::unit,
                         "=OR($E" + first + "=1,AND($L" + first + "<>\"\",ISNUMBER($C" + first +
                             "),$C" + first + "<-1E-9))"});
    return sheet;
}

} // namespace acre::engine
