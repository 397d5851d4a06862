#include "engine/learning/measures.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <string>

#include "lang/units/calendar.h"

namespace acre::engine {
namespace {

constexpr double error_of_one_day = 0.10, least_error = 0.005;

// Of the days that have the figure: the hours of a day on which nobody wrote it down tell nothing.
Measure by_the_hour(const JobLog& log, const std::string& column) {
    Measure measure;
    const Learned learned = learned_per_hour(log, column);
    if (!(learned.value > 0))
        return measure;
    measure.known = true;
    measure.value = learned.value;
    measure.error = learned.days > 1 ? std::max(learned.standard_error / learned.value, least_error)
                                     : error_of_one_day;
    measure.hours = learned.hours;
    return measure;
}

// Of machines of several kinds, which work one after the other: all that was done in all their
// hours, known as well as so many days are. Where one of them has no row, its hours are not known.
Measure by_all_hours(const JobLog& log, const LogTotals& sums, const JobReadings& readings,
                     const std::string& column) {
    Measure measure;
    const auto done = sums.counted.find(column);
    if (done == sums.counted.end() || !(done->second > 0) || !(sums.hours > 0))
        return measure;
    if (log.fuels.contains(column) && sums.unlogged.contains(column))
        return measure;
    for (const std::string& machine : readings.machines)
        if (!hours_of(sums, machine))
            return measure;
    measure.known = true;
    measure.value = done->second * filled(sums, column) / sums.hours;
    measure.error =
        error_of_one_day / std::sqrt(static_cast<double>(std::max<std::size_t>(sums.days, 1)));
    measure.hours = sums.hours;
    return measure;
}

Measure plain(double value) {
    Measure measure;
    measure.known = value > 0;
    measure.value = value;
    measure.error = least_error;
    return measure;
}

// The first day and the last have work by themselves; what is between them can be lost.
Measure days(const JobLog& log, const WorkCalendar& calendar) {
    std::set<long> worked;
    for (const LogRow& row : log.rows)
        if (row.hours > 0)
            if (const std::optional<long> day = lang::day_number(row.date))
                worked.insert(*day);
    Measure measure;
    constexpr long longest = 400; // of one job; more is a slip in a date
    if (worked.size() < 2 || *worked.rbegin() - *worked.begin() > longest)
        return measure;
    for (long day = *worked.begin() + 1; day < *worked.rbegin(); ++day) {
        const bool here = worked.contains(day);
        if (!here && !calendar.is_open(day))
            continue;
        ++measure.trials;
        measure.count += here ? 0 : 1;
    }
    measure.known = measure.trials > 0;
    if (measure.known)
        measure.value = 100 * (1 - measure.count / measure.trials);
    return measure;
}

// "Broken shank", "broken_shank" and "broken shanks" are one cause.
std::string plainly(std::string_view text) {
    std::string plain;
    for (const char c : text)
        plain += c == '_' || c == '-'
                     ? ' '
                     : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (plain.ends_with('s'))
        plain.pop_back();
    return plain;
}

Measure breaks(const JobLog& log, const LogTotals& totals, const Reading& reading) {
    Measure measure;
    for (const LogRow& row : log.rows)
        if (!row.down_cause.empty() && (plainly(row.down_cause) == plainly(reading.name) ||
                                        plainly(row.down_cause) == plainly(reading.label)))
            ++measure.count;
    measure.hours = totals.hours;
    measure.known = totals.hours > 0;
    measure.value = measure.known ? measure.count / totals.hours : 0;
    return measure;
}

} // namespace

std::vector<Measure> measures_of(const JobLog& log, const JobReadings& readings,
                                 const WorkCalendar& calendar) {
    const LogTotals sums = totals(log);
    std::vector<Measure> measures;
    for (const Reading& reading : readings.readings) {
        switch (reading.tells) {
        case Tells::Pace:
        case Tells::Burn:
            measures.push_back(readings.machines.size() < 2
                                   ? by_the_hour(log, reading.name)
                                   : by_all_hours(log, sums, readings, reading.name));
            break;
        case Tells::FuelPrice:
            measures.push_back(plain(sums.fuel_price));
            break;
        case Tells::Hours: {
            const auto done = sums.counted.find(reading.name);
            measures.push_back(plain(done == sums.counted.end() ? 0 : done->second));
            break;
        }
        case Tells::Money: {
            const auto spent = sums.amounts.find(reading.name);
            Measure& measure = measures.emplace_back();
            measure.known = spent != sums.amounts.end() && sums.hours > 0;
            measure.hours = sums.hours;
            measure.value = measure.known ? spent->second / sums.hours : 0;
            break;
        }
        case Tells::Days:
            measures.push_back(days(log, calendar));
            break;
        case Tells::Breaks:
            measures.push_back(breaks(log, sums, reading));
            break;
        }
    }
    return measures;
}

} // namespace acre::engine
