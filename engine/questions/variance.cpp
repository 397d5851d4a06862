#include "engine/questions/variance.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace acre::engine {
namespace {

// What the quote counts with, beside its costs.
struct Basis {
    double hours = 0, acres = 0; // 0: the quote has no such line
};

double line_of(const Quoted& quoted, const std::string& name) {
    const auto line = quoted.lines.find(name);
    return line == quoted.lines.end() ? 0 : line->second;
}

Basis basis_of(const Quoted& quoted, const VarianceQuestion& question) {
    return {line_of(quoted, question.hours),
            line_of(quoted, quoted.lines.contains(question.acres) ? question.acres : "area")};
}

// The parts of the job that are done by the machine of the log: those with a cost over all its
// hours. The hours of a truck in the move are no hours of the machine.
std::set<std::string> machine_parts(const Quoted& quoted, const Basis& basis) {
    std::set<std::string> parts;
    for (const QuotedCost& cost : quoted.costs)
        if (cost.quantity_unit == "h" &&
            std::abs(cost.quantity - basis.hours) <= 1e-9 * basis.hours)
            parts.insert(cost.part);
    return parts;
}

QuantityFrom source_of(const QuotedCost& cost, const std::set<std::string>& parts,
                       const Basis& basis, const LogTotals& log, bool has_gallons) {
    const std::string& unit = cost.quantity_unit;
    if (unit == "h" && basis.hours > 0 && parts.contains(cost.part))
        return QuantityFrom::LogHours;
    if (unit == "ac" && basis.acres > 0)
        return QuantityFrom::LogAcres;
    if (unit == "gal" && has_gallons)
        return QuantityFrom::LogGallons;
    if (unit == "day" && log.days > 0)
        return QuantityFrom::LogDays;
    return QuantityFrom::Quote;
}

double actual_quantity(const QuotedCost& cost, QuantityFrom from, const Basis& basis,
                       const LogTotals& log) {
    switch (from) {
    case QuantityFrom::LogHours:
        return cost.quantity * log.hours / basis.hours;
    case QuantityFrom::LogAcres:
        return cost.quantity * log.acres / basis.acres;
    case QuantityFrom::LogGallons:
        return log.gallons;
    case QuantityFrom::LogDays:
        return static_cast<double>(log.days);
    case QuantityFrom::Quote:
        break;
    }
    return cost.quantity;
}

void split_fuel(VarianceRow& row, const Basis& basis, const LogTotals& log) {
    if (basis.hours <= 0 || log.hours <= 0)
        return;
    const double burn_quoted = row.quoted.quantity / basis.hours;
    row.by_hours = (log.hours - basis.hours) * burn_quoted * row.quoted.rate;
    row.by_burn = row.by_quantity - *row.by_hours;
}

VarianceRow row_of(const QuotedCost& cost, QuantityFrom from, const Basis& basis,
                   const LogTotals& log) {
    VarianceRow row;
    row.quoted = cost;
    row.from = from;
    row.quantity = actual_quantity(cost, from, basis, log);
    row.quoted_amount = cost.rate * cost.quantity;
    const auto spent = log.amounts.find(cost.name);
    if (spent != log.amounts.end()) {
        row.actual_amount = spent->second;
        row.rate = row.quantity > 0 ? spent->second / row.quantity : cost.rate;
        row.rate_known = true;
    } else {
        row.rate_known = from == QuantityFrom::LogGallons && log.fuel_price > 0;
        row.rate = row.rate_known ? log.fuel_price : cost.rate;
        row.actual_amount = row.rate * row.quantity;
    }
    row.by_quantity = (row.quantity - cost.quantity) * cost.rate;
    // The rest, so that the parts add up to the last bit; (actual rate - quoted rate) x actual
    // quantity in arithmetic.
    row.by_rate = row.actual_amount - row.quoted_amount - row.by_quantity;
    if (from == QuantityFrom::LogGallons)
        split_fuel(row, basis, log);
    return row;
}

// Money of the log for what is no cost of the quote.
std::vector<std::string> unknown_costs(const Quoted& quoted, const LogTotals& log) {
    std::vector<std::string> names;
    for (const auto& [name, amount] : log.amounts)
        if (std::none_of(quoted.costs.begin(), quoted.costs.end(),
                         [&cost = name](const QuotedCost& q) { return q.name == cost; }))
            names.push_back(name);
    return names;
}

} // namespace

lang::Outcome<VarianceAnswer> ask(const Quoted& quoted, const JobLog& log,
                                  const VarianceQuestion& question) {
    const Basis basis = basis_of(quoted, question);
    if (basis.hours <= 0)
        return lang::placeless(lang::Code::Q001,
                               "quote " + quoted.quote + " has no line `" + question.hours +
                                   "` of machine hours",
                               {}, {"name the job's own line of machine hours with `--hours`"});
    VarianceAnswer answer;
    answer.quote = quoted.quote;
    answer.job = quoted.job;
    answer.price = quoted.price;
    answer.overhead = quoted.overhead;
    answer.log = totals(log);
    answer.acres_per_hour = learned_ratio(log, &LogRow::acres, &LogRow::hours);
    if (log.has_gallons)
        answer.gallons_per_hour = learned_ratio(log, &LogRow::gallons, &LogRow::hours);
    answer.unknown_costs = unknown_costs(quoted, answer.log);
    const std::set<std::string> parts = machine_parts(quoted, basis);
    for (const QuotedCost& cost : quoted.costs) {
        const QuantityFrom from = source_of(cost, parts, basis, answer.log, log.has_gallons);
        const VarianceRow& row = answer.rows.emplace_back(row_of(cost, from, basis, answer.log));
        answer.quoted_cost += row.quoted_amount;
        answer.actual_cost += row.actual_amount;
    }
    return answer;
}

} // namespace acre::engine
