#include "engine/questions/variance.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <string_view>
#include <utility>

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
          totals_(totals),
          meter_hours_(meter_hours(totals, quoted.counted)) {
        for (const CountedLine& line : quoted.counted)
            if (line.how == Counting::Meter)
                hours_ += line.quoted;
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
    double logged(const CountedLine& line) const { return scale_ * so_far(line); }
    // As the log has it.
    double so_far(const CountedLine& line) const {
        switch (line.how) {
        case Counting::Meter:
            return line.quoted > 0 // a machine may work in several parts of the job
                       ? meter_hours_.at(line.machine) * line.quoted / quoted_hours(line.machine)
                       : 0;
        case Counting::Days:
            return static_cast<double>(totals_.days);
        default:
            const auto done = totals_.counted.find(line.name);
            return done == totals_.counted.end() ? 0 : done->second * filled(line.name);
        }
    }
    double hours_logged() const { return scale_ * totals_.hours; }
    // Hours of the machine that a cost is of, as quoted and as logged; of all where it is of none.
    std::pair<double, double> hours_of_cost(const QuotedCost& cost) const {
        const CountedLine* own = own_meter(cost);
        return own != nullptr ? std::pair(own->quoted, logged(*own))
                              : std::pair(hours_, hours_logged());
    }

    // What share of the job the log has: by the work of its own model, else by its meter.
    double share() const {
        for (const CountedLine& line : quoted_.counted)
            if (line.how == Counting::Work && !line.optional && line.quoted > 0 &&
                line.name.find('.') == std::string::npos && has_log(line))
                return so_far(line) / line.quoted;
        return hours_ > 0 ? totals_.hours / hours_ : 0;
    }
    void scale(double by) { scale_ = by; }

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
        if (found == nullptr && (cost.quantity_unit == "trip" || cost.quantity_unit == "night"))
            for (const CountedLine& line : quoted_.counted)
                if (line.how == Counting::Days && line.quoted > 0 && has_log(line))
                    found = &line;
        return found;
    }
    double quantity(const QuotedCost& cost, const CountedLine& line) const {
        if (is_over(cost, line) && (line.how != Counting::Meter || is_alone(cost, line)))
            return logged(line);
        if (line.how == Counting::Meter) {
            const auto [expected, run] = hours_of_cost(cost);
            return cost.quantity * run / expected;
        }
        if (const auto share = fuel_share(cost, line))
            return logged(line) * *share;
        // Of fuel and days in records that do not say how many were quoted there is one cost.
        return line.quoted > 0 ? cost.quantity * logged(line) / line.quoted : logged(line);
    }

  private:
    double quoted_hours(const std::string& machine) const {
        double hours = 0;
        for (const CountedLine& line : quoted_.counted)
            hours += line.how == Counting::Meter && line.machine == machine ? line.quoted : 0;
        return hours;
    }
    // Days on which nobody wrote the figure down are like the others.
    double filled(const std::string& column) const {
        const auto left = totals_.unlogged.find(column);
        const double all = totals_.hours - (log_.fuels.contains(column) ? 0 : totals_.hourly);
        const double known = left == totals_.unlogged.end() ? 0 : all - left->second.hours;
        return known > 0 ? all / known : 1;
    }
    static bool is_over(const QuotedCost& cost, const CountedLine& line) {
        return std::find(line.costs.begin(), line.costs.end(), cost.name) != line.costs.end();
    }
    // Over the hours of one machine.
    bool is_alone(const QuotedCost& cost, const CountedLine& line) const {
        return std::none_of(
            quoted_.counted.begin(), quoted_.counted.end(),
            [&](const CountedLine& other) {
                return &other != &line && other.how == Counting::Meter && is_over(cost, other);
            });
    }
    static std::string_view entry_of(std::string_view name) {
        const std::size_t dot = name.rfind('.');
        return dot == name.npos ? std::string_view() : name.substr(0, dot);
    }
    // The meter of the machine that a cost is of, as `hazel.fuel` is of that of
    // `hazel.machine_hours`; null: not of one alone.
    const CountedLine* own_meter(const QuotedCost& cost) const {
        const std::string_view entry = entry_of(cost.name);
        const CountedLine* found = nullptr;
        for (const CountedLine& line : quoted_.counted) {
            if (line.how != Counting::Meter || !(line.quoted > 0) || entry_of(line.name) != entry)
                continue;
            if (found != nullptr || entry.empty())
                return nullptr;
            found = &line;
        }
        return found;
    }
    // Of all fuel, what the rows of the cost's own machine have, where each row with fuel is of one
    // of the machines.
    std::optional<double> fuel_share(const QuotedCost& cost, const CountedLine& line) const {
        const CountedLine* own = own_meter(cost);
        if (line.how != Counting::Fuel || own == nullptr || log_.fuels.size() != 1)
            return std::nullopt;
        double all = 0, its = 0;
        for (const auto& one : totals_.machine_fuel) {
            const bool known =
                std::any_of(quoted_.counted.begin(), quoted_.counted.end(), [&](const auto& other) {
                    return other.how == Counting::Meter && names_machine(one.first, other.machine);
                });
            if (!known)
                return std::nullopt;
            all += one.second;
            its += names_machine(one.first, own->machine) ? one.second : 0;
        }
        return all > 0 ? std::optional<double>(its / all) : std::nullopt;
    }
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
    std::map<std::string, double> meter_hours_; // of the log, by machine
    double hours_ = 0, scale_ = 1;
    // Those done by a machine of the log: they have a cost over all its hours. The hours of a truck
    // in the move are no hours of the machine.
    std::set<std::string> parts_;
};

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
    const double hours = line_value(quoted, own ? "crew.meter_per_day" : "day_hours");
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
    }
    answer.counted = counted_rows(quoted, log, basis);
    answer.fuel_machine = fuel_machine(quoted);
    answer.unknown_costs = unknown_costs(quoted, answer.log);
    for (const QuotedCost& cost : quoted.costs)
        answer.rows.push_back(row_of(quoted, cost, basis, answer.log, answer.scaled_by));
    if (auto row = crew_waiting(quoted, answer.log, answer.scaled_by))
        answer.rows.push_back(std::move(*row));
    for (const VarianceRow& row : answer.rows) {
        answer.quoted_cost += row.quoted_amount;
        answer.actual_cost += row.actual_amount;
    }
    return answer;
}

} // namespace acre::engine
