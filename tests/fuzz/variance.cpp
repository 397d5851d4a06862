// Bytes throw a quote and the log of its job. Quantities, rates and the parts of each difference
// are held against what is worked out here from the figures that went into the log.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>

#include "engine/questions/variance.h"
#include "tests/fuzz/target.h"
#include "tests/support/dice.h"

namespace variance_fuzz {

using namespace acre;
using engine::Counting;
using engine::QuotedCost;

namespace {

struct Day { // one row of the log; empty: nobody wrote it down
    std::string machine;
    double hours = 0;
    std::optional<double> acres, gallons, price, spent;
};

struct Drawn {
    engine::Quoted quoted;
    std::vector<Day> days;
    bool two_machines = false;
};

double sum(const Drawn& drawn, std::optional<double> Day::*of) {
    double all = 0;
    for (const Day& day : drawn.days)
        all += (day.*of).value_or(0);
    return all;
}
double hours_of(const Drawn& drawn, const std::string& machine) {
    double all = 0;
    for (const Day& day : drawn.days)
        all += machine.empty() || day.machine == machine ? day.hours : 0;
    return all;
}
// Days on which it was left empty brought as much an hour as the others.
double filled(const Drawn& drawn, std::optional<double> Day::*of) {
    double known = 0;
    for (const Day& day : drawn.days)
        known += day.*of ? day.hours : 0;
    return known > 0 ? sum(drawn, of) * hours_of(drawn, "") / known : sum(drawn, of);
}
double working_days(const Drawn& drawn) {
    double all = 0;
    for (const Day& day : drawn.days)
        all += day.hours > 0 || day.acres.value_or(0) > 0 ? 1 : 0;
    return all;
}

Drawn draw(tests::Dice& dice) {
    const auto whole = [&](std::size_t low, std::size_t high) {
        return static_cast<double>(low + dice.below(high - low + 1));
    };
    Drawn drawn;
    engine::Quoted& quoted = drawn.quoted;
    quoted.quote = "2027-001";
    quoted.price = whole(1, 200) * 100;
    quoted.overhead = whole(0, 50) * 10;
    quoted.finished = dice.below(3) != 1;
    if (dice.below(2) == 1)
        quoted.income = whole(0, 200) * 100;
    drawn.two_machines = dice.below(2) == 1;
    const double first = whole(1, 90), second = whole(1, 90), acres = whole(1, 200);
    const double gallons = whole(1, 900), days = whole(1, 20);
    const double all = drawn.two_machines ? first + second : first;
    quoted.counted = {{"hours", "h", Counting::Meter, "crawler", first, {"first"}},
                      {"acres", "ac", Counting::Work, "", acres, {"ground"}},
                      {"gallons", "gal", Counting::Fuel, "", gallons, {"fuel"}},
                      {"days", "day", Counting::Days, "", days, {"meals"}}};
    if (drawn.two_machines)
        quoted.counted.push_back({"other", "h", Counting::Meter, "loader", second, {"second"}});
    const auto rate = [&] { return whole(1, 400) / 4; };
    const QuotedCost costs[] = {{"first", "", "Work", "$/h", "h", rate(), first},
                                {"second", "", "Work", "$/h", "h", rate(), second},
                                {"crew", "", "Work", "$/h", "h", rate(), whole(1, 3) * all},
                                {"truck", "", "Move", "$/h", "h", rate(), all + 7},
                                {"ground", "", "Work", "$/ac", "ac", rate(), acres},
                                {"seed", "", "Work", "$/ac", "ac", rate(), acres / 2},
                                {"fuel", "", "Work", "$/gal", "gal", rate(), gallons},
                                {"meals", "", "Work", "$/day", "day", rate(), days},
                                {"trips", "", "Move", "$/trip", "trip", rate(), whole(1, 9)},
                                {"permit", "", "Move", "$", "", rate(), 1}};
    for (const QuotedCost& cost : costs)
        if (dice.below(3) != 1 && (cost.name != "second" || drawn.two_machines))
            quoted.costs.push_back(cost);
    for (std::size_t rows = 1 + dice.below(8); rows > 0; --rows) {
        Day& day = drawn.days.emplace_back();
        day.machine = drawn.two_machines && dice.below(2) == 1 ? "loader" : "crawler";
        day.hours = whole(0, 48) / 4;
        const auto perhaps = [&](double most) {
            return dice.below(5) == 1 ? std::optional<double>() : whole(0, 80) / 80 * most;
        };
        day.acres = perhaps(40);
        day.gallons = perhaps(400);
        if (dice.below(2) == 1)
            day.price = whole(1, 36) / 4;
        if (dice.below(4) == 1)
            day.spent = whole(0, 900);
    }
    return drawn;
}

std::string csv_of(const Drawn& drawn) {
    std::string text =
        "date,machine,meter_start,meter_stop,acres,gallons,fuel_price,amount.trips\n";
    double meter = 100;
    for (std::size_t i = 0; i < drawn.days.size(); ++i) {
        const Day& day = drawn.days[i];
        char row[400];
        std::snprintf(row, sizeof row, "2027-03-%02zu,%s,%.2f,%.2f", i + 1, day.machine.c_str(),
                      meter, meter + day.hours);
        text += row;
        for (const auto& cell : {day.acres, day.gallons, day.price, day.spent}) {
            std::snprintf(row, sizeof row, ",%.17g", cell.value_or(0));
            text += cell ? row : ",";
        }
        text += "\n";
        meter += day.hours;
    }
    return text;
}

// How many times its quoted quantity a cost came to, by what its quantity goes with.
double times(const Drawn& drawn, const QuotedCost& cost) {
    double quoted_hours = 0;
    bool all_named = true, in_part = false;
    for (const engine::CountedLine& line : drawn.quoted.counted)
        if (line.how == Counting::Meter) {
            quoted_hours += line.quoted;
            all_named =
                all_named && std::any_of(drawn.days.begin(), drawn.days.end(),
                                         [&](const Day& d) { return d.machine == line.machine; });
        }
    for (const engine::CountedLine& line : drawn.quoted.counted)
        for (const QuotedCost& other : drawn.quoted.costs)
            in_part = in_part || (line.how == Counting::Meter && other.part == cost.part &&
                                  other.quantity_unit == "h" && other.quantity == line.quoted);
    const auto line = std::find_if(
        drawn.quoted.counted.begin(), drawn.quoted.counted.end(), [&](const auto& one) {
            return one.unit == cost.quantity_unit && (one.unit != "h" || one.costs[0] == cost.name);
        });
    if (cost.quantity_unit == "h") {
        const bool over_one = line != drawn.quoted.counted.end();
        if (over_one && drawn.two_machines && all_named)
            return hours_of(drawn, line->machine) / line->quoted;
        return over_one || in_part ? hours_of(drawn, "") / quoted_hours : 1;
    }
    if (cost.quantity_unit == "ac")
        return filled(drawn, &Day::acres) / line->quoted;
    if (cost.quantity_unit == "gal")
        return filled(drawn, &Day::gallons) / line->quoted;
    const double days = working_days(drawn);
    if ((cost.quantity_unit == "day" || cost.quantity_unit == "trip") && days > 0)
        for (const engine::CountedLine& one : drawn.quoted.counted)
            if (one.how == Counting::Days)
                return days / one.quoted;
    return 1;
}

// Counted by the log at all: without a day of work its days say nothing.
bool is_counted(const Drawn& drawn, const QuotedCost& cost) {
    return cost.quantity_unit != "day" && cost.quantity_unit != "trip" ? cost.quantity_unit != ""
                                                                       : working_days(drawn) > 0;
}

std::optional<double> mean_fuel_price(const Drawn& drawn) {
    double money = 0, gallons = 0;
    for (const Day& day : drawn.days)
        if (day.price && day.gallons.value_or(0) > 0) {
            money += *day.price * *day.gallons;
            gallons += *day.gallons;
        }
    return gallons > 0 ? std::optional(money / gallons) : std::nullopt;
}

void hold_row(const Drawn& drawn, const engine::VarianceRow& row, double scaled) {
    const QuotedCost& cost = row.quoted;
    const double grown = times(drawn, cost);
    const bool as_quoted =
        !is_counted(drawn, cost) || (cost.quantity_unit == "h" && !row.from.log && grown == 1);
    double quantity = cost.quantity * (as_quoted ? 1 : grown * scaled);
    double rate = cost.rate;
    double amount = quantity * rate;
    const bool spent =
        cost.name == "trips" && std::any_of(drawn.days.begin(), drawn.days.end(),
                                            [](const Day& day) { return day.spent.has_value(); });
    if (spent) {
        amount = scaled * sum(drawn, &Day::spent);
        rate = quantity > 0 ? amount / quantity : rate;
    } else if (cost.name == "fuel" && mean_fuel_price(drawn)) {
        rate = *mean_fuel_price(drawn);
        amount = quantity * rate;
    }
    const double all = 1 + std::fabs(amount) + cost.rate * cost.quantity + quantity * cost.rate;
    const auto near = [&](double a, double b) { return std::fabs(a - b) <= 1e-9 * all; };
    HOLDS_FOR(near(row.quantity, quantity), cost.name);
    HOLDS_FOR(near(row.rate, rate), cost.name);
    HOLDS_FOR(near(row.actual_amount, amount), cost.name);
    HOLDS_FOR(near(row.quoted_amount, cost.rate * cost.quantity), cost.name);
    HOLDS_FOR(near(row.by_quantity, (quantity - cost.quantity) * cost.rate), cost.name);
    HOLDS_FOR(near(row.by_quantity + row.by_rate, amount - cost.rate * cost.quantity), cost.name);
    if (quantity > 0)
        HOLDS_FOR(near(row.by_rate, (rate - cost.rate) * quantity), cost.name);
    HOLDS(row.by_hours.has_value() == row.by_burn.has_value());
    if (row.by_hours) {
        double quoted_hours = 0;
        for (const engine::CountedLine& line : drawn.quoted.counted)
            quoted_hours += line.how == Counting::Meter ? line.quoted : 0;
        const double hours = scaled * hours_of(drawn, "");
        const double burn = cost.quantity / quoted_hours;
        HOLDS(cost.name == "fuel" &&
              near(*row.by_hours, (hours - quoted_hours) * burn * cost.rate));
        HOLDS(near(*row.by_burn, (quantity / hours - burn) * hours * cost.rate));
    }
}

} // namespace

ACREWRIGHT_TARGET(variance, bytes) {
    tests::Dice dice(bytes);
    const Drawn drawn = draw(dice);
    const std::string csv = csv_of(drawn);
    fuzz::show(csv);
    const lang::Outcome<engine::JobLog> log =
        engine::read_job_log("f.csv", csv, drawn.quoted.counted);
    HOLDS(log.value.has_value());
    const lang::Outcome<engine::VarianceAnswer> answer = engine::ask(drawn.quoted, *log);
    const double share = filled(drawn, &Day::acres) / drawn.quoted.counted[1].quoted;
    HOLDS(answer.value.has_value() == (drawn.quoted.finished || share > 0));
    if (!answer)
        return;
    const double scaled = drawn.quoted.finished || share >= 1 ? 1 : 1 / share;
    HOLDS(std::fabs(answer->scaled_by - scaled) <= 1e-9 * scaled);
    HOLDS(answer->rows.size() == drawn.quoted.costs.size());
    double quoted = 0, actual = 0;
    for (const engine::VarianceRow& row : answer->rows) {
        hold_row(drawn, row, scaled);
        quoted += row.quoted.rate * row.quoted.quantity;
        actual += row.actual_amount;
    }
    const auto near = [&](double a, double b) {
        return std::fabs(a - b) <= 1e-9 * (1 + quoted + std::fabs(actual) + drawn.quoted.price);
    };
    HOLDS(near(answer->quoted_cost, quoted) && near(answer->actual_cost, actual));
    HOLDS(near(answer->quoted_profit(), drawn.quoted.price - quoted - drawn.quoted.overhead));
    HOLDS(near(answer->actual_profit(),
               drawn.quoted.income.value_or(drawn.quoted.price) - actual - drawn.quoted.overhead));
    fuzz::show(std::to_string(answer->rows.size()) + " rows");
}

} // namespace variance_fuzz
