#include "engine/workbook/changed_givens.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <memory>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "engine/log/csv_table.h"
#include "engine/words/words.h"
#include "engine/workbook/book_sheets.h"
#include "engine/workbook/cell_text.h"
#include "lang/units/money.h"

namespace acre::engine {

using lang::none;

namespace {

// A program saves as many digits as it shows; what is nearer than this was not changed.
constexpr double unchanged = 1e-8;

// "$1,234.50" → 1234.5; "Fr. 12" where that is the firm's money.
std::optional<double> number(std::string text) {
    for (const std::string_view money :
         {std::string_view(lang::shown_money().sign), lang::shown_money().word()})
        if (const std::size_t at = text.find(money); at != std::string::npos)
            text.erase(at, money.size());
    std::string digits;
    for (const char c : text)
        if (c != ',' && c != ' ')
            digits += c;
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

// As the notation writes it, with every digit: "$5.1/gal", "45 CHF/h", "0.00001 ac".
std::string written(double value, const std::string& unit) {
    std::array<char, 400> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::fabs(value),
                                   std::chars_format::fixed)
                         .ptr;
    const std::string digits(buffer.data(), end);
    const std::string minus = value < 0 ? "-" : "";
    if (const std::size_t sign = lang::money_sign_size(unit))
        return minus + unit.substr(0, sign) + digits + unit.substr(sign);
    return minus + digits + (unit == "1" ? "" : " " + unit);
}

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
                const CsvTable& table, lang::Diagnostics& diagnostics)
        : table_(table),
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
        const auto find = [&](std::string_view title) {
            for (std::size_t i = 0; i < row.size(); ++i)
                if (row[i].text == title)
                    return i;
            return row.size();
        };
        name_ = find(given_name_heading);
        value_ = find(given_value_heading);
        reason_ = find(given_reason_heading);
        return name_ < row.size() && value_ < row.size();
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
        const CsvCell* reason = cell(row, reason_);
        const std::string because = reason == nullptr ? "" : quotable(reason->text);
        for (std::size_t i = 0; i < jobs_.size(); ++i)
            if (const CsvCell* at = cell(row, value_ + i))
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
        const std::optional<double> typed = number(cell.text);
        const std::string unit = unit_text(job.sheet(), given);
        if (!typed) {
            fail(cell.span, fmt::format("`{}` of `{}` is no number", cell.text, given.name),
                 unit == "1" ? "write a number" : "write a number; it counts in " + unit);
            return std::nullopt;
        }
        if (std::fabs(*typed - was) <= unchanged * std::fabs(was))
            return std::nullopt;
        return written(*typed, unit);
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
    lang::Diagnostics& diagnostics_;
    BookJobs jobs_;
    std::size_t name_ = 0, value_ = 0, reason_ = 0;
    std::set<std::string> seen_;
    std::vector<ChangedGiven> changes_;
};

} // namespace

lang::Outcome<std::vector<ChangedGiven>>
changed_givens(const PricedJob& job, const std::vector<WorkbookQuestion::Option>& options,
               std::string name, std::string text) {
    auto sources = std::make_shared<lang::SourceMap>();
    const lang::FileId file = sources->add(std::move(name), std::move(text));
    const CsvTable table =
        read_csv(sources->file(file).text(), file, most_saved_rows, most_saved_columns);
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
        changes = SavedGivens(job, options, table, said.diagnostics).read();
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
