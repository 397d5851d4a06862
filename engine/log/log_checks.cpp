#include "engine/log/log_checks.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "engine/log/log_cells.h"
#include "engine/log/other_readings.h"
#include "engine/log/row_work.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr double many_times = 3;   // a figure of a day, over or under what was quoted
constexpr double off_price = 0.25; // of the diesel that the quote reckons with
constexpr double most_over = 1.1;  // of the work quoted
constexpr double gap_hours = 1;    // of a meter between rows
constexpr long days_around = 21;   // of the days planned
constexpr long days_after_quote = 730;

class Checks {
  public:
    Checks(const JobLog& log, const LogContext& context)
        : log_(log),
          context_(context),
          names_(log.rows, context.counted) {
        for (const MeterReading& one : context.others)
            others_[names_.of(one.machine)].add(one);
        for (auto& [machine, readings] : others_)
            readings.sort();
        for (const LogRow& row : log.rows)
            for (const auto& [column, done] : row.counted)
                told_[column].insert(row.date);
    }

    lang::Diagnostics all() {
        days();
        meters();
        strangers();
        for (const LogRow& row : log_.rows) {
            dates(row);
            prices(row);
            empty_cells(row);
        }
        for (const CountedLine& line : context_.counted)
            if (line.how == Counting::Work || line.how == Counting::Fuel)
                pace(line);
        totals_of_work();
        invoices();
        told_twice();
        fuel_money();
        return std::move(said_);
    }

  private:
    const JobLog& log_;
    const LogContext& context_;
    MeterNames names_;
    lang::Diagnostics said_;
    std::map<std::string, OfOneMeter> others_;               // by machine
    std::map<std::string, std::set<std::string_view>> told_; // days with a figure, by column

    void doubt(const LogRow& row, std::string_view head, const std::string& what,
               std::string label = {}) {
        said_.add({lang::Code::L837,
                   fmt::format("row {}, column `{}`: {}", log_.line(row), head, what),
                   {log_.place(row, head), std::move(label)},
                   {},
                   {},
                   {}});
    }

    // Hours worked and down, of one machine on one date.
    void days() {
        std::map<std::pair<std::string, std::string>, double> hours;
        for (const LogRow& row : log_.rows) {
            double& sum = hours[{row.date, names_.of(row)}];
            const double before = sum;
            sum += row.hours + row.down_hours;
            if (sum > 24 + 1e-9 && before <= 24 + 1e-9)
                doubt(row, row.down_hours > 0 ? "down_hours" : "meter_stop",
                      fmt::format("{} hours of work and down time on one day",
                                  lang::fixed_text(sum, 1)),
                      "more than 24");
        }
    }

    void meters() {
        std::vector<const LogRow*> rows;
        for (const LogRow& row : log_.rows)
            if (row.has_meter && row.hours > 0)
                rows.push_back(&row);
        std::stable_sort(rows.begin(), rows.end(), [&](const LogRow* a, const LogRow* b) {
            return std::pair(names_.of(*a), a->meter_start) <
                   std::pair(names_.of(*b), b->meter_start);
        });
        for (std::size_t i = 1; i < rows.size(); ++i) {
            const LogRow &before = *rows[i - 1], &row = *rows[i];
            if (names_.of(row) != names_.of(before))
                continue;
            if (row.meter_start > before.meter_stop + gap_hours)
                doubt(row, "meter_start",
                      fmt::format("the meter ran {} h since row {}, and no row has them",
                                  lang::fixed_text(row.meter_start - before.meter_stop, 1),
                                  log_.line(before)));
            if (row.date < before.date)
                doubt(row, "date",
                      fmt::format("an earlier day than that of row {}, with a later "
                                  "meter",
                                  log_.line(before)));
        }
        for (const LogRow* row : rows)
            against_others(*row);
    }

    // Where the log names every machine of the quote, a row of none of them is a slip of the pen,
    // or of a machine whose hours are not the quote's: of several kinds one named is enough. A row
    // without a name is of the only one.
    void strangers() {
        std::set<std::string> machines;
        for (const CountedLine& line : context_.counted)
            if (line.how == Counting::Meter)
                machines.insert(line.machine);
        const LogTotals sum = totals(log_);
        const auto named =
            std::count_if(machines.begin(), machines.end(),
                          [&](const std::string& one) { return hours_of(sum, one).has_value(); });
        const auto all = static_cast<std::ptrdiff_t>(machines.size());
        if (named == 0 || (named < all && !counts_several_kinds(context_.counted)))
            return;
        std::string known;
        for (const std::string& one : machines)
            known += (known.empty() ? "" : ", ") + one.substr(0, one.find('.'));
        for (const LogRow& row : log_.rows)
            if (row.hours > 0 && (machines.size() > 1 || !row.machine.empty()) &&
                std::none_of(machines.begin(), machines.end(),
                             [&](const std::string& one) { return names_machine(row.of, one); }))
                doubt(row, "machine",
                      row.machine.empty()
                          ? "the quote counts several machines, and none is named: " + known
                          : fmt::format("the quote has no machine `{}`: {}", row.machine, known),
                      machines.size() == 1 ? "its hours are taken for the quote's machine"
                                           : "its hours are shared among them");
    }

    // The same meter in other logs: no hour twice, and later days have higher readings.
    void against_others(const LogRow& row) {
        const auto known = others_.find(names_.of(row));
        if (known == others_.end())
            return;
        const MeterReading* before = known->second.before(row.date, row.meter_start);
        const MeterReading* after = known->second.after(row.date, row.meter_stop);
        const MeterReading* there = known->second.over(row.meter_start, row.meter_stop);
        const MeterReading* other = there != nullptr ? there : before != nullptr ? before : after;
        if (other != nullptr)
            doubt(row, "meter_start",
                  fmt::format("{} in the log of quote {}, {}",
                              there != nullptr ? "these meter hours are also"
                                               : "the meter does not go with its readings",
                              other->quote, lang::day_text(other->date)),
                  fmt::format("{} to {} there", other->start, other->stop));
    }

    void dates(const LogRow& row) {
        const auto day = lang::day_number(row.date);
        const auto issued = lang::day_number(context_.issued);
        const auto start = lang::day_number(context_.start);
        const auto finish = lang::day_number(context_.finish);
        if (!day)
            return;
        if (issued && *day < *issued)
            doubt(row, "date",
                  fmt::format("before the quote was issued, {}", lang::day_text(context_.issued)));
        else if (issued && *day > *issued + days_after_quote)
            doubt(row, "date", "more than two years after the quote was issued");
        else if (start && *day < *start - days_around)
            doubt(row, "date",
                  fmt::format("long before the first day planned, {}",
                              lang::day_text(context_.start)));
        else if (finish && *day > *finish + days_around)
            doubt(row, "date",
                  fmt::format("long after the last day planned, {}",
                              lang::day_text(context_.finish)));
    }

    void prices(const LogRow& row) {
        const double quoted = context_.fuel_price;
        if (row.fuel_price > 0 && quoted > 0 &&
            std::abs(row.fuel_price - quoted) > off_price * quoted)
            doubt(row, "fuel_price",
                  fmt::format("fuel at {} a gallon; the quote reckons {}",
                              lang::money_text(row.fuel_price), lang::money_text(quoted)));
        for (const std::string& fuel : log_.fuels) {
            const auto taken = row.counted.find(fuel);
            if (row.fuel_price > 0 && taken == row.counted.end())
                doubt(row, "fuel_price", fmt::format("a price of fuel, and `{}` is empty", fuel));
        }
        if (row.down_hours > 0 && row.down_cause.empty())
            doubt(row, "down_hours", "hours down without a cause");
        if (row.hourly_hours > 0)
            for (const auto& [name, done] : row.counted)
                if (done > 0 && !log_.fuels.contains(name))
                    doubt(
                        row, "hourly_hours",
                        fmt::format("hours by the hour and `{}` in one row: both are billed", name),
                        "make two rows of it");
    }

    void empty_cells(const LogRow& row) {
        for (const std::string& column : log_.columns) {
            const double hours = row.hours - (log_.fuels.contains(column) ? 0 : row.hourly_hours);
            if (!(hours > 1e-9))
                continue;
            const auto is_optional = [&](const CountedLine& line) {
                return line.name == column &&
                       (line.optional || line.name.find('.') != std::string::npos);
            };
            if (row.counted.contains(column) ||
                std::any_of(context_.counted.begin(), context_.counted.end(), is_optional))
                continue;
            if (is_of_other_work(log_, row, column))
                continue;
            const auto told = told_.find(column);
            if (told == told_.end() || !told->second.contains(row.date))
                doubt(
                    row, column,
                    fmt::format("the meter ran {} h and this is empty", lang::fixed_text(hours, 1)),
                    "not known; write 0 for none");
        }
    }

    // A figure of a row far from what the quote expects of its hours: a digit too many or too few.
    void pace(const CountedLine& line) {
        const double hours = quoted_hours(context_.counted, line);
        if (!(hours > 0) || !(line.quoted > 0) || line.optional)
            return;
        for (const LogRow& row : log_.rows) {
            const auto done = row.counted.find(line.name);
            const double expected = row.hours * line.quoted / hours;
            if (done == row.counted.end() || row.hours < 2 || !(done->second > 0))
                continue;
            if (done->second > many_times * expected || done->second < expected / many_times)
                doubt(row, line.name,
                      fmt::format("{} in {} h; the quote expects about {}",
                                  lang::quantity_text(done->second, line.unit),
                                  lang::fixed_text(row.hours, 1),
                                  lang::quantity_text(expected, line.unit)));
        }
    }

    void totals_of_work() {
        const LogTotals sum = totals(log_);
        for (const CountedLine& line : context_.counted) {
            const auto done = sum.counted.find(line.name);
            if (line.how != Counting::Work || line.optional || done == sum.counted.end() ||
                !(line.quoted > 0) || log_.rows.empty())
                continue;
            if (done->second > most_over * line.quoted)
                doubt(log_.rows.back(), line.name,
                      fmt::format("the log comes to {}, the quote to {}",
                                  lang::quantity_text(done->second, line.unit),
                                  lang::quantity_text(line.quoted, line.unit)));
        }
    }

    void invoices() {
        std::map<std::string, const LogRow*> seen;
        for (const LogRow& row : log_.rows) {
            if (row.invoice.empty() || row.amounts.empty())
                continue;
            const auto [before, first] = seen.emplace(plain_word(row.invoice), &row);
            if (!first && before->second->amounts == row.amounts)
                doubt(row, "invoice",
                      fmt::format("invoice `{}` with the same money as in row {}", row.invoice,
                                  log_.line(*before->second)));
        }
    }

    // A row without a meter that says the same as another: nothing else would show it.
    void told_twice() {
        using What = std::tuple<std::string, std::string, std::string, double, std::string,
                                std::map<std::string, double>, std::map<std::string, double>>;
        std::map<What, const LogRow*> seen;
        for (const LogRow& row : log_.rows) {
            if (row.hours > 0 || !row.invoice.empty() ||
                (row.down_hours <= 0 && row.counted.empty() && row.amounts.empty()))
                continue;
            const auto [before, first] =
                seen.emplace(What{row.date, names_.of(row), row.operator_name, row.down_hours,
                                  plain_word(row.down_cause), row.counted, row.amounts},
                             &row);
            if (!first)
                doubt(row, "date",
                      fmt::format("says the same as row {}", log_.line(*before->second)),
                      "is it told twice?");
        }
    }

    // Money for fuel is all that the fuel cost: some of its invoices are not. A day without a price
    // is at the mean of the others.
    void fuel_money() {
        double fuel = 0, spent = 0;
        const LogRow* last = nullptr;
        for (const LogRow& row : log_.rows) {
            fuel += row.fuel;
            const auto money = row.amounts.find(context_.fuel_cost);
            spent += money == row.amounts.end() ? 0 : money->second;
            last = money == row.amounts.end() ? last : &row;
        }
        const double at_price = fuel * totals(log_).fuel_price;
        if (last != nullptr && at_price > 0 && std::abs(spent - at_price) > off_price * at_price)
            doubt(*last, "amount." + context_.fuel_cost,
                  fmt::format("the column comes to {}, the fuel at its price to {}",
                              lang::money_text(spent), lang::money_text(at_price)),
                  "the column counts, not the price");
    }
};

} // namespace

lang::Diagnostics check_log(const JobLog& log, const LogContext& context) {
    return Checks(log, context).all();
}

std::vector<LogContext::Reading> readings_of(const JobLog& log, const std::string& quote) {
    std::vector<LogContext::Reading> all;
    for (const LogRow& row : log.rows)
        if (row.has_meter && row.hours > 0)
            all.push_back({quote, row.machine, row.date, row.meter_start, row.meter_stop});
    return all;
}

} // namespace acre::engine
