#include "engine/log/job_log.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <functional>
#include <set>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "engine/log/csv_table.h"
#include "lang/units/calendar.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::Code;

// "$1,234.50" → 1234.5; also "1,234.50", and "A$1,234.50" where the firm writes money so.
std::optional<double> number(std::string_view text) {
    std::string digits;
    const std::string& sign = lang::shown_money().sign;
    if (const std::size_t at = text.find(sign); at != std::string_view::npos)
        digits = std::string(text.substr(0, at)).append(text.substr(at + sign.size()));
    else
        digits = text;
    std::erase_if(digits, [](char c) { return c == ',' || c == ' '; });
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

class Reader {
  public:
    Reader(CsvTable table, const std::vector<CountedLine>& counted, lang::Diagnostics& diagnostics)
        : table_(std::move(table)),
          counted_(counted),
          diagnostics_(diagnostics) {}

    std::optional<JobLog> read() {
        if (!columns())
            return std::nullopt;
        for (std::size_t i = 1; i < table_.rows.size(); ++i)
            row(table_.rows[i]);
        meters();
        if (failed_)
            return std::nullopt;
        return std::move(log_);
    }

  private:
    struct Meter {
        std::string machine;
        double start, stop;
        lang::Span span;
    };
    CsvTable table_;
    const std::vector<CountedLine>& counted_;
    lang::Diagnostics& diagnostics_;
    JobLog log_;
    std::map<std::string, std::size_t> column_;                // by name
    std::vector<std::pair<std::string, std::size_t>> amounts_; // cost, column
    std::vector<Meter> meters_;
    bool failed_ = false;

    void error(Code code, std::string title, lang::Span span, std::string label,
               std::vector<lang::Help> helps = {}) {
        failed_ = true;
        diagnostics_.add(
            {code, std::move(title), {span, std::move(label)}, {}, {}, std::move(helps)});
    }

    // Columns of every log, and those of what this job counts.
    std::vector<std::string_view> known_columns() {
        std::vector<std::string_view> known = {"date",        "machine",    "operator",
                                               "meter_start", "meter_stop", "fuel_price",
                                               "down_hours",  "down_cause", "note"};
        for (const CountedLine& line : counted_)
            if (line.how == Counting::Fuel || line.how == Counting::Work)
                known.emplace_back(line.name);
        return known;
    }

    // The meter where hours of a machine count, and the work of the job's own model.
    void must_have() {
        std::vector<std::string> needed = {"date"};
        for (const CountedLine& line : counted_)
            if (line.how == Counting::Meter)
                needed.insert(needed.end(), {"meter_start", "meter_stop"});
            else if (line.how == Counting::Work && line.name.find('.') == std::string::npos)
                needed.push_back(line.name);
        std::set<std::string_view> told;
        for (const std::string& name : needed)
            if (!column_.contains(name) && told.insert(name).second)
                error(Code::J001, fmt::format("the log has no column `{}`", name),
                      table_.rows[0][0].span, "the first row must name it");
    }

    bool columns() {
        const std::vector<std::string_view> known = known_columns();
        const CsvRow& head = table_.rows[0];
        if (head.size() > max_log_columns) {
            error(Code::J001, fmt::format("the log has more than {} columns", max_log_columns),
                  head[max_log_columns].span, "one too many");
            return false;
        }
        for (std::size_t i = 0; i < head.size(); ++i) {
            const CsvCell& cell = head[i];
            constexpr std::string_view amount = "amount.";
            if (cell.text.starts_with(amount) && cell.text.size() > amount.size())
                amounts_.emplace_back(cell.text.substr(amount.size()), i);
            else if (std::find(known.begin(), known.end(), cell.text) == known.end())
                error(Code::J001, fmt::format("unknown column `{}` in the log", cell.text),
                      cell.span, "unknown",
                      {{"the columns are " + fmt::format("{}", fmt::join(known, ", ")) +
                            " and amount.NAME for money spent on a cost",
                        {}}});
            if (!column_.emplace(cell.text, i).second)
                error(Code::J001, fmt::format("the column `{}` appears twice", cell.text),
                      cell.span, "again");
        }
        must_have();
        for (const CountedLine& line : counted_) {
            const bool fuel = line.how == Counting::Fuel;
            if ((!fuel && line.how != Counting::Work) || !column_.contains(line.name))
                continue;
            log_.columns.insert(line.name);
            if (fuel)
                log_.fuels.insert(line.name);
        }
        return !failed_;
    }

    const CsvCell* cell(const CsvRow& row, const std::string& name) const {
        const auto it = column_.find(name);
        return it == column_.end() || it->second >= row.size() || row[it->second].text.empty()
                   ? nullptr
                   : &row[it->second];
    }
    std::string text(const CsvRow& row, const std::string& name) const {
        const CsvCell* found = cell(row, name);
        return found == nullptr ? std::string() : found->text;
    }
    double amount(const CsvCell* at, double low = 0) {
        if (at == nullptr)
            return 0;
        const std::optional<double> value = number(at->text);
        if (!value)
            error(Code::J002, "a number is needed here", at->span, "not a number");
        else if (*value < low)
            error(Code::J002, "a log cannot have negative figures", at->span, "below zero");
        else
            return *value;
        return 0;
    }

    void row(const CsvRow& cells) {
        if (cells.size() > table_.rows[0].size()) {
            error(Code::J002,
                  fmt::format("this row has {} cells, the first row names {}", cells.size(),
                              table_.rows[0].size()),
                  cells[table_.rows[0].size()].span, "extra",
                  {{"put text that contains a comma in double quotes", {}}});
            return;
        }
        LogRow row;
        row.date = text(cells, "date");
        if (!lang::day_number(row.date)) {
            const CsvCell* at = cell(cells, "date");
            error(Code::J003, row.date.empty() ? "this row has no date" : "no such date",
                  at != nullptr ? at->span : cells[0].span, "write it as 2027-03-14");
        }
        row.machine = text(cells, "machine");
        row.operator_name = text(cells, "operator");
        row.down_cause = text(cells, "down_cause");
        row.note = text(cells, "note");
        const CsvCell* start = cell(cells, "meter_start");
        const CsvCell* stop = cell(cells, "meter_stop");
        if ((start == nullptr) != (stop == nullptr)) {
            error(Code::J004, "a meter reading is missing", cells[0].span,
                  "give both readings, or none for a day without work");
        } else if (start != nullptr) {
            const double from = amount(start);
            const double to = amount(stop);
            row.hours = to - from;
            if (row.hours < 0)
                error(Code::J004, "the meter runs backward", stop->span,
                      fmt::format("started at {}", start->text));
            else if (row.hours > 24)
                error(Code::J004, fmt::format("{:.1f} meter hours in one day", row.hours),
                      stop->span, fmt::format("started at {}", start->text));
            else if (row.hours > 0)
                meters_.push_back({row.machine, from, to, start->span});
        }
        for (const std::string& column : log_.columns)
            if (const CsvCell* at = cell(cells, column); at != nullptr) {
                const double done = amount(at);
                row.counted[column] += done;
                row.fuel += log_.fuels.contains(column) ? done : 0;
            }
        row.fuel_price = amount(cell(cells, "fuel_price"));
        row.down_hours = amount(cell(cells, "down_hours"));
        for (const auto& [cost, column] : amounts_)
            if (column < cells.size() && !cells[column].text.empty())
                row.amounts[cost] += amount(&cells[column]);
        log_.rows.push_back(std::move(row));
    }

    // Hours counted twice are the commonest slip of a log kept by two shifts.
    void meters() {
        std::sort(meters_.begin(), meters_.end(), [](const Meter& a, const Meter& b) {
            return std::tie(a.machine, a.start) < std::tie(b.machine, b.start);
        });
        for (std::size_t i = 1; i < meters_.size(); ++i)
            if (meters_[i].machine == meters_[i - 1].machine &&
                meters_[i].start < meters_[i - 1].stop - 1e-9)
                error(Code::J004, "meter hours are counted twice", meters_[i].span,
                      fmt::format("another row runs to {}", meters_[i - 1].stop));
    }
};

// What stops the table from being one. None: it has a first row and others below.
std::optional<lang::Diagnostic> fault_of(const CsvTable& table, std::string_view text) {
    const auto fault = [&](std::string title, std::uint32_t at) {
        const auto end = static_cast<std::uint32_t>(text.size());
        const lang::Span span{table.end.file, std::min(at, end), std::min(at + 1, end)};
        return lang::Diagnostic{Code::J001, std::move(title), {span, ""}, {}, {}, {}};
    };
    if (table.too_many_rows)
        return fault(fmt::format("the log has more than {} rows", lang::number_text(max_log_rows)),
                     table.end.begin);
    if (!table.well_formed)
        return fault("the log is not valid CSV: a quote has no match", table.end.begin);
    if (table.rows.size() < 2)
        return fault("the log has no rows below its first line", 0);
    return std::nullopt;
}

} // namespace

lang::Outcome<JobLog> read_job_log(std::string name, std::string text,
                                   const std::vector<CountedLine>& counted) {
    auto sources = std::make_shared<lang::SourceMap>();
    const lang::FileId file = sources->add(std::move(name), std::move(text));
    const std::string_view read = sources->file(file).text();
    CsvTable table = read_csv(read, file, max_log_rows, max_log_columns);
    lang::Said said;
    if (auto fault = fault_of(table, read)) {
        said.diagnostics.add(std::move(*fault));
    } else {
        std::optional<JobLog> log = Reader(std::move(table), counted, said.diagnostics).read();
        if (log)
            return std::move(*log);
    }
    said.sources = std::move(sources);
    return said;
}

} // namespace acre::engine
