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
        if (row.hours > 0 || row.acres > 0)
            dates.insert(row.date);
        sum.hours += row.hours;
        sum.acres += row.acres;
        sum.gallons += row.gallons;
        if (row.fuel_price > 0) {
            priced += row.gallons * row.fuel_price;
            gallons_priced += row.gallons;
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

Learned learned_ratio(const JobLog& log, double LogRow::*over, double LogRow::*under) {
    std::map<std::string_view, std::pair<double, double>> days;
    for (const LogRow& row : log.rows) {
        days[row.date].first += row.*over;
        days[row.date].second += row.*under;
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
