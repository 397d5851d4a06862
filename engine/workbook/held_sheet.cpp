#include <cmath>

#include <fmt/format.h>

#include "engine/plan/plan_roots.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/sheet_writer.h"

namespace acre::engine {

using lang::none;

namespace {

constexpr std::uint32_t held_first_row = 5;
// Programs differ in the last digits of a sine; what nobody changed stays within this.
constexpr const char* unchanged_within = "1E-10";

class HeldRows {
  public:
    HeldRows(const BookJob& job, SheetWriter& out)
        : job_(*job.job),
          lines_(*job.lines),
          out_(out) {}

    void write(const HeldValue& held) {
        out_.text(held.row, HeldColumn::name, held.what, Look::Part);
        out_.text(held.row, HeldColumn::label, "rests on:");
        std::uint32_t row = held.row;
        for (const Slot slot : held.rests_on)
            rests_on(++row, slot);
        const std::string all =
            fixed_range(held.row + 1, HeldColumn::changed, row, HeldColumn::changed);
        std::string changed = held.rests_on.empty() ? "=0" : "=MAX(" + all + ")";
        value(held.row, held.slot);
        // Whoever types another figure over a boundary's knows better than the boundary.
        if (held.line != none)
            changed = fmt::format("=IF({},0,MAX({}))", differs(held.row, held.slot), all);
        out_.formula(held.row, HeldColumn::changed, changed, 0, stale_format, Look::Warning);
    }

  private:
    std::uint32_t choice(Slot slot) const { return lines_.formulas().choice_of(slot); }

    void value(std::uint32_t row, Slot slot) {
        const double is = job_.values().slot[slot];
        const std::string now = "=" + lines_.formulas().elsewhere(slot);
        if (choice(slot) != none) {
            const std::string word = option_word(job_.sheet().choices[choice(slot)], is);
            out_.text(row, HeldColumn::was, word);
            out_.words(row, HeldColumn::now, now, word);
            return;
        }
        if (std::isnan(is))
            out_.text(row, HeldColumn::was, "no answer");
        else
            out_.number(row, HeldColumn::was, is, figure_format("", is));
        out_.formula(row, HeldColumn::now, now, is, figure_format("", is));
    }

    std::string differs(std::uint32_t row, Slot slot) const {
        const std::string was = cell_address(row, HeldColumn::was);
        const std::string now = cell_address(row, HeldColumn::now);
        if (choice(slot) != none)
            return fmt::format("IFERROR({}<>{},TRUE)", now, was);
        if (std::isnan(job_.values().slot[slot]))
            return fmt::format("NOT(ISERROR({}))", now);
        return fmt::format("IFERROR(ABS({0}-{1})>{2}*ABS({1}),TRUE)", now, was, unchanged_within);
    }

    void rests_on(std::uint32_t row, Slot slot) {
        const lang::LineId line = lines_.formulas().line_of(slot);
        const lang::LineId within = job_.compiled().origins.line[slot];
        if (line != none) {
            out_.text(row, HeldColumn::name, job_.sheet().lines[line].name);
            out_.text(row, HeldColumn::label, job_.sheet().lines[line].label, Look::Wrapped);
        } else if (within != none) {
            out_.text(row, HeldColumn::name, "a step of " + job_.sheet().lines[within].name);
        }
        value(row, slot);
        out_.formula(row, HeldColumn::changed, fmt::format("=IF({},1,0)", differs(row, slot)), 0,
                     "[=0]\"\";[=1]\"changed\";General", Look::Warning);
    }

    const PricedJob& job_;
    const JobLines& lines_;
    SheetWriter& out_;
};

} // namespace

void place_held(BookJobs& jobs) {
    std::uint32_t row = held_first_row;
    for (BookJob& job : jobs) {
        for (HeldValue& held : job.lines->held()) {
            held.row = row;
            row += static_cast<std::uint32_t>(held.rests_on.size()) + 2;
        }
    }
}

BookSheet held_sheet(const BookJobs& jobs, const std::string& renew) {
    BookSheet sheet;
    sheet.name = held_sheet_name;
    sheet.widths = {34, 40, 16, 16, 10};
    sheet.frozen_rows = held_first_row - 1;
    SheetWriter out(sheet);
    out.text(0, 0, "Held values", Look::Title);
    out.text(1, 0,
             "A sheet cannot work these out: it holds what the program made of the cells below "
             "each. When one of those changes, what rests on it is stale.");
    out.text(2, 0, "To renew them: " + renew);
    out.headings(held_first_row - 2, {"value", "what it is"});
    out.text(held_first_row - 2, HeldColumn::was, "when written", Look::FigureHeading);
    out.text(held_first_row - 2, HeldColumn::now, "now", Look::FigureHeading);
    out.text(held_first_row - 2, HeldColumn::changed, "state", Look::UnitHeading);
    for (const BookJob& job : jobs) {
        HeldRows rows(job, out);
        for (const HeldValue& held : job.lines->held())
            rows.write(held);
    }
    return sheet;
}

} // namespace acre::engine
