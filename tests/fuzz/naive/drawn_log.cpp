#include "tests/fuzz/naive/drawn_log.h"

#include <cstdio>
#include <utility>

namespace acre::fuzz::naive {

using engine::CountedLine;
using engine::Counting;
using engine::QuotedCost;

namespace {

double whole(tests::Dice& dice, std::size_t low, std::size_t high) {
    return static_cast<double>(low + dice.below(high - low + 1));
}

// The lines that its model counts. What a log may leave out stands first: nothing goes by the
// order.
void draw_counted(DrawnLog& drawn, tests::Dice& dice) {
    std::vector<CountedLine>& counted = drawn.quoted.counted;
    counted.push_back({"loads", "load", Counting::Work, "", whole(dice, 1, 40), {"hauling"}, true});
    counted.push_back({"walk", "h", Counting::Work, "", whole(dice, 1, 90), {"walking"}, true});
    counted.push_back({"tips_used", "tip", Counting::Work, "", whole(dice, 1, 9), {}, true});
    if (drawn.has_spare)
        counted.push_back({"spare.acres", "ac", Counting::Work, "", whole(dice, 1, 200), {}});
    counted.push_back({"hours", "h", Counting::Meter, "walt.rig", whole(dice, 1, 90), {"first"}});
    if (drawn.has_acres)
        counted.push_back({"acres", "ac", Counting::Work, "", whole(dice, 1, 200), {"ground"}});
    counted.push_back({"gallons", "gal", Counting::Fuel, "", whole(dice, 1, 900), {"fuel"}});
    counted.push_back({"days", "day", Counting::Days, "", whole(dice, 1, 20), {"meals"}});
    if (drawn.two_machines)
        counted.push_back(
            {"other", "h", Counting::Meter, "loader", whole(dice, 1, 90), {"second"}});
}

void draw_costs(DrawnLog& drawn, tests::Dice& dice) {
    const auto quoted = [&](const char* name) {
        for (const CountedLine& line : drawn.quoted.counted)
            if (line.name == name)
                return line.quoted;
        return 60.0;
    };
    const double all = quoted("hours") + (drawn.two_machines ? quoted("other") : 0);
    const QuotedCost costs[] = {
        {"first", "", "Work", "$/h", "h", 0, quoted("hours")},
        {"second", "", "Work", "$/h", "h", 0, quoted("other")},
        {"crew", "", "Work", "$/h", "h", 0, whole(dice, 1, 3) * all},
        {"ground_tools", "", "Work", "$/h", "h", 0, all},
        {"truck", "", "Move", "$/h", "h", 0, all + 7},
        {"walking", "", "Office", "$/h", "h", 0, quoted("walk")},
        {"hauling", "", "Move", "$/load", "load", 0, quoted("loads")},
        {"ground", "", "Work", "$/ac", "ac", 0, quoted("acres")},
        {"seed", "", "Work", "$/ac", "ac", 0, quoted("acres") / 2},
        {"fuel", "", "Work", "$/gal", "gal", 0, quoted("gallons")},
        {"meals", "", "Work", "$/day", "day", 0, quoted("days")},
        {"trips", "", "Move", "$/trip", "trip", 0, whole(dice, 1, 9)},
        {"nights", "", "Move", "$/night", "night", 0, whole(dice, 1, 9)},
        {"permit", "", "Move", "$", "", 0, 1},
    };
    for (QuotedCost cost : costs) {
        cost.rate = whole(dice, 1, 400) / 4;
        if (dice.below(3) != 1 && (cost.name != "second" || drawn.two_machines))
            drawn.quoted.costs.push_back(cost);
    }
}

void draw_row(DrawnLog& drawn, tests::Dice& dice) {
    LoggedRow row;
    const bool another_day = dice.below(3) != 1;
    row.day = drawn.rows.empty() ? 1 : drawn.rows.back().day + (another_day ? 1 : 0);
    const bool loader = drawn.two_machines && dice.below(2) == 1;
    row.machine = loader ? "loader" : dice.below(4) == 1 ? "Walt.rig" : "walt";
    row.hours = whole(dice, 0, 48) / 4;
    const auto perhaps = [&](double most) {
        return dice.below(5) == 1 ? std::optional<double>() : whole(dice, 0, 80) / 80 * most;
    };
    if (drawn.has_acres)
        row.acres = perhaps(40);
    if (drawn.has_spare)
        row.spare = perhaps(40);
    row.gallons = perhaps(400);
    row.loads = dice.below(3) == 1 ? perhaps(20) : 0;
    row.walk = dice.below(3) == 1 ? perhaps(9) : 0;
    if (dice.below(4) == 1)
        row.tips = whole(dice, 0, 5);
    if (dice.below(2) == 1)
        row.price = whole(dice, 1, 36) / 4;
    if (dice.below(4) == 1)
        row.spent = whole(dice, 0, 900);
    if (dice.below(3) == 1) {
        row.down = whole(dice, 1, 40) / 4;
        row.waited = dice.below(2) == 1;
    }
    drawn.rows.push_back(std::move(row));
}

} // namespace

DrawnLog draw_log(tests::Dice& dice) {
    DrawnLog drawn;
    engine::Quoted& quoted = drawn.quoted;
    quoted.quote = "2027-001";
    quoted.price = whole(dice, 1, 200) * 100;
    quoted.overhead = whole(dice, 0, 50) * 10;
    quoted.finished = dice.below(3) != 1;
    if (dice.below(2) == 1)
        quoted.income = whole(dice, 0, 200) * 100;
    drawn.two_machines = dice.below(2) == 1;
    drawn.has_acres = dice.below(4) != 1;
    drawn.has_spare = dice.below(4) == 1;
    draw_counted(drawn, dice);
    draw_costs(drawn, dice);
    if (dice.below(2) == 1)
        quoted.lines = {{"crawler.tip", whole(dice, 0, 300)},
                        {"crawler.tip_life", whole(dice, 0, 20)},
                        {"standby_crew", whole(dice, 0, 900)},
                        {"crew.meter_per_day", whole(dice, 0, 10)},
                        {"machines", whole(dice, 0, 3)}};
    for (std::size_t rows = 1 + dice.below(8); rows > 0; --rows)
        draw_row(drawn, dice);
    return drawn;
}

std::string csv_of(const DrawnLog& drawn) {
    std::string text = "date,machine,meter_start,meter_stop,gallons,loads,walk,tips_used,"
                       "fuel_price,down_hours,amount.trips,crew_waited";
    text += drawn.has_acres ? ",acres" : "";
    text += drawn.has_spare ? ",spare.acres" : "";
    text += "\n";
    double meter = 100;
    for (const LoggedRow& row : drawn.rows) {
        char cells[400];
        const auto put = [&](const std::optional<double>& cell) {
            std::snprintf(cells, sizeof cells, ",%.17g", cell.value_or(0));
            text += cell ? cells : ",";
        };
        std::snprintf(cells, sizeof cells, "2027-03-%02d,%s,%.2f,%.2f", row.day,
                      row.machine.c_str(), meter, meter + row.hours);
        text += cells;
        for (const auto& cell :
             {row.gallons, row.loads, row.walk, row.tips, row.price, row.down, row.spent})
            put(cell);
        text += row.waited ? ",yes" : ",";
        if (drawn.has_acres)
            put(row.acres);
        if (drawn.has_spare)
            put(row.spare);
        text += "\n";
        meter += row.hours;
    }
    return text;
}

} // namespace acre::fuzz::naive
