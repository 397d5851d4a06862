#include "engine/questions/variance.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace acre::engine {
namespace {

// The parts of the job that are done by the machine of the log: those with a cost over all its
// hours. The hours of a truck in the move are no hours of the machine.
std::set<std::string> machine_parts(const Quoted& quoted) {
    std::set<std::string> parts;
    for (const QuotedCost& cost : quoted.costs)
        if (cost.quantity_unit == "h" &&
            std::abs(cost.quantity - quoted.hours) <= 1e-9 * quoted.hours)
            parts.insert(cost.part);
    return parts;
}

QuantityFrom source_of(const QuotedCost& cost, const std::set<std::string>& parts,
                       const Quoted& quoted, const LogTotals& log, bool has_gallons) {
    const std::string& unit = cost.quantity_unit;
    if (unit == "h" && quoted.hours > 0 && parts.contains(cost.part))
        return QuantityFrom::LogHours;
    if (unit == "ac" && quoted.acres > 0)
        return QuantityFrom::LogAcres;
    if (unit == "gal" && has_gallons)
        return QuantityFrom::LogGallons;
    if (unit == "day" && log.days > 0)
        return QuantityFrom::LogDays;
    return QuantityFrom::Quote;
}

double actual_quantity(const QuotedCost& cost, QuantityFrom from, const Quoted& quoted,
                       const LogTotals& log) {
    switch (from) {
    case QuantityFrom::LogHours:
        return cost.quantity * log.hours / quoted.hours;
    case QuantityFrom::LogAcres:
        return cost.quantity * log.acres / quoted.acres;
    case QuantityFrom::LogGallons:
        return log.gallons;
    case QuantityFrom::LogDays:
        return static_cast<double>(log.days);
    case QuantityFrom::Quote:
        break;
    }
    return cost.quantity;
}

void split_fuel(VarianceRow& row, const Quoted& quoted, const LogTotals& log) {
    if (quoted.hours <= 0 || log.hours <= 0)
        return;
    const double burn_quoted = row.quoted.quantity / quoted.hours;
    row.by_hours = (log.hours - quoted.hours) * burn_quoted * row.quoted.rate;
    row.by_burn = row.by_quantity - *row.by_hours;
}

} // namespace

Variance variance(const Quoted& quoted, const JobLog& log) {
    Variance result;
    result.log = totals(log);
    result.acres_per_hour = learned_ratio(log, &LogRow::acres, &LogRow::hours);
    if (log.has_gallons)
        result.gallons_per_hour = learned_ratio(log, &LogRow::gallons, &LogRow::hours);
    for (const auto& [name, amount] : result.log.amounts)
        if (std::none_of(quoted.costs.begin(), quoted.costs.end(),
                         [&cost = name](const QuotedCost& q) { return q.name == cost; }))
            result.unknown_costs.push_back(name);
    const std::set<std::string> parts = machine_parts(quoted);
    for (const QuotedCost& cost : quoted.costs) {
        VarianceRow& row = result.rows.emplace_back();
        row.quoted = cost;
        row.from = source_of(cost, parts, quoted, result.log, log.has_gallons);
        row.quantity = actual_quantity(cost, row.from, quoted, result.log);
        row.quoted_amount = cost.rate * cost.quantity;
        const auto spent = result.log.amounts.find(cost.name);
        if (spent != result.log.amounts.end()) {
            row.actual_amount = spent->second;
            row.rate = row.quantity > 0 ? spent->second / row.quantity : cost.rate;
            row.rate_known = true;
        } else {
            row.rate_known = row.from == QuantityFrom::LogGallons && result.log.fuel_price > 0;
            row.rate = row.rate_known ? result.log.fuel_price : cost.rate;
            row.actual_amount = row.rate * row.quantity;
        }
        row.by_quantity = (row.quantity - cost.quantity) * cost.rate;
        // The rest, so that the parts add up to the last bit; (actual rate - quoted rate) x actual
        // quantity in arithmetic.
        row.by_rate = row.actual_amount - row.quoted_amount - row.by_quantity;
        if (row.from == QuantityFrom::LogGallons)
            split_fuel(row, quoted, result.log);
        result.quoted_cost += row.quoted_amount;
        result.actual_cost += row.actual_amount;
    }
    result.quoted_margin = quoted.price - result.quoted_cost;
    result.actual_margin = quoted.price - result.actual_cost;
    return result;
}

} // namespace acre::engine
