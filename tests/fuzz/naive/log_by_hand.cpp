#include "tests/fuzz/naive/log_by_hand.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace acre::fuzz::naive {

using engine::CountedLine;
using engine::Counting;
using engine::QuotedCost;

namespace {

Column column_of(const std::string& name) {
    static const std::map<std::string, Column> columns{
        {"acres", &LoggedRow::acres},     {"spare.acres", &LoggedRow::spare},
        {"loads", &LoggedRow::loads},     {"walk", &LoggedRow::walk},
        {"gallons", &LoggedRow::gallons}, {"tips_used", &LoggedRow::tips}};
    return columns.at(name);
}

} // namespace

double LogByHand::hours_of(const std::string& machine) const {
    double all = 0;
    for (const LoggedRow& row : drawn_.rows)
        all +=
            machine.empty() || (machine == "loader") == (row.machine == "loader") ? row.hours : 0;
    return all;
}
double LogByHand::quoted_hours() const {
    return line("hours")->quoted + (drawn_.two_machines ? line("other")->quoted : 0);
}
// Both are in the log.
bool LogByHand::by_machine() const {
    std::set<bool> named;
    for (const LoggedRow& row : drawn_.rows)
        named.insert(row.machine == "loader");
    return drawn_.two_machines && named.size() == 2;
}
double LogByHand::sum(Column column) const {
    double all = 0;
    for (const LoggedRow& row : drawn_.rows)
        all += (row.*column).value_or(0);
    return all;
}
bool LogByHand::any(Column column) const {
    return std::any_of(
        drawn_.rows.begin(), drawn_.rows.end(),
        [&](const LoggedRow& row) { return (row.*column).has_value(); });
}
double LogByHand::spent() const {
    return sum(&LoggedRow::spent);
}

// Days of which no row has the figure brought as much an hour as the others.
double LogByHand::filled(Column column) const {
    double known = 0;
    for (const LoggedRow& row : drawn_.rows)
        for (const LoggedRow& other : drawn_.rows)
            if (other.day == row.day && (other.*column).has_value()) {
                known += row.hours;
                break;
            }
    return known > 0 ? sum(column) * hours() / known : sum(column);
}

double LogByHand::days() const {
    std::set<int> worked;
    for (const LoggedRow& row : drawn_.rows) {
        double done = row.hours;
        for (const auto& figure : {row.acres, row.spare, row.loads, row.walk, row.tips})
            done += figure.value_or(0);
        if (done > 0)
            worked.insert(row.day);
    }
    return static_cast<double>(worked.size());
}

const CountedLine* LogByHand::line(const std::string& name) const {
    for (const CountedLine& one : drawn_.quoted.counted)
        if (one.name == name)
            return &one;
    return nullptr;
}

std::optional<double> LogByHand::logged(const CountedLine& one) const {
    switch (one.how) {
    case Counting::Meter:
        return by_machine() ? hours_of(one.name == "other" ? "loader" : "walt")
                            : hours() * one.quoted / quoted_hours();
    case Counting::Days:
        return days() > 0 ? std::optional(days()) : std::nullopt;
    default:
        return filled(column_of(one.name));
    }
}

std::optional<engine::Learned> LogByHand::per_hour(const CountedLine& one) const {
    if (one.how != Counting::Fuel && one.how != Counting::Work)
        return std::nullopt;
    const Column column = column_of(one.name);
    struct OfDay {
        double figure = 0, hours = 0;
        bool told = false;
    };
    std::map<int, OfDay> by_day;
    for (const LoggedRow& row : drawn_.rows) {
        OfDay& day = by_day[row.day];
        day.figure += (row.*column).value_or(0);
        day.hours += row.hours;
        day.told = day.told || (row.*column).has_value();
    }
    std::erase_if(by_day,
                  [](const auto& day) { return !day.second.told || day.second.hours == 0; });
    engine::Learned learned;
    learned.days = by_day.size();
    double figures = 0, run = 0, squares = 0;
    for (const auto& [date, day] : by_day) {
        figures += day.figure;
        run += day.hours;
    }
    if (by_day.empty())
        return learned;
    learned.value = figures / run;
    const auto n = static_cast<double>(by_day.size());
    for (const auto& [date, day] : by_day)
        squares +=
            (day.figure - learned.value * day.hours) * (day.figure - learned.value * day.hours);
    // The variance of the residuals over the days, and by it that of their mean.
    if (n > 1)
        learned.standard_error = std::sqrt(squares / (n - 1) / n) * n / run;
    return learned;
}

double LogByHand::share() const {
    return drawn_.has_acres ? filled(&LoggedRow::acres) / line("acres")->quoted
                            : hours() / quoted_hours();
}
double LogByHand::scaled_by() const {
    return drawn_.quoted.finished || share() >= 1 ? 1 : 1 / share();
}

double LogByHand::mean_fuel_price() const {
    double money = 0, gallons = 0;
    for (const LoggedRow& row : drawn_.rows)
        if (row.price && row.gallons.value_or(0) > 0) {
            money += *row.price * *row.gallons;
            gallons += *row.gallons;
        }
    return gallons > 0 ? money / gallons : 0;
}
double LogByHand::waited() const {
    double all = 0;
    for (const LoggedRow& row : drawn_.rows)
        all += row.waited ? *row.down : 0;
    return all;
}

// A part of the job has a cost over all hours of a machine.
bool LogByHand::done_by_machine(const std::string& part) const {
    for (const CountedLine& one : drawn_.quoted.counted)
        for (const QuotedCost& cost : drawn_.quoted.costs)
            if (one.how == Counting::Meter && cost.part == part && cost.quantity_unit == "h" &&
                cost.quantity == one.quoted)
                return true;
    return false;
}

void LogByHand::quantity(const QuotedCost& cost, ByHand& by_hand) const {
    const auto goes_with = [&](const CountedLine& with) {
        const std::optional<double> done = logged(with);
        if (!done)
            return;
        by_hand.from = with.how;
        by_hand.column = with.name;
        by_hand.quantity = cost.quantity * *done / with.quoted * scaled_by();
    };
    by_hand.quantity = cost.quantity;
    const std::string last_meter = drawn_.two_machines ? "other" : "hours";
    if (cost.name == "first" || cost.name == "second")
        goes_with(*line(cost.name == "first" ? "hours" : "other"));
    else if (cost.name == "walking")
        goes_with(*line("walk"));
    else if (cost.quantity_unit == "h" && done_by_machine(cost.part)) {
        by_hand.from = Counting::Meter;
        by_hand.column = last_meter;
        by_hand.quantity = cost.quantity * hours() / quoted_hours() * scaled_by();
    } else if (cost.quantity_unit == "load")
        goes_with(*line("loads"));
    else if (cost.name == "ground" && drawn_.has_acres)
        goes_with(*line("acres"));
    else if (cost.quantity_unit == "ac" && drawn_.has_acres != drawn_.has_spare) // which is clear
        goes_with(*line(drawn_.has_acres ? "acres" : "spare.acres"));
    else if (cost.quantity_unit == "gal")
        goes_with(*line("gallons"));
    else if (cost.quantity_unit == "day" || cost.quantity_unit == "trip" ||
             cost.quantity_unit == "night")
        goes_with(*line("days"));
}

ByHand LogByHand::cost(const QuotedCost& cost) const {
    ByHand by_hand;
    quantity(cost, by_hand);
    by_hand.rate = cost.rate;
    by_hand.amount = by_hand.quantity * cost.rate;
    std::optional<double> money;
    const auto& lines = drawn_.quoted.lines;
    if (cost.name == "trips" && any(&LoggedRow::spent))
        money = scaled_by() * spent();
    if (cost.name == "ground_tools" && any(&LoggedRow::tips) && !lines.empty() &&
        lines.at("crawler.tip") > 0 && lines.at("crawler.tip_life") > 0) {
        const double by_hour = lines.at("crawler.tip") / lines.at("crawler.tip_life");
        money = scaled_by() * sum(&LoggedRow::tips) * lines.at("crawler.tip") +
                (cost.rate > by_hour ? cost.rate - by_hour : 0) * by_hand.quantity;
    }
    if (money) {
        by_hand.amount = *money;
        by_hand.rate = by_hand.quantity > 0 ? *money / by_hand.quantity : cost.rate;
        by_hand.rate_known = true;
    } else if (cost.name == "fuel" && mean_fuel_price() > 0) {
        by_hand.rate = mean_fuel_price();
        by_hand.amount = by_hand.quantity * by_hand.rate;
        by_hand.rate_known = true;
    }
    return by_hand;
}

} // namespace acre::fuzz::naive
