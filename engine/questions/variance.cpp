#include "engine/questions/variance.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace acre::engine {
namespace {

bool same(double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::abs(b);
}

// What the quote counts against what the log says of it.
class Basis {
  public:
    Basis(const Quoted& quoted, const JobLog& log, const LogTotals& totals)
        : quoted_(quoted),
          log_(log),
          totals_(totals) {
        for (const CountedLine& line : quoted.counted)
            if (line.how == Counting::Meter) {
                hours_ += line.quoted;
                by_machine_ += totals.machine_hours.contains(line.machine) ? 1 : 0;
                ++meters_;
            }
        for (const QuotedCost& cost : quoted.costs)
            if (cost.quantity_unit == "h" && is_of_meter(cost.quantity))
                parts_.insert(cost.part);
    }

    double hours() const { return hours_; } // of all machines, as quoted
    bool has_log(const CountedLine& line) const {
        switch (line.how) {
        case Counting::Meter:
            return hours_ > 0;
        case Counting::Days:
            return totals_.days > 0;
        default:
            return log_.columns.contains(line.name);
        }
    }
    double logged(const CountedLine& line) const {
        switch (line.how) {
        case Counting::Meter:
            if (is_by_machine())
                return totals_.machine_hours.at(line.machine);
            return hours_ > 0 ? totals_.hours * line.quoted / hours_ : 0;
        case Counting::Days:
            return static_cast<double>(totals_.days);
        default:
            if (const auto done = totals_.counted.find(line.name); done != totals_.counted.end())
                return done->second;
            return 0;
        }
    }

    // The line that the quantity of a cost goes with; null: it is as quoted.
    const CountedLine* line_of(const QuotedCost& cost) const {
        for (const CountedLine& line : quoted_.counted)
            if (is_over(cost, line) && has_log(line))
                return &line;
        const CountedLine* found = nullptr;
        for (const CountedLine& line : quoted_.counted) {
            if (line.unit != cost.quantity_unit || !has_log(line))
                continue;
            // Hours that no meter tells are those of the one cost alone.
            if (line.how == Counting::Work && (line.unit == "h" || !(line.quoted > 0)))
                continue;
            if (line.how == Counting::Meter && !parts_.contains(cost.part))
                continue;
            if (found != nullptr && found->how != Counting::Meter)
                return nullptr; // of two that it could be
            found = &line;
        }
        return found;
    }
    double quantity(const QuotedCost& cost, const CountedLine& line) const {
        if (is_over(cost, line) && (line.how != Counting::Meter || is_alone(cost, line)))
            return logged(line);
        if (line.how == Counting::Meter)
            return cost.quantity * totals_.hours / hours_;
        // Of fuel and days in records that do not say how many were quoted there is one cost.
        return line.quoted > 0 ? cost.quantity * logged(line) / line.quoted : logged(line);
    }

  private:
    static bool is_over(const QuotedCost& cost, const CountedLine& line) {
        return std::find(line.costs.begin(), line.costs.end(), cost.name) != line.costs.end();
    }
    // Over the hours of one machine, and the log tells them.
    bool is_alone(const QuotedCost& cost, const CountedLine& line) const {
        return is_by_machine() && std::none_of(
                                      quoted_.counted.begin(), quoted_.counted.end(),
                                      [&](const CountedLine& other) {
                                          return &other != &line && other.how == Counting::Meter &&
                                                 is_over(cost, other);
                                      });
    }
    bool is_by_machine() const { return meters_ > 1 && by_machine_ == meters_; }
    bool is_of_meter(double hours) const {
        return std::any_of(
            quoted_.counted.begin(), quoted_.counted.end(),
            [&](const CountedLine& line) {
                return line.how == Counting::Meter && same(hours, line.quoted);
            });
    }

    const Quoted& quoted_;
    const JobLog& log_;
    const LogTotals& totals_;
    double hours_ = 0;
    std::size_t meters_ = 0, by_machine_ = 0; // machines counted; those that the log names
    // Those done by a machine of the log: they have a cost over all its hours. The hours of a truck
    // in the move are no hours of the machine.
    std::set<std::string> parts_;
};

void split_fuel(VarianceRow& row, const Basis& basis, const LogTotals& log) {
    if (basis.hours() <= 0 || log.hours <= 0)
        return;
    const double burn_quoted = row.quoted.quantity / basis.hours();
    row.by_hours = (log.hours - basis.hours()) * burn_quoted * row.quoted.rate;
    row.by_burn = row.by_quantity - *row.by_hours;
}

VarianceRow row_of(const QuotedCost& cost, const Basis& basis, const LogTotals& log) {
    VarianceRow row;
    row.quoted = cost;
    const CountedLine* line = basis.line_of(cost);
    if (line != nullptr)
        row.from = {true, line->how, line->name};
    const bool fuel = line != nullptr && line->how == Counting::Fuel;
    row.quantity = line == nullptr ? cost.quantity : basis.quantity(cost, *line);
    row.quoted_amount = cost.rate * cost.quantity;
    const auto spent = log.amounts.find(cost.name);
    if (spent != log.amounts.end()) {
        row.actual_amount = spent->second;
        row.rate = row.quantity > 0 ? spent->second / row.quantity : cost.rate;
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

std::vector<CountedRow> counted_rows(const Quoted& quoted, const JobLog& log, const Basis& basis) {
    std::vector<CountedRow> rows;
    for (const CountedLine& line : quoted.counted) {
        if (!basis.has_log(line))
            continue;
        CountedRow& row = rows.emplace_back(CountedRow{line, basis.logged(line), {}});
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
    answer.log = totals(log);
    const Basis basis(quoted, log, answer.log);
    answer.counted = counted_rows(quoted, log, basis);
    answer.fuel_machine = fuel_machine(quoted);
    answer.unknown_costs = unknown_costs(quoted, answer.log);
    for (const QuotedCost& cost : quoted.costs) {
        const VarianceRow& row = answer.rows.emplace_back(row_of(cost, basis, answer.log));
        answer.quoted_cost += row.quoted_amount;
        answer.actual_cost += row.actual_amount;
    }
    return answer;
}

} // namespace acre::engine
