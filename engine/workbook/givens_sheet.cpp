#include <cmath>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "engine/plan/plan_roots.h"
#include "engine/words/words.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/sheet_writer.h"
#include "lang/units/clock.h"

namespace acre::engine {

using lang::none;

namespace {

constexpr std::uint32_t givens_head = 3;
constexpr std::uint32_t given_name_column = 0, given_label_column = 1, first_value_column = 2;

std::string part_of(const lang::Sheet& sheet, const lang::Line& line) {
    if (line.part == none)
        return "Others";
    const lang::Part& part = sheet.parts[line.part];
    const lang::Entry* entry = line.entry == none ? nullptr : &sheet.entries[line.entry];
    std::string title = part.instance.empty() ? "" : part.instance + ": ";
    title += part.title.empty() ? "Others" : part.title;
    if (entry != nullptr)
        title += ", " + (entry->label.empty() ? entry->name : entry->label);
    return title;
}

constexpr const char* clock_format = "[h]:mm";

const char* bound_format(double value) {
    return value == std::floor(value) ? "#,##0" : "General";
}

// Clock times stand in this sheet as spreadsheets keep them, as parts of a day.
bool is_clock(const lang::Line& line) {
    return line.unit_text == lang::clock_unit;
}

} // namespace

bool is_typed(const PricedJob& job, lang::LineId line) {
    if (line == none || job.sheet().lines[line].given == none)
        return false;
    if (job.sheet().lines[line].value == none)
        return true;
    const Slot slot = slot_of(job.compiled(), line);
    if (slot == no_slot)
        return false;
    const Operation& op = job.plan().operations[slot];
    // A given computed as another given has that one's slot.
    return op.code == OpCode::Input && job.plan().inputs[op.a].line == line;
}

bool is_its_own(const BookJob& option, const PricedJob& base, const std::string& name) {
    const lang::LineId here = option.job->sheet().find(name);
    const lang::LineId there = base.sheet().find(name);
    if (!is_typed(base, there))
        return true;
    const lang::Given& given = option.job->sheet().givens[option.job->sheet().lines[here].given];
    const bool by_option =
        !given.settings.empty() && given.settings.back().layer == lang::Layer::Option;
    const double a = option.job->value(here);
    const double b = base.value(there);
    return by_option || !(a == b || (std::isnan(a) && std::isnan(b)));
}

GivensSheet::GivensSheet(const BookJobs& jobs) : jobs_(jobs) {
    const lang::Sheet& sheet = jobs[0].job->sheet();
    std::uint32_t row = givens_head + 1;
    std::string last_part;
    for (const lang::Given& given : sheet.givens) {
        const lang::Line& line = sheet.lines[given.line];
        bool typed = false;
        for (const BookJob& job : jobs)
            typed = typed || is_typed(*job.job, job.job->sheet().find(line.name));
        if (!typed)
            continue;
        std::string part = part_of(sheet, line);
        const bool same = part == last_part;
        last_part = part;
        if (!same)
            row += row == givens_head + 1 ? 1 : 2; // the title stands above
        rows_.push_back({line.name, row++, same ? "" : std::move(part)});
    }
}

std::vector<std::string> GivensSheet::cells_of(std::size_t index) const {
    const PricedJob& job = *jobs_[index].job;
    std::vector<std::string> cells(job.sheet().lines.size());
    for (const Row& row : rows_)
        if (const lang::LineId line = job.sheet().find(row.name); is_typed(job, line))
            cells[line] = on_sheet(
                givens_sheet_name,
                fixed_address(row.row, first_value_column + static_cast<std::uint32_t>(index)));
    return cells;
}

// A cell to type into; in the column of an option that says nothing of it, the job's own value.
void GivensSheet::value_cell(const Row& row, std::size_t index, const TablesSheet& tables,
                             BookSheet& sheet) const {
    SheetWriter out(sheet);
    const BookJob& job = jobs_[index];
    const lang::LineId id = job.job->sheet().find(row.name);
    const std::uint32_t column = first_value_column + static_cast<std::uint32_t>(index);
    if (id == none)
        return;
    const lang::Line& line = job.job->sheet().lines[id];
    const bool shows_choice = line.type.kind == lang::Type::Kind::Choice;
    const double value = job.job->value(id);
    const std::string shown =
        shows_choice ? option_word(job.job->sheet().choices[line.type.choice], value) : "";
    const bool typed = is_typed(*job.job, id);
    if (!typed || (index > 0 && !is_its_own(job, *jobs_[0].job, row.name))) {
        const std::string from = cell_address(row.row, first_value_column);
        std::string formula =
            typed ? fmt::format("=IF(ISBLANK({0}),\"\",{0})", from) : "=" + job.lines->value_of(id);
        if (shows_choice || std::isnan(value))
            return out.words(row.row, column, formula, shown);
        if (!is_clock(line))
            return out.formula(row.row, column, formula, value, "General");
        return out.formula(row.row, column, formula.append(typed ? "" : "/24"), value / 24,
                           clock_format);
    }
    if (std::isnan(value))
        out.blank(row.row, column, shows_choice ? Look::TypedChoice : Look::Typed);
    else if (shows_choice)
        out.text(row.row, column, shown, Look::TypedChoice);
    else if (is_clock(line))
        out.number(row.row, column, value / 24, clock_format, Look::Typed);
    else
        out.number(row.row, column, value, "General", Look::Typed);
    const std::uint32_t from = first_value_column + static_cast<std::uint32_t>(jobs_.size()) + 1;
    CellRule rule{row.row, column, {}, {}, {}};
    const lang::LineId base = jobs_[0].job->sheet().find(row.name);
    const Plan& plan = jobs_[0].job->plan();
    const std::uint32_t given = jobs_[0].job->sheet().lines[base].given;
    if (shows_choice)
        rule.list = "=" + tables.lists[line.type.choice];
    else if (plan.within_low[given] != no_slot && plan.within_high[given] != no_slot) {
        rule.low = "=" + fixed_address(row.row, from);
        rule.high = "=" + fixed_address(row.row, from + 1);
    } else if (is_clock(line)) { // not hours
        rule.low = "=-1";
        rule.high = "=2";
    }
    if (!rule.list.empty() || !rule.low.empty())
        sheet.rules.push_back(std::move(rule));
}

void GivensSheet::write_row(const Row& row, const TablesSheet& tables, BookSheet& sheet) const {
    SheetWriter out(sheet);
    const PricedJob& job = *jobs_[0].job;
    const lang::LineId id = job.sheet().find(row.name);
    const lang::Line& line = job.sheet().lines[id];
    const lang::Given& given = job.sheet().givens[line.given];
    if (!row.part.empty())
        out.text(row.row - 1, given_name_column, row.part, Look::Part);
    out.text(row.row, given_name_column, row.name);
    out.text(row.row, given_label_column, line.label, Look::Wrapped);
    for (std::size_t index = 0; index < jobs_.size(); ++index)
        value_cell(row, index, tables, sheet);
    std::uint32_t column = first_value_column + static_cast<std::uint32_t>(jobs_.size());
    out.text(row.row, column, unit_text(job.sheet(), line), Look::Unit);
    for (const Slot slot :
         {job.plan().within_low[line.given], job.plan().within_high[line.given]}) {
        ++column;
        if (slot == no_slot)
            continue;
        const std::string bound = jobs_[0].lines->formulas().elsewhere(slot);
        const double is = job.values().slot[slot];
        if (is_clock(line))
            out.formula(row.row, column, "=(" + bound + ")/24", is / 24, clock_format);
        else
            out.formula(row.row, column, "=" + bound, is, bound_format(is));
    }
    out.blank(row.row, column + 1, Look::TypedReason);
    if (given.settings.empty())
        return;
    const lang::Setting& setting = given.settings.back();
    out.text(row.row, column + 2, layer_text(setting.layer), Look::Unit);
    out.text(row.row, column + 3, setting.because, Look::Wrapped);
}

BookSheet GivensSheet::sheet(const TablesSheet& tables) const {
    BookSheet sheet;
    sheet.name = givens_sheet_name;
    sheet.frozen_rows = givens_head + 1;
    sheet.landscape = true;
    sheet.widths = {26, 30};
    sheet.widths.insert(sheet.widths.end(), jobs_.size(), 13);
    sheet.widths.insert(sheet.widths.end(), {10, 10, 10, 22, 10, 40});
    SheetWriter out(sheet);
    out.text(0, 0, "Givens", Look::Title);
    out.text(
        1, 0,
        "Type into the yellow cells alone. An option follows the job where its cell is white. "
        "Write why under \"your reason\". A share counts in %: for 5 % type 5. A time of day is "
        "typed as 17:30.");
    std::uint32_t column = 0;
    const auto heading = [&](std::string_view text, Look look = Look::Heading) {
        out.text(givens_head, column++, text, look);
    };
    heading(given_name_heading);
    heading("what it is");
    heading(given_value_heading, Look::FigureHeading);
    for (std::size_t index = 1; index < jobs_.size(); ++index)
        heading(jobs_[index].title, Look::FigureHeading);
    heading(given_unit_heading, Look::UnitHeading);
    heading("from", Look::FigureHeading);
    heading("to", Look::FigureHeading);
    heading(given_reason_heading, Look::UnitHeading);
    heading("set by", Look::UnitHeading);
    heading("because");
    for (const Row& row : rows_)
        write_row(row, tables, sheet);
    return sheet;
}

} // namespace acre::engine
