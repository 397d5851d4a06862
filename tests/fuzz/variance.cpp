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

void hold_fuel(const engine::VarianceRow& row, const ByHand& by_hand, double scale) {
    HOLDS(row.by_hours.has_value() == row.by_burn.has_value());
    const bool is_fuel = by_hand.from == Counting::Fuel && by_hand.run > 0;
    HOLDS_FOR(row.by_hours.has_value() == is_fuel, row.quoted.name);
    if (!is_fuel)
        return;
    const auto near = [&](double a, double b) { return std::fabs(a - b) <= 1e-9 * scale; };
    const double burn = row.quoted.quantity / by_hand.expected;
    const double more = (by_hand.run - by_hand.expected) * burn * row.quoted.rate;
    scale += std::fabs(more);
    HOLDS_FOR(near(*row.by_hours, more), row.quoted.name);
    HOLDS_FOR(
        near(*row.by_burn, (by_hand.quantity / by_hand.run - burn) * by_hand.run * row.quoted.rate),
        row.quoted.name);
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
    if (row.from.how == Counting::Fuel || row.from.how == Counting::Work)
        HOLDS_FOR(row.from.column == by_hand.column, cost.name);
    HOLDS_FOR(row.as_quoted() == (!by_hand.from && !by_hand.rate_known), cost.name);
    HOLDS_FOR(near(row.actual_amount, by_hand.amount), cost.name);
    HOLDS_FOR(near(row.quoted_amount, quoted), cost.name);
    HOLDS_FOR(near(row.by_quantity, (by_hand.quantity - cost.quantity) * cost.rate), cost.name);
    HOLDS_FOR(near(row.by_quantity + row.by_rate, by_hand.amount - quoted), cost.name);
    if (by_hand.quantity > 0)
        HOLDS_FOR(near(row.by_rate, (by_hand.rate - cost.rate) * by_hand.quantity), cost.name);
    hold_fuel(row, by_hand, scale);
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
    double on_meters = 0;
    for (const engine::CountedLine& line : drawn.quoted.counted) {
        const std::optional<double> logged = log.logged(line);
        if (!logged)
            continue;
        HOLDS(at < answer.counted.size());
        const engine::CountedRow& row = answer.counted[at++];
        HOLDS_FOR(row.line.name == line.name, line.name);
        HOLDS_FOR(std::fabs(row.logged - *logged) <= 1e-9 * (1 + *logged), line.name);
        on_meters += line.how == Counting::Meter ? row.logged : 0;
        const std::optional<engine::Learned> learned = log.per_hour(line);
        HOLDS_FOR(row.per_hour.has_value() == learned.has_value(), line.name);
        if (!learned)
            continue;
        const double off = 1e-9 * (1 + learned->value);
        HOLDS_FOR(row.per_hour->days == learned->days, line.name);
        HOLDS_FOR(std::fabs(row.per_hour->hours - learned->hours) <= 1e-9, line.name);
        HOLDS_FOR(std::fabs(row.per_hour->value - learned->value) <= off, line.name);
        HOLDS_FOR(std::fabs(row.per_hour->standard_error - learned->standard_error) <= off,
                  line.name);
    }
    HOLDS(at == answer.counted.size());
    // No hour is lost or told twice.
    HOLDS(std::fabs(on_meters - log.hours()) <= 1e-9 * (1 + log.hours()));
    HOLDS(std::fabs(answer.log.hours - log.hours()) <= 1e-9 * (1 + log.hours()));
    HOLDS(std::fabs(answer.log.hourly - log.hourly()) <= 1e-9 * (1 + log.hours()));
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
    HOLDS(answer.fuel_machine == log.fuel_machine());
}

} // namespace

ACREWRIGHT_TARGET(variance, bytes) {
    tests::Dice dice(bytes);
    const DrawnLog drawn = draw_log(dice);
    const std::string csv = csv_of(drawn);
    fuzz::show(csv);
    const lang::Outcome<engine::JobLog> read =
        engine::read_job_log("f.csv", csv, drawn.quoted.counted);
    const LogByHand log(drawn);
    HOLDS_FOR(read.value.has_value() != log.told_twice(), csv);
    if (!read) {
        for (const lang::Diagnostic& one : read.said.diagnostics.all())
            HOLDS_FOR(one.code == lang::Code::J004, csv);
        return;
    }
    const lang::Outcome<engine::VarianceAnswer> answer = engine::ask(drawn.quoted, *read);
    // Which rows are of which service is not worked out by hand: then the sums alone are held.
    if (drawn.has_acres && drawn.has_spare) {
        if (answer)
            hold_sums(*answer, drawn, log);
        return;
    }
    HOLDS(answer.value.has_value() == (drawn.quoted.finished || log.share() > 0));
    if (!answer)
        return;
    HOLDS(std::fabs(answer->scaled_by - log.scaled_by()) <= 1e-9 * log.scaled_by());
    HOLDS(drawn.quoted.finished || std::fabs(answer->share - log.share()) <= 1e-9 * log.share());
    HOLDS(answer->unlogged_machines == log.unlogged_machines());
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
