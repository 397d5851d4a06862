#include "engine/workbook/changed_givens.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "engine/log/csv_table.h"
#include "engine/log/log_cells.h"
#include "engine/words/words.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/typed_cell.h"
#include "lang/units/clock.h"

namespace acre::engine {

using lang::none;

namespace {

// A program saves as many digits as it shows; what is nearer than this was not changed.
constexpr double unchanged = 1e-8;

constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max(); // no such column

// In quotes on one line.
std::string quotable(std::string_view text) {
    std::string out;
    for (const char c : text)
        if (c == '"')
            out += '\'';
        else
            out += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
    return out.substr(0, 1'000);
}

class SavedGivens {
  public:
    SavedGivens(const PricedJob& job, const std::vector<WorkbookQuestion::Option>& options,
                const CsvTable& table, bool semicolons, lang::Diagnostics& diagnostics)
        : table_(table),
          semicolons_(semicolons),
          diagnostics_(diagnostics) {
        jobs_.push_back({&job, "", "", nullptr});
        for (const WorkbookQuestion::Option& option : options)
            jobs_.push_back({option.job.get(), option.title, "", nullptr});
    }

    std::vector<ChangedGiven> read() {
        std::size_t row = 0;
        while (row < table_.rows.size() && !is_head(table_.rows[row]))
            ++row;
        if (row == table_.rows.size()) {
            fail({table_.end.file, 0, 0}, "no row with the titles `name` and `value`",
                 "save the sheet Givens of the workbook as CSV, with its titles");
            return {};
        }
        if (diagnostics_.has_errors())
            return {};
        for (++row; row < table_.rows.size(); ++row)
            given(table_.rows[row]);
        std::stable_sort(changes_.begin(), changes_.end(),
                         [&](const ChangedGiven& a, const ChangedGiven& b) {
                             return column_of(a.option) < column_of(b.option);
                         });
        return std::move(changes_);
    }

  private:
    void fail(lang::Span span, std::string title, std::string help) {
        diagnostics_.add(
            {lang::Code::I613, std::move(title), {span, ""}, {}, {}, {{std::move(help), {}}}});
    }
    std::size_t column_of(const std::string& option) const {
        for (std::size_t i = 0; i < jobs_.size(); ++i)
            if (jobs_[i].title == option)
                return i;
        return jobs_.size();
    }
    const CsvCell* cell(const CsvRow& row, std::size_t column) const {
        return column < row.size() ? &row[column] : nullptr;
    }

    bool is_head(const CsvRow& row) {
        const auto find = [&](std::string_view title, std::size_t from = 0) {
            for (std::size_t i = from; i < row.size(); ++i)
                if (row[i].text == title)
                    return i;
            return nowhere;
        };
        name_ = find(given_name_heading);
        value_ = find(given_value_heading);
        if (name_ == nowhere || value_ == nowhere)
            return false;
        columns_ = {value_};
        std::size_t after = value_;
        for (std::size_t i = 1; i < jobs_.size(); ++i) {
            columns_.push_back(find(jobs_[i].title, value_ + 1));
            after = std::max(after, columns_[i] == nowhere ? after : columns_[i]);
        }
        reason_ = find(given_reason_heading, after + 1);
        unit_ = find(given_unit_heading, after + 1);
        judge_options(row);
        return true;
    }

    // Between the value and its unit stand the options of the job, all of them and no other: else
    // it is another job's sheet, or written with another --option, and would be read for this one.
    void judge_options(const CsvRow& row) {
        if (unit_ == nowhere)
            return; // somebody's own table of names and values
        const std::string help =
            "read it as it was written: with the same job, and with --option only if it was there";
        for (std::size_t i = 1; i < jobs_.size(); ++i)
            if (columns_[i] == nowhere)
                fail(row[value_].span, fmt::format("no column of the option `{}`", jobs_[i].title),
                     help);
        for (std::size_t at = value_ + 1; at < unit_; ++at)
            if (!row[at].text.empty() &&
                std::find(columns_.begin(), columns_.end(), at) == columns_.end())
                fail(row[at].span, fmt::format("this job has no option `{}`", row[at].text), help);
    }

    void given(const CsvRow& row) {
        const CsvCell* name = cell(row, name_);
        const CsvCell* value = cell(row, value_);
        if (name == nullptr || value == nullptr || name->text.empty())
            return;
        const lang::LineId line = jobs_[0].job->sheet().find(name->text);
        if (line == none || jobs_[0].job->sheet().lines[line].given == none) {
            if (!value->text.empty()) // else the title of a part
                fail(name->span, fmt::format("no given named `{}`", name->text),
                     "read it with the job that the workbook was made of");
            return;
        }
        if (!seen_.insert(name->text).second)
            return fail(name->span, fmt::format("`{}` has two rows", name->text),
                        "leave the one that counts");
        const std::string is = unit_text(jobs_[0].job->sheet(), jobs_[0].job->sheet().lines[line]);
        if (const CsvCell* unit = cell(row, unit_); unit && !unit->text.empty() && unit->text != is)
            return fail(unit->span, fmt::format("`{}` counts in {}", name->text, is),
                        "leave its unit, and convert the number");
        const CsvCell* reason = cell(row, reason_);
        const std::string because = reason == nullptr ? "" : quotable(reason->text);
        for (std::size_t i = 0; i < jobs_.size(); ++i)
            if (const CsvCell* at = cell(row, columns_[i]))
                one(i, name->text, *at, *value, because);
    }

    void one(std::size_t index, const std::string& name, const CsvCell& cell, const CsvCell& base,
             const std::string& because) {
        const PricedJob& job = *jobs_[index].job;
        const lang::LineId line = job.sheet().find(name);
        if (!is_typed(job, line))
            return;
        const bool follows = index > 0 && !is_its_own(jobs_[index], *jobs_[0].job, name);
        if (follows && cell.text == base.text)
            return;
        if (cell.text.empty()) {
            if (!std::isnan(job.value(line)))
                fail(cell.span, fmt::format("the cell of `{}` is empty", name),
                     "type a value; it was " + before(job, line));
            return;
        }
        const std::optional<std::string> value = changed(job, line, cell);
        if (!value)
            return;
        changes_.push_back({name, index == 0 ? "" : jobs_[index].title, *value, before(job, line),
                            set_by(job, line), because});
    }

    // As the notation writes it; empty: it is as it was, or wrong.
    std::optional<std::string> changed(const PricedJob& job, lang::LineId line,
                                       const CsvCell& cell) {
        const lang::Line& given = job.sheet().lines[line];
        const double was = job.value(line);
        if (given.type.kind == lang::Type::Kind::Choice) {
            const lang::ChoiceType& choice = job.sheet().choices[given.type.choice];
            const std::vector<std::string> words = option_words(choice);
            const auto found = std::find(words.begin(), words.end(), cell.text);
            if (found == words.end()) {
                fail(cell.span, fmt::format("`{}` is not one of `{}`", cell.text, given.name),
                     fmt::format("it is one of: {}", fmt::join(words, ", ")));
                return std::nullopt;
            }
            const auto index = static_cast<std::size_t>(found - words.begin());
            return static_cast<double>(index) == was ? std::nullopt
                                                     : std::optional(choice.options[index]);
        }
        return changed_number(job, line, cell, was);
    }

    std::optional<std::string> changed_number(const PricedJob& job, lang::LineId line,
                                              const CsvCell& cell, double was) {
        const lang::Line& given = job.sheet().lines[line];
        const std::string unit = unit_text(job.sheet(), given);
        const bool clock = unit == lang::clock_unit;
        const std::optional<double> plain = figure_typed(cell.text, "1", semicolons_);
        if (plain && std::fabs(*plain - was) <= unchanged * std::fabs(was))
            return std::nullopt;
        const std::optional<double> typed = figure_typed(cell.text, unit, semicolons_);
        if (!typed) {
            const bool small = plain && (clock || unit == "%");
            fail(cell.span,
                 fmt::format("`{}` of `{}` {}", cell.text, given.name,
                             small   ? "may be two things"
                             : clock ? "is no time of day"
                                     : "is no number"),
                 small && !clock ? fmt::format("write  {} %  or  {:.6g} %", cell.text, *plain * 100)
                                 : number_help(unit));
            return std::nullopt;
        }
        // A cell shows the minute.
        if (std::fabs(*typed - was) <= (clock ? 0.5 / 60 : unchanged * std::fabs(was)))
            return std::nullopt;
        if (!is_within(job, line, *typed, cell))
            return std::nullopt;
        return cell_written(*typed, unit);
    }

    // Bounds that rest on other givens are judged with them, when the lines stand in the job.
    bool is_within(const PricedJob& job, lang::LineId line, double typed, const CsvCell& cell) {
        const Plan& plan = job.plan();
        const std::uint32_t given = job.sheet().lines[line].given;
        const auto bound = [&](Slot slot) {
            return slot != no_slot && plan.operations[slot].code == OpCode::Constant
                       ? std::optional(job.values().slot[slot])
                       : std::nullopt;
        };
        const std::optional<double> low = bound(plan.within_low[given]);
        const std::optional<double> high = bound(plan.within_high[given]);
        if ((!low || typed >= *low) && (!high || typed <= *high))
            return true;
        const bool below = low && typed < *low;
        fail(cell.span,
             fmt::format("`{}` of `{}` is outside its allowed range", cell.text,
                         job.sheet().lines[line].name),
             fmt::format("{} is the {} allowed",
                         value_text(job.sheet(), line, below ? *low : *high),
                         below ? "least" : "most"));
        return false;
    }

    static std::string before(const PricedJob& job, lang::LineId line) {
        const lang::Type& type = job.sheet().lines[line].type;
        if (std::isnan(job.value(line)))
            return {};
        return type.kind == lang::Type::Kind::Choice
                   ? option_word(job.sheet().choices[type.choice], job.value(line))
                   : value_text(job.sheet(), line, job.value(line));
    }
    static std::string set_by(const PricedJob& job, lang::LineId line) {
        const lang::Given& given = job.sheet().givens[job.sheet().lines[line].given];
        if (given.settings.empty())
            return {};
        const lang::Setting& setting = given.settings.back();
        return fmt::format("{}, {}", layer_text(setting.layer),
                           place_text(job.sources(), setting.span));
    }

    const CsvTable& table_;
    bool semicolons_;
    lang::Diagnostics& diagnostics_;
    BookJobs jobs_;
    std::size_t name_ = 0, value_ = 0, unit_ = 0, reason_ = 0;
    std::vector<std::size_t> columns_; // of the job and each option
    std::set<std::string> seen_;
    std::vector<ChangedGiven> changes_;
};

} // namespace

lang::Outcome<std::vector<ChangedGiven>>
changed_givens(const PricedJob& job, const std::vector<WorkbookQuestion::Option>& options,
               std::string name, std::string text) {
    auto sources = std::make_shared<lang::SourceMap>();
    const lang::FileId file = sources->add(std::move(name), std::move(text));
    const char between = between_cells(sources->file(file).text());
    const CsvTable table =
        read_csv(sources->file(file).text(), file, most_saved_rows, most_saved_columns, between);
    lang::Said said;
    if (!table.well_formed || table.too_many_rows)
        said.diagnostics.add({lang::Code::I613,
                              table.too_many_rows ? "more rows than a sheet of givens has"
                                                  : "this is not valid CSV: a quote has no match",
                              {table.end, ""},
                              {},
                              {},
                              {}});
    std::vector<ChangedGiven> changes;
    if (!said.diagnostics.has_errors())
        changes = SavedGivens(job, options, table, between == ';', said.diagnostics).read();
    said.sources = std::move(sources);
    if (said.diagnostics.has_errors())
        return said;
    return {std::move(changes), std::move(said)};
}

std::string set_lines(const std::vector<ChangedGiven>& changes) {
    std::string out;
    std::string option;
    for (const ChangedGiven& change : changes) {
        if (change.option != option)
            out += fmt::format("option \"{}\"\n", change.option);
        option = change.option;
        out += fmt::format("{}set {} = {}", option.empty() ? "" : "  ", change.name, change.value);
        if (!change.because.empty())
            out += fmt::format("  because \"{}\"", change.because);
        if (!change.before.empty())
            out += fmt::format("  # was {}, set by the {}", change.before, change.set_by);
        out += '\n';
    }
    return out;
}

} // namespace acre::engine
