// What the customer pays: no cost, no margin, a page to print.
#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "engine/questions/price.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/sheet_writer.h"
#include "lang/units/calendar.h"

namespace acre::engine {

using lang::none;

namespace {

class PricePage {
  public:
    PricePage(const BookJobs& jobs, BookSheet& sheet)
        : jobs_(jobs),
          job_(*jobs[0].job),
          lines_(*jobs[0].lines),
          out_(sheet),
          sheet_(sheet) {}

    void write() {
        head();
        items();
        cautions();
        sheet_.red.push_back({status_row_, what, total_row_, amount,
                              "=$A$" + std::to_string(status_row_ + 1) + "<>\"\""});
    }

  private:
    enum Column : std::uint32_t { what, quantity, unit, rate, amount, all_columns };

    void head() {
        const JobHead job = head_of(job_);
        out_.text(row_++, what, job.title.empty() ? job.model : job.title, Look::Title);
        const auto say = [&](const char* name, const std::string& text) {
            if (text.empty())
                return;
            out_.text(row_, what, name, Look::Small);
            out_.text(row_++, quantity, text);
        };
        say("for", job.who);
        say("date", lang::day_text(job.date));
        say("option", job.option);
        say("model", job.model);
        say("season", job.season);
        status_row_ = ++row_;
        out_.words(row_++, what, "=" + lines_.at(lines_.checks().status), "", Look::Warning);
        ++row_;
    }

    void items() {
        for (const auto& [column, title] : {std::pair{what, "what"},
                                            {quantity, "quantity"},
                                            {unit, "unit"},
                                            {rate, "rate"},
                                            {amount, "amount"}})
            out_.text(row_, column, title,
                      column == what   ? Look::Heading
                      : column == unit ? Look::UnitHeading
                                       : Look::FigureHeading);
        ++row_;
        double dollars = 0;
        const lang::PriceItem* first_by_unit = nullptr;
        for (std::size_t i = 0; i < job_.sheet().prices.size(); ++i) {
            const lang::PriceItem& item = job_.sheet().prices[i];
            const ChargedRows& rows = lines_.checks().items[i];
            const Billed billed = charged_for(job_, item);
            const double cents = static_cast<double>(billed.cents) / 100;
            dollars += cents;
            out_.text(row_, what, item.title, Look::Wrapped);
            if (item.quantity == none) {
                out_.text(row_, quantity, "lump sum");
            } else {
                first_by_unit = first_by_unit == nullptr ? &item : first_by_unit;
                out_.formula(row_, quantity, "=" + lines_.at(rows.quantity), billed.quantity,
                             "#,##0.##");
                out_.text(row_, unit, item.per_text, Look::Unit);
                out_.formula(row_, rate, "=" + lines_.at(rows.rate), billed.rate, rate_format());
            }
            out_.formula(row_++, amount, "=" + lines_.at(rows.cents), cents, money_format());
        }
        total_row_ = row_;
        for (const Column column : {quantity, unit, rate})
            out_.blank(row_, column, Look::Total);
        out_.text(row_, what, "Total", Look::Total);
        out_.formula(row_++, amount, "=" + lines_.at(lines_.checks().total), dollars,
                     money_format(), Look::Total);
        if (first_by_unit != nullptr) {
            out_.text(row_, what, "All in");
            out_.text(row_, unit, "per " + first_by_unit->per_text, Look::Unit);
            out_.formula(row_++, rate, "=" + lines_.value_of(job_.sheet().price_per_unit),
                         job_.value(job_.sheet().price_per_unit), money_format());
        }
        ++row_;
    }

    void note(const std::string& text) {
        out_.text(row_++, what, text, Look::Wrapped);
        out_.span(all_columns);
    }

    // Those that hang on something stand at the end, first those that apply now: one that does not
    // is an empty row.
    void cautions() {
        out_.text(row_++, what, "Please note", Look::Part);
        note("These figures are estimates. Local codes and licensed practice decide.");
        const lang::Sheet& sheet = job_.sheet();
        std::vector<std::size_t> conditional;
        for (std::size_t i = 0; i < sheet.cautions.size(); ++i)
            if (job_.plan().operations[job_.plan().caution_slot[i]].code == OpCode::Constant)
                note(sheet.cautions[i].message);
            else
                conditional.push_back(i);
        std::stable_partition(conditional.begin(), conditional.end(), [&](std::size_t i) {
            return job_.values().slot[job_.plan().caution_slot[i]] != 0;
        });
        for (const std::size_t i : conditional) {
            const Slot slot = job_.plan().caution_slot[i];
            out_.words(
                row_++, what,
                fmt::format(
                    "=IF(IFERROR({},TRUE),{},\"\")", lines_.formulas().elsewhere(slot),
                    on_sheet(conditions_sheet_name, fixed_address(caution_row(jobs_, i), 0))),
                job_.values().slot[slot] == 0 ? std::string_view() : sheet.cautions[i].message,
                Look::Wrapped);
            out_.span(all_columns);
        }
    }

    const BookJobs& jobs_;
    const PricedJob& job_;
    const JobLines& lines_;
    SheetWriter out_;
    BookSheet& sheet_;
    std::uint32_t row_ = 0, status_row_ = 0, total_row_ = 0;
};

} // namespace

BookSheet price_sheet(const BookJobs& jobs) {
    BookSheet sheet;
    sheet.name = "Price";
    sheet.widths = {34, 14, 10, 14, 16};
    PricePage(jobs, sheet).write();
    return sheet;
}

} // namespace acre::engine
