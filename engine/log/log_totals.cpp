#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>
#include <utility>

#include "engine/log/job_log.h"
#include "engine/log/log_cells.h"
#include "engine/log/row_work.h"
#include "lang/units/calendar.h"

namespace acre::engine {

lang::Span JobLog::place(const LogRow& row, std::string_view head) const {
    const auto at = column.find(head);
    const std::size_t index = at == column.end() ? 0 : at->second;
    return index < row.cells.size() ? row.cells[index] : lang::Span{lang::no_file, 0, 0};
}

std::uint32_t JobLog::line(const LogRow& row) const {
    if (row.cells.empty() || !sources)
        return 0;
    return sources->file(row.cells[0].file).position(row.cells[0].begin).line;
}

namespace {

// Fuel alone makes no day of work: it may be taken the evening before.
bool has_work(const JobLog& log, const LogRow& row) {
    return row.hours > 0 ||
           std::any_of(
               row.counted.begin(), row.counted.end(),
               [&](auto& done) { return done.second > 0 && !log.fuels.contains(done.first); });
}

// Days on which the meter ran and no row has a figure in the column.
Unlogged unlogged(const JobLog& log, const std::string& column) {
    std::map<std::string_view, std::pair<double, bool>> days;
    for (const LogRow& row : log.rows) {
        days[row.date].first += hours_for(log, row, column);
        days[row.date].second |= row.counted.contains(column);
    }
    Unlogged left;
    for (const auto& [date, day] : days)
        if (day.first > 1e-9 && !day.second) {
            ++left.days;
            left.hours += day.first;
        } else
            left.told += day.first;
    return left;
}

} // namespace

MeterNames::MeterNames(const std::vector<LogRow>& rows, const std::vector<CountedLine>& counted) {
    for (const CountedLine& line : counted)
        if (line.how == Counting::Meter)
            machines_.insert(line.machine);
    std::set<std::string> names;
    for (const LogRow& row : rows)
        if (!row.machine.empty())
            names.insert(of(row.machine));
    if (names.size() == 1 && machines_.size() <= 1)
        only_ = *names.begin();
}

std::string MeterNames::of(const LogRow& row) const {
    return row.machine.empty() ? only_ : of(row.machine);
}

std::string MeterNames::of(const std::string& name) const {
    const auto is_named = [&](const std::string& machine) { return names_machine(name, machine); };
    return std::count_if(machines_.begin(), machines_.end(), is_named) == 1
               ? plain_word(*std::find_if(machines_.begin(), machines_.end(), is_named))
               : plain_word(name);
}

LogTotals totals(const JobLog& log) {
    LogTotals sum;
    std::set<std::string> dates;
    double priced = 0;
    double gallons_priced = 0;
    for (const LogRow& row : log.rows) {
        if (has_work(log, row))
            dates.insert(row.date);
        sum.hours += row.hours;
        sum.hourly += row.hourly_hours;
        sum.waited += row.crew_waited ? row.down_hours : 0;
        const std::string& machine = row.of.empty() ? row.machine : row.of;
        sum.machine_hours[machine] += row.hours;
        if (row.fuel > 0)
            sum.machine_fuel[machine] += row.fuel;
        sum.of_no_service += log.several_services && row.services.empty() ? row.hours : 0;
        for (const auto& [column, done] : row.counted)
            sum.counted[column] += done;
        if (row.fuel_price > 0) {
            priced += row.fuel * row.fuel_price;
            gallons_priced += row.fuel;
        }
        for (const auto& [cost, amount] : row.amounts)
            sum.amounts[cost] += amount;
        if (row.down_hours > 0)
            sum.down[row.down_cause.empty() ? "not said" : row.down_cause] += row.down_hours;
    }
    for (const std::string& column : log.columns)
        if (const Unlogged left = unlogged(log, column); left.days > 0)
            sum.unlogged[column] = left;
    sum.days = dates.size();
    if (!dates.empty()) {
        sum.first = *dates.begin();
        sum.last = *dates.rbegin();
        sum.calendar_days = static_cast<std::size_t>(*lang::day_number(sum.last) -
                                                     *lang::day_number(sum.first) + 1);
    }
    sum.fuel_price = gallons_priced > 0 ? priced / gallons_priced : 0;
    return sum;
}

double filled(const LogTotals& totals, const std::string& column) {
    const auto left = totals.unlogged.find(column);
    if (left == totals.unlogged.end() || !(left->second.told > 1e-9))
        return 1; // what sums of a meter are off by is no hour
    return (left->second.told + left->second.hours) / left->second.told;
}

bool names_machine(const std::string& name, const std::string& machine) {
    const std::string word = plain_word(name);
    return word == plain_word(machine) || word == plain_word(machine.substr(0, machine.find('.')));
}

std::optional<double> hours_of(const LogTotals& totals, const std::string& machine) {
    std::optional<double> hours;
    for (const auto& [name, run] : totals.machine_hours)
        if (names_machine(name, machine))
            hours = hours.value_or(0) + run;
    return hours;
}

std::map<std::string, double> meter_hours(const LogTotals& totals,
                                          const std::vector<CountedLine>& counted) {
    std::map<std::string, double> hours, quoted;
    for (const CountedLine& line : counted)
        if (line.how == Counting::Meter) {
            quoted[line.machine] += line.quoted;
            hours[line.machine] = 0;
        }
    const auto share_out = [&](double run, const std::map<std::string, double>& among) {
        double expected = 0;
        for (const auto& one : among)
            expected += one.second;
        for (const auto& [machine, own] : among)
            if (among.size() == 1 || expected > 0)
                hours[machine] += among.size() == 1 ? run : run * own / expected;
    };
    double left = 0;
    std::map<std::string, double> heirs = quoted;
    std::erase_if(heirs, [](const auto& one) { return !(one.second > 0); });
    for (const auto& [name, run] : totals.machine_hours) {
        std::map<std::string, double> meant = quoted; // an entry may have several machines
        std::erase_if(meant,
                      [&, &name = name](auto& one) { return !names_machine(name, one.first); });
        for (const auto& one : meant)
            heirs.erase(one.first);
        if (meant.empty())
            left += run;
        else
            share_out(run, meant);
    }
    share_out(left, heirs.empty() ? quoted : heirs);
    return hours;
}

Learned learned_per_hour(const JobLog& log, const std::string& column) {
    std::map<std::string_view, std::pair<double, double>> days;
    std::set<std::string_view> told;
    for (const LogRow& row : log.rows) {
        const auto done = row.counted.find(column);
        days[row.date].first += done == row.counted.end() ? 0 : done->second;
        days[row.date].second += hours_for(log, row, column);
        if (done != row.counted.end())
            told.insert(row.date);
    }
    std::erase_if(days, [&](const auto& day) { return !told.contains(day.first); });
    double above = 0;
    double below = 0;
    Learned learned;
    for (const auto& [date, day] : days)
        if (day.second > 1e-9) {
            above += day.first;
            below += day.second;
            ++learned.days;
        }
    if (learned.days == 0)
        return learned;
    learned.value = above / below;
    learned.hours = below;
    if (learned.days > 1) {
        double squares = 0;
        for (const auto& [date, day] : days)
            if (day.second > 1e-9)
                squares += std::pow(day.first - learned.value * day.second, 2);
        const auto n = static_cast<double>(learned.days);
        learned.standard_error = std::sqrt(squares / (n * (n - 1))) / (below / n);
    }
    return learned;
}

} // namespace acre::engine
