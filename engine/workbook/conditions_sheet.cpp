// Conditions and cautions, the job and its options side by side.
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/words/words.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/sheet_writer.h"
#include "lang/units/number_text.h"

namespace acre::engine {

using lang::none;

namespace {

constexpr std::uint32_t conditions_head = 3; // row
constexpr std::uint32_t first_state = 2;     // column
constexpr const char* caution_format = "[=0]\"\";[=1]\"applies\";General";

using ConditionKey = std::pair<CheckRow::Kind, std::size_t>;
using ConditionRows = std::map<ConditionKey, const CheckRow*>;

ConditionRows conditions_of(const BookJob& job) {
    ConditionRows rows;
    for (const CheckRow& check : job.lines->checks().conditions)
        rows[{check.kind, check.index}] = &check;
    return rows;
}

// Of the job and its options, each once: an option may rest on givens that the job does not need.
ConditionRows all_conditions(const BookJobs& jobs) {
    ConditionRows all;
    for (const BookJob& job : jobs)
        all.merge(conditions_of(job));
    return all;
}

class ConditionsPage {
  public:
    ConditionsPage(const BookJobs& jobs, BookSheet& sheet)
        : jobs_(jobs),
          base_(*jobs[0].job),
          out_(sheet),
          sheet_(sheet) {
        for (const BookJob& job : jobs)
            rows_.push_back(conditions_of(job));
    }

    void write() {
        out_.text(0, 0, "Conditions and cautions", Look::Title);
        out_.text(1, 0, "Where a condition is not met there is no price.");
        heads("condition: what it means", "as written");
        const auto first = row_ + 1;
        for (const auto& [key, check] : all_conditions(jobs_))
            condition(*check);
        const std::string cell = cell_address(first, first_state);
        sheet_.red.push_back({first, first_state, row_,
                              first_state + static_cast<std::uint32_t>(jobs_.size()) - 1,
                              "=AND(ISNUMBER(" + cell + ")," + cell + ">0)"});
        row_ = caution_row(jobs_, 0) - 1;
        heads("caution", "where");
        cautions();
        tested();
    }

  private:
    void heads(const char* first, const char* second) {
        out_.text(row_, 0, first, Look::Heading);
        out_.text(row_, 1, second, Look::Heading);
        for (std::size_t i = 0; i < jobs_.size(); ++i)
            out_.text(row_, first_state + static_cast<std::uint32_t>(i), jobs_[i].title,
                      Look::FigureHeading);
    }

    void cautions() {
        const lang::Sheet& sheet = base_.sheet();
        for (std::size_t i = 0; i < sheet.cautions.size(); ++i) {
            ++row_;
            const lang::Condition& caution = sheet.cautions[i];
            const std::string entry =
                caution.entry == none ? "" : sheet.entries[caution.entry].name + ": ";
            out_.text(row_, 0, entry + caution.message, Look::Wrapped);
            out_.text(row_, 1,
                      caution.condition == none
                          ? std::string("always")
                          : source_text(base_.sources(), sheet.nodes[caution.condition].span),
                      Look::Wrapped);
            for (std::size_t j = 0; j < jobs_.size(); ++j) {
                const Plan& plan = jobs_[j].job->plan();
                if (i >= plan.caution_slot.size())
                    continue;
                const Slot slot = plan.caution_slot[i];
                out_.formula(row_, first_state + static_cast<std::uint32_t>(j),
                             fmt::format("=IF(IFERROR({},TRUE),1,0)",
                                         jobs_[j].lines->formulas().elsewhere(slot)),
                             jobs_[j].job->values().slot[slot] == 0 ? 0 : 1, caution_format);
            }
        }
    }

    void condition(const CheckRow& check) {
        ++row_;
        out_.text(row_, 0, check.message, Look::Wrapped);
        out_.text(row_, 1, check.what, Look::Wrapped);
        for (std::size_t j = 0; j < jobs_.size(); ++j) {
            const auto same = rows_[j].find({check.kind, check.index});
            if (same == rows_[j].end())
                continue;
            out_.formula(row_, first_state + static_cast<std::uint32_t>(j),
                         "=" + jobs_[j].lines->at(same->second->row), same->second->state,
                         check.kind == CheckRow::BelowZero ? below_zero_format : condition_format);
        }
    }

    // Functions used outside the range that they were tested in: only where that is so now, or
    // may come to be.
    void tested() {
        const Plan& plan = base_.plan();
        if (plan.tested.empty())
            return;
        row_ += 2;
        heads("formulas used outside the range they were tested in", "range");
        for (std::size_t i = 0; i < plan.tested.size(); ++i) {
            const Plan::TestedRange& range = plan.tested[i];
            const lang::Function& function = base_.sheet().functions[range.function];
            const auto bound = [&](Slot slot) {
                return slot == no_slot ? std::string("any")
                                       : lang::number_text(base_.values().slot[slot]);
            };
            ++row_;
            const lang::LineId line = base_.compiled().origins.line[range.call];
            out_.text(row_, 0,
                      function.name + ": " + function.parameters[range.parameter] +
                          (line == none ? "" : ", for " + base_.sheet().lines[line].name),
                      Look::Wrapped);
            out_.text(row_, 1,
                      bound(range.low) + " .. " + bound(range.high) + " " +
                          function.parameter_texts[range.parameter]);
            for (std::size_t j = 0; j < jobs_.size(); ++j)
                if (i < jobs_[j].job->plan().tested.size())
                    tested_state(jobs_[j], jobs_[j].job->plan().tested[i],
                                 first_state + static_cast<std::uint32_t>(j));
        }
    }

    void tested_state(const BookJob& job, const Plan::TestedRange& range, std::uint32_t column) {
        const auto value = [&](Slot slot) { return job.job->values().slot[slot]; };
        const auto cell = [&](Slot slot) { return job.lines->formulas().elsewhere(slot); };
        const double is = value(range.value);
        std::string outside;
        bool now = false;
        if (range.low != no_slot) {
            outside = fmt::format("{}<{}-1E-12*ABS({})", cell(range.value), cell(range.low),
                                  cell(range.low));
            now = is < value(range.low) - 1e-12 * std::fabs(value(range.low));
        }
        if (range.high != no_slot) {
            outside += fmt::format("{}{}>{}+1E-12*ABS({})", outside.empty() ? "" : ",",
                                   cell(range.value), cell(range.high), cell(range.high));
            now = now || is > value(range.high) + 1e-12 * std::fabs(value(range.high));
        }
        out_.formula(row_, column, "=IFERROR(IF(OR(" + outside + "),1,0),0)", now ? 1 : 0,
                     caution_format);
    }

    const BookJobs& jobs_;
    const PricedJob& base_;
    SheetWriter out_;
    BookSheet& sheet_;
    std::vector<ConditionRows> rows_; // by job
    std::uint32_t row_ = conditions_head;
};

} // namespace

std::uint32_t caution_row(const BookJobs& jobs, std::size_t caution) {
    return conditions_head + 3 + static_cast<std::uint32_t>(all_conditions(jobs).size() + caution);
}

BookSheet conditions_sheet(const BookJobs& jobs) {
    BookSheet sheet;
    sheet.name = conditions_sheet_name;
    sheet.widths = {60, 50};
    sheet.widths.insert(sheet.widths.end(), jobs.size(), 14);
    sheet.frozen_rows = conditions_head + 1;
    sheet.landscape = true;
    ConditionsPage(jobs, sheet).write();
    return sheet;
}

} // namespace acre::engine
