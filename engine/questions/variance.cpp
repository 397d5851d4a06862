#include "engine/questions/variance.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "engine/questions/variance_basis.h"

namespace acre::engine {
namespace {

void split_fuel(VarianceRow& row, const Basis& basis) {
    const auto [expected, run] = basis.hours_of_cost(row.quoted);
    if (expected <= 0 || run <= 0)
        return;
    const double burn_quoted = row.quoted.quantity / expected;
    row.by_hours = (run - expected) * burn_quoted * row.quoted.rate;
    row.by_burn = row.by_quantity - *row.by_hours;
}

double line_value(const Quoted& quoted, const std::string& name) {
    const auto found = quoted.lines.find(name);
    return found == quoted.lines.end() ? 0 : found->second;
}

// Tips at their price, and the rest of the ground tools by the hour as quoted.
std::optional<double> by_tips(const Quoted& quoted, const QuotedCost& cost, double quantity,
                              const LogTotals& log, double scale) {
    const auto used = log.counted.find("tips_used");
    const double tip = line_value(quoted, "crawler.tip");
    const double life = line_value(quoted, "crawler.tip_life");
    if (cost.name != "ground_tools" || used == log.counted.end() || !(tip > 0) || !(life > 0))
        return std::nullopt;
    return scale * used->second * tip + std::max(cost.rate - tip / life, 0.0) * quantity;
}

VarianceRow row_of(const Quoted& quoted, const QuotedCost& cost, const Basis& basis,
                   const LogTotals& log, double scale) {
    VarianceRow row;
    row.quoted = cost;
    const CountedLine* line = basis.line_of(cost);
    if (line != nullptr)
        row.from = {true, line->how, line->name};
    const bool fuel = line != nullptr && line->how == Counting::Fuel;
    row.quantity = line == nullptr ? cost.quantity : basis.quantity(cost, *line);
    row.quoted_amount = cost.rate * cost.quantity;
    const auto spent = log.amounts.find(cost.name);
    std::optional<double> known = by_tips(quoted, cost, row.quantity, log, scale);
    if (spent != log.amounts.end())
        known = scale * spent->second;
    if (known) {
        row.actual_amount = *known;
        row.rate = row.quantity > 0 ? *known / row.quantity : cost.rate;
        row.rate_known = true;
    } else {
        row.rate_known = fuel && log.fuel_price > 0;
        row.rate = row.rate_known ? log.fuel_price : cost.rate;
        row.actual_amount = row.rate * row.quantity;
    }
    row.by_quantity = (row.quantity - cost.quantity) * cost.rate;
    // The rest, so that the parts add up to the last bit; (actual rate - quoted rate) x actual
    // quantity in arithmetic.
    row.by_rate = row.actual_amount - row.quoted_amount - row.by_quantity;
    if (fuel)
        split_fuel(row, basis);
    return row;
}

// The wages of a crew that waited: nothing of it is quoted.
std::optional<VarianceRow> crew_waiting(const Quoted& quoted, const LogTotals& log, double scale) {
    // A model with standby terms of its own: what a day with the crew costs over one without.
    const bool own = quoted.lines.contains("standby_crew");
    const double a_day =
        own ? line_value(quoted, "standby_crew")
            : line_value(quoted, "standing_by_with_crew") - line_value(quoted, "standing_by");
    // A day of shifts is so many meter hours, a day of a day crew so many of work.
    const bool shifts =
        quoted.lines.contains("standing_by_with_crew") || !quoted.lines.contains("crew.day_hours");
    const double hours = line_value(quoted, !own     ? "day_hours"
                                            : shifts ? "crew.meter_per_day"
                                                     : "crew.day_hours");
    const double machines = std::max(1.0, line_value(quoted, "machines"));
    if (!(log.waited > 0) || !(a_day > 0) || !(hours > 0))
        return std::nullopt;
    VarianceRow row;
    row.quoted = {"standby_crew", "crew that waited", "", "$/h", "h", a_day / hours / machines, 0};
    row.from = {true, Counting::Work, "down_hours"};
    row.quantity = scale * log.waited;
    row.rate = row.quoted.rate;
    row.actual_amount = row.by_quantity = row.rate * row.quantity;
    return row;
}

// Money by the costs of the quote: of a service's cost, `planting.nursery_trees`, its own name is
// enough where no other is called so.
std::map<std::string, double> by_cost(const Quoted& quoted,
                                      const std::map<std::string, double>& amounts) {
    std::map<std::string, double> found;
    for (const auto& [name, amount] : amounts) {
        std::set<std::string> meant;
        for (const QuotedCost& cost : quoted.costs)
            if (cost.name == name || cost.name.ends_with("." + name))
                meant.insert(cost.name);
        found[meant.size() == 1 && !meant.contains(name) ? *meant.begin() : name] += amount;
    }
    return found;
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

std::vector<CountedRow> counted_rows(const Quoted& quoted, const JobLog& log, const Basis& basis) {
    std::vector<CountedRow> rows;
    for (const CountedLine& line : quoted.counted) {
        if (!basis.has_log(line))
            continue;
        CountedRow& row = rows.emplace_back(CountedRow{line, basis.so_far(line), {}});
        if (basis.hours() > 0 && (line.how == Counting::Fuel || line.how == Counting::Work))
            row.per_hour = learned_per_hour(log, line.name);
    }
    return rows;
}

// Of one machine and one fuel it is clear whose burn the log tells.
std::string fuel_machine(const Quoted& quoted) {
    std::string machine;
    std::size_t meters = 0, fuels = 0;
    for (const CountedLine& line : quoted.counted) {
        meters += line.how == Counting::Meter ? 1 : 0;
        fuels += line.how == Counting::Fuel ? 1 : 0;
        if (line.how == Counting::Meter)
            machine = line.machine;
    }
    return meters == 1 && fuels == 1 ? machine : std::string();
}

} // namespace

lang::Outcome<VarianceAnswer> ask(const Quoted& quoted, const JobLog& log) {
    if (quoted.counted.empty())
        return lang::placeless(lang::Code::Q001,
                               "nothing of quote " + quoted.quote + " can be held against a log",
                               {"its model does not say what a log counts"},
                               {"in the model, write  count NAME  for lines such as acres, gallons "
                                "and days, and  count "
                                "NAME of MACHINE  for meter hours; the next quote has it"});
    VarianceAnswer answer;
    answer.quote = quoted.quote;
    answer.job = quoted.job;
    answer.price = quoted.price;
    answer.overhead = quoted.overhead;
    answer.income = quoted.income.value_or(quoted.price);
    answer.log = totals(log);
    answer.log.amounts = by_cost(quoted, answer.log.amounts);
    Basis basis(quoted, log, answer.log);
    answer.work_share = basis.share();
    if (!quoted.finished) {
        answer.share = answer.work_share;
        if (!(answer.share > 0))
            return lang::placeless(lang::Code::R010,
                                   "the log of quote " + quoted.quote + " has no work yet",
                                   {"the job is not finished, so its log would be scaled to the "
                                    "whole of it"});
        answer.scaled_by = answer.share < 1 ? 1 / answer.share : 1;
        basis.scale(answer.scaled_by);
        answer.by_service = basis.by_service();
    }
    answer.counted = counted_rows(quoted, log, basis);
    answer.fuel_machine = fuel_machine(quoted);
    answer.unknown_costs = unknown_costs(quoted, answer.log);
    answer.unlogged_machines = basis.unlogged_machines();
    for (const QuotedCost& cost : quoted.costs)
        answer.rows.push_back(row_of(quoted, cost, basis, answer.log, answer.scaled_by));
    if (auto row = crew_waiting(quoted, answer.log, answer.scaled_by))
        answer.rows.push_back(std::move(*row));
    else
        answer.waited_without_wages = answer.log.waited;
    for (const VarianceRow& row : answer.rows) {
        answer.quoted_cost += row.quoted_amount;
        answer.actual_cost += row.actual_amount;
    }
    return answer;
}

} // namespace acre::engine
