#include "engine/log/job_log.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <set>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "engine/log/csv_table.h"
#include "engine/log/log_cells.h"
#include "engine/log/log_heads.h"
#include "engine/log/row_work.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::Code;

class Reader {
  public:
    Reader(CsvTable table, bool semicolons, const std::vector<CountedLine>& counted,
           lang::Diagnostics& diagnostics)
        : table_(std::move(table)),
          semicolons_(semicolons),
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
        log_.column = std::move(column_);
        return std::move(log_);
    }

  private:
    struct Meter {
        std::string machine;
        double start, stop;
        lang::Span span;
    };
    CsvTable table_;
    bool semicolons_, american_ = false;
    const std::vector<CountedLine>& counted_;
    lang::Diagnostics& diagnostics_;
    JobLog log_;
    std::map<std::string, std::size_t, std::less<>> column_;   // by name
    std::vector<std::pair<std::string, std::size_t>> amounts_; // cost, column
    bool failed_ = false;

    void error(Code code, std::string title, lang::Span span, std::string label,
               std::vector<lang::Help> helps = {}) {
        failed_ = true;
        diagnostics_.add(
            {code, std::move(title), {span, std::move(label)}, {}, {}, std::move(helps)});
    }

    // At a cell: the title names its column.
    void wrong(Code code, const CsvRow& row, std::string_view head, const std::string& title,
               std::string label, std::vector<lang::Help> helps = {}) {
        const auto at = column_.find(head);
        const std::size_t column = at == column_.end() ? 0 : at->second;
        error(code, fmt::format("column `{}`: {}", table_.rows[0][column].text, title),
              row[std::min(column, row.size() - 1)].span, std::move(label), std::move(helps));
    }

    // The meter where hours of a machine count, and the work of the job's own model.
    void must_have() {
        std::vector<std::string> needed = {"date"};
        for (const CountedLine& line : counted_)
            if (line.how == Counting::Meter)
                needed.insert(needed.end(), {"meter_start", "meter_stop"});
            else if (line.how == Counting::Work && !line.optional &&
                     line.name.find('.') == std::string::npos)
                needed.push_back(line.name);
        std::set<std::string_view> told;
        for (const std::string& name : needed)
            if (!column_.contains(name) && told.insert(name).second)
                error(Code::J001, fmt::format("the log has no column `{}`", name),
                      table_.rows[0][0].span, "the first row must name it");
    }

    bool columns() {
        const std::vector<std::string_view> known = known_columns(counted_);
        const CsvRow& head = table_.rows[0];
        if (head.size() > max_log_columns) {
            error(Code::J001, fmt::format("the log has more than {} columns", max_log_columns),
                  head[max_log_columns].span, "one too many");
            return false;
        }
        for (std::size_t i = 0; i < head.size(); ++i) {
            const CsvCell& cell = head[i];
            if (cell.text.empty() && is_empty(i))
                continue;
            std::string name = head_name(cell.text, known);
            if (is_american_date(name)) {
                american_ = true;
                name = "date";
            } else if (const std::string_view cost = cost_of_head(name); !cost.empty())
                amounts_.emplace_back(cost, i);
            else if (cell.text.empty())
                error(Code::J001, "a column of the log has no name", cell.span, "no name");
            else if (std::find(known.begin(), known.end(), name) == known.end())
                error(Code::J001, fmt::format("unknown column `{}` in the log", cell.text),
                      cell.span, "unknown",
                      {{"the columns are " + fmt::format("{}", fmt::join(known, ", ")) +
                            " and amount.NAME for money spent on a cost",
                        {}}});
            if (!column_.emplace(std::move(name), i).second)
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

    // Spreadsheets write columns in which nothing ever stood.
    bool is_empty(std::size_t column) const {
        return std::all_of(
            table_.rows.begin(), table_.rows.end(),
            [&](const CsvRow& row) { return column >= row.size() || row[column].text.empty(); });
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
    // Of a column of figures; 0 where it is empty, NaN where it cannot be read: nothing is said of
    // what it would mean.
    double amount(const CsvRow& cells, const std::string& head) {
        const CsvCell* at = cell(cells, head);
        if (at == nullptr)
            return 0;
        const std::optional<double> value = figure_in(at->text, semicolons_);
        if (value && *value >= 0)
            return *value;
        std::vector<lang::Help> helps;
        if (!value && at->text.find(',') != std::string::npos)
            helps.push_back({semicolons_ ? "between semicolons or tabs write no comma: 8412.3, 1200"
                                         : "a comma parts thousands; write decimals with a point",
                             {}});
        wrong(Code::J002, cells, head,
              value ? "a log cannot have negative figures" : "a number is needed here",
              value ? "below zero" : "not a number", std::move(helps));
        return std::numeric_limits<double>::quiet_NaN();
    }

    bool has_all_cells(const CsvRow& cells) {
        const std::size_t wanted = table_.rows[0].size();
        if (cells.size() == wanted)
            return true;
        const bool more = cells.size() > wanted;
        error(Code::J002,
              fmt::format("this row has {} cells, the first row names {}", cells.size(), wanted),
              cells[more ? wanted : cells.size() - 1].span, more ? "extra" : "the last one",
              {{more ? "put text that contains a comma in double quotes"
                     : "a cell that is not known stays empty, with its comma",
                {}}});
        return false;
    }

    void day(const CsvRow& cells, LogRow& row) {
        const CsvCell* at = cell(cells, "date");
        const std::optional<std::string> date =
            at == nullptr ? std::nullopt : day_in(at->text, american_);
        if (date)
            row.date = *date;
        else
            wrong(Code::J003, cells, "date",
                  at == nullptr ? "this row has no date" : "no such date",
                  american_ ? "write it as 3/14/2027" : "write it as 2027-03-14",
                  !american_ && at != nullptr && at->text.find('/') != std::string::npos
                      ? std::vector<lang::Help>{{"call the column  date mm/dd/yyyy  and dates are "
                                                 "read as Americans write them",
                                                 {}}}
                      : std::vector<lang::Help>{});
    }

    void meter(const CsvRow& cells, LogRow& row) {
        const CsvCell* start = cell(cells, "meter_start");
        const CsvCell* stop = cell(cells, "meter_stop");
        if ((start == nullptr) != (stop == nullptr)) {
            wrong(Code::J004, cells, start == nullptr ? "meter_start" : "meter_stop",
                  "a meter reading is missing",
                  "give both readings, or none for a day without work");
        } else if (start != nullptr) {
            row.has_meter = true;
            row.meter_start = amount(cells, "meter_start");
            row.meter_stop = amount(cells, "meter_stop");
            row.hours = row.meter_stop - row.meter_start;
            if (row.hours < 0)
                wrong(Code::J004, cells, "meter_stop", "the meter runs backward",
                      fmt::format("started at {}", start->text));
            else if (row.hours > 24)
                wrong(Code::J004, cells, "meter_stop",
                      fmt::format("{:.1f} meter hours in one day", row.hours),
                      fmt::format("started at {}", start->text));
        }
    }

    // What belongs together is there whole, or not at all.
    void standing_still(const CsvRow& cells, LogRow& row) {
        row.down_hours = amount(cells, "down_hours");
        row.down_cause = text(cells, "down_cause");
        row.refused_at = text(cells, "refused_at");
        row.hourly_hours = amount(cells, "hourly_hours");
        const std::string waited = plain_word(text(cells, "crew_waited"));
        row.crew_waited = waited == "yes";
        if (!waited.empty() && waited != "yes" && waited != "no")
            wrong(Code::J002, cells, "crew_waited", "write yes or no", "neither");
        if (row.down_hours > 24)
            wrong(Code::J002, cells, "down_hours", "a day has 24 hours", "more than a day");
        if (!row.down_cause.empty() && cell(cells, "down_hours") == nullptr)
            wrong(Code::J002, cells, column_.contains("down_hours") ? "down_hours" : "down_cause",
                  "a cause without its hours", "how many hours was it down?");
        if (row.crew_waited && row.down_hours <= 0)
            wrong(Code::J002, cells, "crew_waited", "the crew waited, but no hours are down",
                  "give the hours and their cause");
        if (row.hourly_hours > 0 && row.refused_at.empty())
            wrong(Code::J002, cells, "hourly_hours", "hours by the hour without the place",
                  "say in `refused_at` where the ground refused the shank");
        if (row.hourly_hours > std::max(row.hours, 0.0) + 1e-9)
            wrong(Code::J002, cells, "hourly_hours", "more hours by the hour than on the meter",
                  fmt::format("the meter ran {:.1f} h", row.hours));
    }

    void money(const CsvRow& cells, LogRow& row) {
        row.fuel_price = amount(cells, "fuel_price");
        if (row.fuel_price <= 0 && cell(cells, "fuel_price") != nullptr)
            wrong(Code::J002, cells, "fuel_price", "fuel at no price",
                  "leave it empty where it is not known");
        for (const auto& [cost, column] : amounts_) {
            if (cells[column].text.empty())
                continue;
            row.amounts[cost] += amount(cells, "amount." + cost);
        }
    }

    void row(const CsvRow& cells) {
        if (!has_all_cells(cells))
            return;
        LogRow row;
        row.machine = text(cells, "machine");
        row.operator_name = text(cells, "operator");
        row.permit = text(cells, "permit");
        row.invoice = text(cells, "invoice");
        row.note = text(cells, "note");
        day(cells, row);
        meter(cells, row);
        for (const std::string& column : log_.columns)
            if (cell(cells, column) != nullptr) {
                const double done = amount(cells, column);
                row.counted[column] += done;
                row.fuel += log_.fuels.contains(column) ? done : 0;
            }
        standing_still(cells, row);
        money(cells, row);
        for (const CsvCell& one : cells)
            row.cells.push_back(one.span);
        log_.rows.push_back(std::move(row));
    }

    // Hours counted twice are the commonest slip of a log kept by two shifts.
    void meters() {
        const MeterNames names(log_.rows, counted_);
        std::vector<Meter> meters;
        for (const LogRow& row : log_.rows)
            if (row.hours > 0 && row.hours <= 24)
                meters.push_back({names.of(row), row.meter_start, row.meter_stop,
                                  row.cells[column_.find("meter_start")->second]});
        std::ranges::stable_sort(meters, {},
                                 [](const Meter& one) { return std::tie(one.machine, one.start); });
        for (std::size_t i = 1; i < meters.size(); ++i)
            if (meters[i].machine == meters[i - 1].machine &&
                meters[i].start < meters[i - 1].stop - 1e-9)
                error(Code::J004, "column `meter_start`: meter hours are counted twice",
                      meters[i].span, fmt::format("another row runs to {}", meters[i - 1].stop));
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
    const char between = between_cells(read);
    CsvTable table = read_csv(read, file, max_log_rows, max_log_columns, between);
    lang::Said said;
    if (auto fault = fault_of(table, read)) {
        said.diagnostics.add(std::move(*fault));
    } else {
        std::optional<JobLog> log =
            Reader(std::move(table), between != ',', counted, said.diagnostics).read();
        if (log) {
            assign_rows(*log, counted);
            log->sources = sources;
            return std::move(*log);
        }
    }
    said.sources = std::move(sources);
    return said;
}

} // namespace acre::engine
