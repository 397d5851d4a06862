#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>
#include <utility>

#include "engine/log/job_log.h"

namespace acre::engine {

LogTotals totals(const JobLog& log) {
    LogTotals sum;
    std::set<std::string_view> dates;
    double priced = 0;
    double gallons_priced = 0;
    for (const LogRow& row : log.rows) {
        // Fuel alone makes no day of work: it may be taken the evening before.
        if (row.hours > 0 || std::any_of(row.counted.begin(), row.counted.end(), [&](auto& done) {
                return done.second > 0 && !log.fuels.contains(done.first);
            }))
            dates.insert(row.date);
        sum.hours += row.hours;
        sum.machine_hours[row.machine] += row.hours;
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
    sum.days = dates.size();
    sum.fuel_price = gallons_priced > 0 ? priced / gallons_priced : 0;
    return sum;
}

Learned learned_per_hour(const JobLog& log, const std::string& column) {
    std::map<std::string_view, std::pair<double, double>> days;
    for (const LogRow& row : log.rows) {
        const auto done = row.counted.find(column);
        days[row.date].first += done == row.counted.end() ? 0 : done->second;
        days[row.date].second += row.hours;
    }
    double above = 0;
    double below = 0;
    Learned learned;
    for (const auto& [date, day] : days)
        if (day.second > 0) {
            above += day.first;
            below += day.second;
            ++learned.days;
        }
    if (learned.days == 0)
        return learned;
    learned.value = above / below;
    if (learned.days > 1) {
        double squares = 0;
        for (const auto& [date, day] : days)
            if (day.second > 0)
                squares += std::pow(day.first - learned.value * day.second, 2);
        const auto n = static_cast<double>(learned.days);
        learned.standard_error = std::sqrt(squares / (n * (n - 1))) / (below / n);
    }
    return learned;
}

} // namespace acre::engine
