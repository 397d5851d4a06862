#include "tests/fuzz/naive/log_by_hand.h"

#include <algorithm>
#include <cmath>
#include <map>

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

double LogByHand::hours() const {
    int tenths = 0;
    for (const LoggedRow& row : drawn_.rows)
        tenths += row.tenths;
    return tenths / 10.0;
}
double LogByHand::hourly() const {
    int tenths = 0;
    for (const LoggedRow& row : drawn_.rows)
        tenths += row.hourly;
    return tenths / 10.0;
}
double LogByHand::quoted_hours() const {
    double all = 0;
    for (const CountedLine* meter : meters_)
        all += meter->quoted;
    return all;
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

// Hours billed by the hour bring no work, but burn; nor do those of a machine of other work.
int LogByHand::tenths_for(const CountedLine& one, const LoggedRow& row) const {
    if (one.how == Counting::Fuel)
        return row.tenths;
    return !one.optional && is_of_other_work(column_of(one.name), row) ? 0
                                                                       : row.tenths - row.hourly;
}

// A kind of machine that never does a work, where others are named that do all of it.
bool LogByHand::is_of_other_work(Column column, const LoggedRow& row) const {
    std::set<std::string> kinds;
    for (const LoggedRow& other : drawn_.rows)
        if ((other.*column).value_or(0) > 0)
            kinds.insert(kind_of(other));
    return !kinds.empty() && !kinds.contains("") && !kind_of(row).empty() &&
           !kinds.contains(kind_of(row));
}

// Days of which no row has the figure brought as much an hour as the others.
double LogByHand::filled(const CountedLine& one) const {
    const Column column = column_of(one.name);
    int all = 0, known = 0;
    for (const LoggedRow& row : drawn_.rows) {
        all += tenths_for(one, row);
        for (const LoggedRow& other : drawn_.rows)
            if (other.day == row.day && (other.*column).has_value()) {
                known += tenths_for(one, row);
                break;
            }
    }
    return known > 0 ? sum(column) * all / known : sum(column);
}

double LogByHand::days() const {
    std::set<int> worked;
    for (const LoggedRow& row : drawn_.rows) {
        double done = row.tenths;
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

// A machine's hours are those of its meters in the share quoted. Of one that is not in the log
// neither hours nor days nor fuel are known.
std::optional<double> LogByHand::logged(const CountedLine& one) const {
    if (one.how == Counting::Days)
        return days() > 0 && all_are_logged() ? std::optional(days()) : std::nullopt;
    if (one.how == Counting::Fuel && !all_are_logged())
        return std::nullopt;
    if (one.how != Counting::Meter)
        return filled(one);
    if (is_unlogged(one))
        return std::nullopt;
    double quoted = 0;
    for (const CountedLine* meter : meters_)
        quoted += meter->machine == one.machine ? meter->quoted : 0;
    std::size_t at = 0;
    while (drawn_.machines[at] != one.machine)
        ++at;
    return hours_[at] * (quoted > 0 ? one.quoted / quoted : 1);
}

std::optional<engine::Learned> LogByHand::per_hour(const CountedLine& one) const {
    if (one.how != Counting::Fuel && one.how != Counting::Work)
        return std::nullopt;
    const Column column = column_of(one.name);
    struct OfDay {
        double figure = 0;
        int tenths = 0;
        bool told = false;
    };
    std::map<int, OfDay> by_day;
    for (const LoggedRow& row : drawn_.rows) {
        OfDay& day = by_day[row.day];
        day.figure += (row.*column).value_or(0);
        day.tenths += tenths_for(one, row);
        day.told = day.told || (row.*column).has_value();
    }
    std::erase_if(by_day,
                  [](const auto& day) { return !day.second.told || day.second.tenths == 0; });
    engine::Learned learned;
    learned.days = by_day.size();
    double figures = 0, squares = 0;
    for (const auto& [date, day] : by_day) {
        figures += day.figure;
        learned.hours += day.tenths / 10.0;
    }
    if (by_day.empty())
        return learned;
    learned.value = figures / learned.hours;
    const auto n = static_cast<double>(by_day.size());
    for (const auto& [date, day] : by_day) {
        const double off = day.figure - learned.value * day.tenths / 10.0;
        squares += off * off;
    }
    // The variance of the residuals over the days, and by it that of their mean.
    if (n > 1)
        learned.standard_error = std::sqrt(squares / (n - 1) / n) * n / learned.hours;
    return learned;
}

double LogByHand::share() const {
    return drawn_.has_acres ? filled(*line("acres")) / line("acres")->quoted
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

// Of all fuel, what the rows of its machine have: where each row with fuel is of one machine with a
// cost of fuel, and each cost of fuel of one machine. Costs of one machine have it in the share
// quoted.
std::optional<double> LogByHand::own_fuel(const QuotedCost& cost) const {
    std::map<std::string, double> of_costs, burned;
    for (const QuotedCost& other : drawn_.quoted.costs) {
        if (other.quantity_unit != "gal")
            continue;
        if (own_meter(other) == nullptr)
            return std::nullopt;
        of_costs[own_meter(other)->machine] += other.quantity;
    }
    double all = 0;
    for (const LoggedRow& row : drawn_.rows) {
        if (row.gallons.value_or(0) == 0)
            continue;
        if (row.whose.size() != 1 || !of_costs.contains(drawn_.machines[*row.whose.begin()]))
            return std::nullopt;
        all += *row.gallons;
        burned[drawn_.machines[*row.whose.begin()]] += *row.gallons;
    }
    if (all == 0)
        return std::nullopt;
    const std::string& machine = own_meter(cost)->machine;
    return filled(*line("gallons")) * burned[machine] / all * cost.quantity / of_costs[machine];
}

void LogByHand::quantity(const QuotedCost& cost, ByHand& by_hand) const {
    by_hand.quantity = cost.quantity;
    const auto is_from = [&](const CountedLine& with, double quantity) {
        by_hand.from = with.how;
        by_hand.column = with.how == Counting::Fuel || with.how == Counting::Work ? with.name : "";
        by_hand.quantity = quantity * scaled_by();
    };
    const auto goes_with = [&](const CountedLine& with) {
        if (const std::optional<double> done = logged(with))
            is_from(with, cost.quantity * *done / with.quoted);
    };
    const std::optional<Hours> hours = hours_of(cost);
    by_hand.expected = hours ? hours->quoted : 0;
    by_hand.run = hours ? scaled_by() * hours->run : 0;
    const auto over = std::find_if(meters_.begin(), meters_.end(), [&](const CountedLine* meter) {
        return meter->costs == std::vector<std::string>{cost.name} && !is_unlogged(*meter);
    });
    if (over != meters_.end())
        is_from(**over, *logged(**over));
    else if (cost.name == "walking")
        goes_with(*line("walk"));
    else if (cost.quantity_unit == "h" && !meters_of(cost).empty() && hours)
        is_from(*meters_[0], cost.quantity * hours->run / hours->quoted);
    else if (cost.quantity_unit == "load")
        goes_with(*line("loads"));
    else if (cost.name == "ground" && drawn_.has_acres)
        goes_with(*line("acres"));
    else if (cost.quantity_unit == "ac" && drawn_.has_acres != drawn_.has_spare) // which is clear
        goes_with(*line(drawn_.has_acres ? "acres" : "spare.acres"));
    else if (cost.quantity_unit == "gal") {
        goes_with(*line("gallons"));
        if (const std::optional<double> own = own_fuel(cost); own && all_are_logged())
            is_from(*line("gallons"), *own);
    } else if (cost.quantity_unit == "day" || cost.quantity_unit == "trip" ||
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
    } else if (by_hand.from == Counting::Fuel && mean_fuel_price() > 0) {
        by_hand.rate = mean_fuel_price();
        by_hand.amount = by_hand.quantity * by_hand.rate;
        by_hand.rate_known = true;
    }
    return by_hand;
}

} // namespace acre::fuzz::naive
