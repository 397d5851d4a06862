// One job with its options as a workbook, with figures typed over or as written, and the comparison
// with what the engine says.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "cli/workbook/xlsx.h"
#include "engine/workbook/workbook.h"
#include "lang/units/clock.h"
#include "tests/support/dice.h"
#include "tests/workbook/expected.h"
#include "tests/workbook/spreadsheet.h"

namespace acre::tests {

// Columns of the sheets, as they stand there for people.
enum : std::size_t { name_at = 0, label_at = 1, value_at = 2, stale_at = 4 };

struct BookCase {
    std::string name; // of the file
    std::vector<engine::Job> jobs;
    engine::Workbook book;
    std::vector<GivenValues> typed; // by job: what was typed over

    void save(const std::string& folder) const {
        const lang::Outcome<std::string> bytes = cli::xlsx_of(book);
        REQUIRE(bytes);
        std::ofstream(folder + "/" + name + ".xlsx", std::ios::binary) << *bytes;
    }
};

inline engine::BookSheet& sheet_named(engine::Workbook& book, const std::string& name) {
    const auto found = std::find_if(book.sheets.begin(), book.sheets.end(),
                                    [&](const engine::BookSheet& s) { return s.name == name; });
    REQUIRE(found != book.sheets.end());
    return *found;
}

inline BookCase book_case(std::string name, std::vector<engine::Job> jobs,
                          std::vector<std::string> titles = {}) {
    engine::WorkbookQuestion question;
    for (std::size_t i = 1; i < jobs.size(); ++i)
        question.options.push_back({titles[i - 1], jobs[i]});
    question.renew = "acrewright workbook";
    lang::Outcome<engine::Workbook> book = engine::make_workbook(*jobs[0], question);
    REQUIRE(book);
    BookCase made{std::move(name), std::move(jobs), std::move(*book), {}};
    made.typed.resize(made.jobs.size());
    return made;
}

inline std::string given_in_row(const engine::BookSheet& givens, std::uint32_t row) {
    for (const engine::BookCell& cell : givens.cells)
        if (cell.row == row && cell.column == 0)
            return cell.text;
    return {};
}

// Types over one cell: a number near what it was, or another option.
inline void type_over(BookCase& book, engine::BookCell& cell, const std::string& given,
                      Dice& dice) {
    const std::size_t column = cell.column - 2;
    const engine::PricedJob& job = *book.jobs[column];
    const lang::LineId id = job.sheet().find(given);
    const lang::Line& line = job.sheet().lines[id];
    double value = 0;
    if (line.type.kind == lang::Type::Kind::Choice) {
        const auto& options = job.sheet().choices[line.type.choice].options;
        value = static_cast<double>(dice.below(options.size()));
        cell.text = options[static_cast<std::size_t>(value)];
        std::replace(cell.text.begin(), cell.text.end(), '_', ' ');
    } else {
        const engine::Plan& plan = job.plan();
        const auto bound = [&](engine::Slot slot, double other) {
            return slot == engine::no_slot ? other : job.values().slot[slot];
        };
        // A spreadsheet counts a time of day in days.
        const double hours = line.unit_text == lang::clock_unit ? 24 : 1;
        value = cell.number == 0 ? dice.real(0, 1) : cell.number * hours * dice.real(0.8, 1.3);
        const double low = bound(plan.within_low[line.given], value);
        const double high = bound(plan.within_high[line.given], value);
        value = std::min(std::max(value, low), high);
        if (std::fabs(value) >= 3)
            value = std::round(value * 8) / 8;
        cell.number = value / hours;
    }
    // An option follows the job where it has no cell of its own.
    engine::BookSheet& givens = sheet_named(book.book, "Givens");
    for (std::size_t j = 0; j < book.jobs.size(); ++j) {
        const bool own = std::any_of(givens.cells.begin(), givens.cells.end(),
                                     [&](const engine::BookCell& other) {
                                         return other.row == cell.row && other.column == j + 2 &&
                                                (other.look == engine::Look::Typed ||
                                                 other.look == engine::Look::TypedChoice);
                                     });
        if (j == column || (column == 0 && !own))
            book.typed[j][given] = value;
    }
}

inline std::vector<std::size_t> typed_cells(engine::Workbook& book) {
    std::vector<std::size_t> cells;
    const engine::BookSheet& givens = sheet_named(book, "Givens");
    for (std::size_t i = 0; i < givens.cells.size(); ++i)
        if ((givens.cells[i].look == engine::Look::Typed ||
             givens.cells[i].look == engine::Look::TypedChoice) &&
            givens.cells[i].kind != engine::CellKind::Blank)
            cells.push_back(i);
    return cells;
}

// The same workbook with `count` cells typed over; the values that were written stay as they were.
inline BookCase changed(BookCase book, std::string name, std::size_t count, Dice& dice) {
    book.name = std::move(name);
    std::vector<std::size_t> cells = typed_cells(book.book);
    engine::BookSheet& givens = sheet_named(book.book, "Givens");
    for (; count > 0 && !cells.empty(); --count) {
        const std::size_t at = dice.below(cells.size());
        engine::BookCell& cell = givens.cells[cells[at]];
        type_over(book, cell, given_in_row(givens, cell.row), dice);
        cells.erase(cells.begin() + static_cast<std::ptrdiff_t>(at));
    }
    return book;
}

struct Judged {
    std::size_t lines = 0, stale = 0, no_answer = 0, prices = 0, failing = 0;
};

// What differs, in words; nothing: all is as the engine says. `skip`: lines that nothing can be
// said of.
class BookJudge {
  public:
    BookJudge(const BookCase& book, const BookCells& cells) : book_(book), cells_(cells) {}

    std::vector<std::string> judge(Judged& count, const std::set<std::string>& skip = {}) {
        for (std::size_t j = 0; j < book_.jobs.size(); ++j) {
            const std::string sheet = j == 0 ? "Lines" : "Lines " + std::to_string(j + 1);
            const auto found = cells_.find(sheet);
            if (found == cells_.end()) {
                faults_.push_back(book_.name + ": no sheet " + sheet);
                continue;
            }
            job(j, found->second, count, skip);
        }
        return faults_;
    }

  private:
    void fault(const std::string& what) {
        if (faults_.size() < 8)
            faults_.push_back(book_.name + ": " + what);
    }

    void job(std::size_t j, const SheetCells& lines, Judged& count,
             const std::set<std::string>& skip) {
        const engine::PricedJob& job = *book_.jobs[j];
        const Expected expect = expected(job, book_.typed[j]);
        std::map<std::string, std::size_t> row_of;
        std::map<std::string, std::size_t> label_row;
        for (std::size_t row = 4; row < lines.size(); ++row)
            if (row < 4 + job.sheet().lines.size())
                row_of.emplace(lines.text(row, name_at), row);
            else
                label_row.emplace(lines.text(row, label_at), row);
        for (lang::LineId id = 0; id < job.sheet().lines.size(); ++id) {
            const lang::Line& line = job.sheet().lines[id];
            const engine::Slot slot = engine::slot_of(job.compiled(), id);
            if (!row_of.contains(line.name)) {
                fault("no row " + line.name);
                continue;
            }
            if (slot != engine::no_slot && !skip.contains(line.name))
                one_line(job, id, expect, slot, lines, row_of[line.name], count);
        }
        if (skip.empty())
            conditions(job, expect, lines, label_row, count);
    }

    void one_line(const engine::PricedJob& job, lang::LineId id, const Expected& expect,
                  engine::Slot slot, const SheetCells& lines, std::size_t row, Judged& count) {
        const lang::Line& line = job.sheet().lines[id];
        const bool stale = lines.number(row, stale_at).value_or(0) == 1;
        ++count.lines;
        if (stale != (expect.stale[slot] != 0))
            return fault(line.name + (stale ? " is marked stale" : " is not marked stale"));
        if (stale) {
            ++count.stale;
            return;
        }
        const double wanted = expect.values.slot[slot];
        const std::string shown = lines.text(row, value_at);
        if (std::isnan(wanted)) {
            ++count.no_answer;
            if (lines.number(row, value_at))
                fault(line.name + " is " + shown + ", and has no answer");
            return;
        }
        if (line.type.kind == lang::Type::Kind::Choice) {
            std::string option =
                job.sheet().choices[line.type.choice].options[static_cast<std::size_t>(wanted)];
            std::replace(option.begin(), option.end(), '_', ' ');
            // Two that differ in capital letters alone get a number: "fine (2)".
            if (option != shown && !shown.starts_with(option + " ("))
                fault(line.name + " is " + shown + ", wanted " + option);
            return;
        }
        const std::optional<double> is = lines.number(row, value_at);
        if (!is || !(std::fabs(*is - wanted) <= 1e-9 * std::fmax(1, std::fabs(wanted))))
            fault(line.name + " is " + shown + ", wanted " + std::to_string(wanted));
    }

    void conditions(const engine::PricedJob& job, const Expected& expect, const SheetCells& lines,
                    const std::map<std::string, std::size_t>& label_row, Judged& count) {
        const engine::Plan& plan = job.plan();
        bool certain = true;
        bool met = true;
        for (std::size_t i = 0; i < plan.require_slot.size(); ++i) {
            const engine::Slot slot = plan.require_slot[i];
            certain = certain && expect.stale[slot] == 0;
            met = met && expect.values.slot[slot] == 1;
        }
        const auto failing = label_row.find("conditions not met");
        const auto total = label_row.find("total charged");
        const auto status = label_row.find("what stands against this price");
        if (failing == label_row.end() || total == label_row.end() || status == label_row.end())
            return fault("no rows of what is charged");
        const double counted = lines.number(failing->second, value_at).value_or(-1);
        if (certain && !met) {
            ++count.failing;
            if (counted < 1 || lines.text(status->second, value_at).find("NOT A PRICE") != 0)
                fault("a condition that is not met is not told");
        }
        if (!certain) {
            if (lines.text(status->second, value_at).empty())
                fault("a stale price is not told");
            return;
        }
        if (!every_charge_answers(job, expect.values)) {
            if (lines.number(total->second, value_at) ||
                lines.text(status->second, value_at).empty())
                fault("a price without an answer is not told");
            return;
        }
        ++count.prices;
        const double wanted = dollars_charged(job, expect.values);
        const double is = lines.number(total->second, value_at).value_or(-1);
        if (!(std::fabs(is - wanted) < 0.004))
            fault("the price is " + std::to_string(is) + ", wanted " + std::to_string(wanted));
    }

    const BookCase& book_;
    const BookCells& cells_;
    std::vector<std::string> faults_;
};

} // namespace acre::tests
