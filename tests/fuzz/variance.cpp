// Bytes throw a quote and the log of its job (naive/drawn_log.h). Quantities, rates, the parts of
// each difference, and what the log comes to by column, are held against what is worked out by hand
// from the figures that went into the log.
#include <algorithm>
#include <cmath>

#include "engine/questions/variance.h"
#include "tests/fuzz/naive/log_by_hand.h"
#include "tests/fuzz/target.h"

namespace variance_fuzz {

using namespace acre;
using namespace acre::fuzz::naive;
using engine::Counting;

namespace {

void hold_fuel(const engine::VarianceRow& row, const LogByHand& log, double scale) {
    HOLDS(row.by_hours.has_value() == row.by_burn.has_value());
    const bool is_fuel = row.quoted.name == "fuel" && log.hours() > 0;
    HOLDS(row.by_hours.has_value() == is_fuel);
    if (!is_fuel)
        return;
    const auto near = [&](double a, double b) { return std::fabs(a - b) <= 1e-9 * scale; };
    const double hours = log.scaled_by() * log.hours();
    const double burn = row.quoted.quantity / log.quoted_hours();
    HOLDS(near(*row.by_hours, (hours - log.quoted_hours()) * burn * row.quoted.rate));
    HOLDS(near(*row.by_burn, (row.quantity / hours - burn) * hours * row.quoted.rate));
}

void hold_row(const engine::VarianceRow& row, const LogByHand& log) {
    const engine::QuotedCost& cost = row.quoted;
    const ByHand by_hand = log.cost(cost);
    const double quoted = cost.rate * cost.quantity;
    const double scale = 1 + std::fabs(by_hand.amount) + quoted + by_hand.quantity * cost.rate;
    const auto near = [&](double a, double b) { return std::fabs(a - b) <= 1e-9 * scale; };
    HOLDS_FOR(near(row.quantity, by_hand.quantity), cost.name);
    HOLDS_FOR(near(row.rate, by_hand.rate), cost.name);
    HOLDS_FOR(row.rate_known == by_hand.rate_known, cost.name);
    HOLDS_FOR(row.from.log == by_hand.from.has_value(), cost.name);
    HOLDS_FOR(!by_hand.from || row.from.how == *by_hand.from, cost.name);
    HOLDS_FOR(row.from.column == by_hand.column, cost.name);
    HOLDS_FOR(row.as_quoted() == (!by_hand.from && !by_hand.rate_known), cost.name);
    HOLDS_FOR(near(row.actual_amount, by_hand.amount), cost.name);
    HOLDS_FOR(near(row.quoted_amount, quoted), cost.name);
    HOLDS_FOR(near(row.by_quantity, (by_hand.quantity - cost.quantity) * cost.rate), cost.name);
    HOLDS_FOR(near(row.by_quantity + row.by_rate, by_hand.amount - quoted), cost.name);
    if (by_hand.quantity > 0)
        HOLDS_FOR(near(row.by_rate, (by_hand.rate - cost.rate) * by_hand.quantity), cost.name);
    hold_fuel(row, log, scale);
}

// The wages of a crew that waited, for which nothing is quoted.
void hold_waiting(const engine::VarianceAnswer& answer, const DrawnLog& drawn,
                  const LogByHand& log) {
    const auto& lines = drawn.quoted.lines;
    const bool is_paid = log.waited() > 0 && !lines.empty() && lines.at("standby_crew") > 0 &&
                         lines.at("crew.meter_per_day") > 0;
    HOLDS(answer.rows.size() == drawn.quoted.costs.size() + (is_paid ? 1 : 0));
    if (!is_paid)
        return;
    const engine::VarianceRow& row = answer.rows.back();
    double rate = lines.at("standby_crew") / lines.at("crew.meter_per_day");
    if (lines.at("machines") > 1)
        rate /= lines.at("machines");
    const double hours = log.scaled_by() * log.waited();
    const double scale = 1 + rate * hours;
    const auto near = [&](double a, double b) { return std::fabs(a - b) <= 1e-9 * scale; };
    HOLDS(row.quoted.name == "standby_crew" && row.quoted.quantity == 0 && row.from.log);
    HOLDS(near(row.quantity, hours) && near(row.rate, rate) && near(row.quoted.rate, rate));
    HOLDS(near(row.actual_amount, rate * hours) && near(row.by_quantity, rate * hours));
    HOLDS(row.by_rate == 0 && row.quoted_amount == 0);
}

void hold_counted(const engine::VarianceAnswer& answer, const DrawnLog& drawn,
                  const LogByHand& log) {
    std::size_t at = 0;
    for (const engine::CountedLine& line : drawn.quoted.counted) {
        const std::optional<double> logged = log.logged(line);
        if (!logged)
            continue;
        HOLDS(at < answer.counted.size());
        const engine::CountedRow& row = answer.counted[at++];
        HOLDS_FOR(row.line.name == line.name, line.name);
        HOLDS_FOR(std::fabs(row.logged - *logged) <= 1e-9 * (1 + *logged), line.name);
        const std::optional<engine::Learned> learned = log.per_hour(line);
        HOLDS_FOR(row.per_hour.has_value() == learned.has_value(), line.name);
        if (!learned)
            continue;
        const double off = 1e-9 * (1 + learned->value);
        HOLDS_FOR(row.per_hour->days == learned->days, line.name);
        HOLDS_FOR(std::fabs(row.per_hour->value - learned->value) <= off, line.name);
        HOLDS_FOR(std::fabs(row.per_hour->standard_error - learned->standard_error) <= off,
                  line.name);
    }
    HOLDS(at == answer.counted.size());
}

void hold_sums(const engine::VarianceAnswer& answer, const DrawnLog& drawn, const LogByHand& log) {
    const engine::Quoted& quote = drawn.quoted;
    double quoted = 0, actual = 0;
    bool has_trips = false;
    for (const engine::VarianceRow& row : answer.rows) {
        quoted += row.quoted.rate * row.quoted.quantity;
        actual += row.actual_amount;
        has_trips = has_trips || row.quoted.name == "trips";
    }
    const auto near = [&](double a, double b) {
        return std::fabs(a - b) <= 1e-9 * (1 + quoted + std::fabs(actual) + quote.price);
    };
    HOLDS(near(answer.quoted_cost, quoted) && near(answer.actual_cost, actual));
    const double income = quote.income.value_or(quote.price);
    HOLDS(answer.price == quote.price && answer.income == income);
    HOLDS(near(answer.quoted_profit(), quote.price - quoted - quote.overhead));
    HOLDS(near(answer.actual_profit(), income - actual - quote.overhead));
    HOLDS(near(answer.quoted_contribution(), quote.price - quoted));
    HOLDS(near(answer.actual_contribution(), income - actual));
    HOLDS(near(answer.log.fuel_price, log.mean_fuel_price()));
    const std::vector<std::string> unknown{"trips"};
    HOLDS(answer.unknown_costs ==
          (!has_trips && log.any(&LoggedRow::spent) ? unknown : std::vector<std::string>()));
    HOLDS(answer.fuel_machine == (drawn.two_machines ? "" : "walt.rig"));
}

} // namespace

ACREWRIGHT_TARGET(variance, bytes) {
    tests::Dice dice(bytes);
    const DrawnLog drawn = draw_log(dice);
    const std::string csv = csv_of(drawn);
    fuzz::show(csv);
    const lang::Outcome<engine::JobLog> read =
        engine::read_job_log("f.csv", csv, drawn.quoted.counted);
    HOLDS_FOR(read.value.has_value(), csv);
    const lang::Outcome<engine::VarianceAnswer> answer = engine::ask(drawn.quoted, *read);
    const LogByHand log(drawn);
    HOLDS(answer.value.has_value() == (drawn.quoted.finished || log.share() > 0));
    if (!answer)
        return;
    HOLDS(std::fabs(answer->scaled_by - log.scaled_by()) <= 1e-9 * log.scaled_by());
    HOLDS(drawn.quoted.finished || std::fabs(answer->share - log.share()) <= 1e-9 * log.share());
    hold_waiting(*answer, drawn, log);
    for (std::size_t i = 0; i < drawn.quoted.costs.size(); ++i) {
        HOLDS(answer->rows[i].quoted.name == drawn.quoted.costs[i].name);
        hold_row(answer->rows[i], log);
    }
    hold_counted(*answer, drawn, log);
    hold_sums(*answer, drawn, log);
    fuzz::show(std::to_string(answer->rows.size()) + " rows");
}

} // namespace variance_fuzz
