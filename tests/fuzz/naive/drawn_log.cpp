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

std::string of_entry(const DrawnLog& drawn, const char* entry, const char* name) {
    return drawn.by_entry ? std::string(entry) + "." + name : name;
}

// Walt, and beside it perhaps a loader, which may be of the same entry, or one of Walt's kind, or
// have no hours quoted, and a tractor, whose hours two parts of the job share.
void draw_machines(DrawnLog& drawn, tests::Dice& dice) {
    std::vector<CountedLine>& counted = drawn.quoted.counted;
    drawn.by_entry = dice.below(2) == 1;
    const auto meter = [&](std::string name, const std::string& machine, double quoted,
                           std::vector<std::string> costs) {
        counted.push_back(
            {std::move(name), "h", Counting::Meter, machine, quoted, std::move(costs)});
    };
    drawn.machines = {"walt.rig"};
    meter(of_entry(drawn, "walt", "hours"), "walt.rig", whole(dice, 1, 90), {"first"});
    if (dice.below(5) == 1) // it works in another part too
        meter(of_entry(drawn, dice.below(2) == 1 ? "walt" : "again", "more_hours"), "walt.rig",
              whole(dice, 1, 40), {"ends"});
    if (dice.below(2) == 1) {
        const char* const others[] = {"loader", "walt.loader", "loader", "hazel.rig"};
        drawn.machines.emplace_back(others[dice.below(4)]);
        meter(of_entry(drawn, "loader", "other"), drawn.machines.back(),
              dice.below(6) == 1 ? 0 : whole(dice, 1, 90), {"second"});
    }
    if (dice.below(3) == 1) {
        drawn.machines.emplace_back("tractor");
        meter("tractor_hours", "tractor", whole(dice, 2, 40), {});
    }
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
    draw_machines(drawn, dice);
    if (drawn.has_acres)
        counted.push_back({"acres", "ac", Counting::Work, "", whole(dice, 1, 200), {"ground"}});
    counted.push_back({"gallons", "gal", Counting::Fuel, "", whole(dice, 1, 900), {"fuel"}});
    counted.push_back({"days", "day", Counting::Days, "", whole(dice, 1, 20), {"meals"}});
}

// Costs in the hours of machines; all of them.
std::vector<QuotedCost> hourly_costs(const DrawnLog& drawn, tests::Dice& dice) {
    double all = 0;
    std::vector<QuotedCost> costs;
    for (const CountedLine& line : drawn.quoted.counted) {
        all += line.how == Counting::Meter ? line.quoted : 0;
        if (line.how == Counting::Meter && !line.costs.empty()) {
            const char* part = line.costs[0] == "ends"     ? "Ends"
                               : line.costs[0] == "second" ? dice.below(2) == 1 ? "Load" : "Work"
                                                           : "Work";
            costs.push_back({line.costs[0], "", part, "$/h", "h", 0, line.quoted});
            costs.push_back({"helper", "", part, "$/h", "h", 0, whole(dice, 1, 90)});
        } else if (line.how == Counting::Meter) {
            const double floated = whole(dice, 1, 9);
            if (line.quoted > floated)
                costs.push_back({"disc", "", "Disc", "$/h", "h", 0, line.quoted - floated});
            costs.push_back({"float", "", "Float", "$/h", "h", 0, floated});
        }
    }
    costs.push_back({"crew", "", "Work", "$/h", "h", 0, whole(dice, 1, 3) * all});
    costs.push_back({"ground_tools", "", "Work", "$/h", "h", 0, all});
    costs.push_back({"truck", "", "Move", "$/h", "h", 0, all + 7});
    if (drawn.by_entry) {
        costs.push_back({"walt.tips", "", "Work", "$/h", "h", 0, whole(dice, 1, 50)});
        costs.push_back({"loader.tires", "", "Work", "$/h", "h", 0, whole(dice, 1, 50)});
    }
    return costs;
}

// All fuel is one cost, or each machine has its own, and perhaps something else burns too.
std::vector<QuotedCost> fuel_costs(DrawnLog& drawn, tests::Dice& dice) {
    for (CountedLine& line : drawn.quoted.counted) {
        if (line.how != Counting::Fuel)
            continue;
        if (!drawn.by_entry)
            return {{"fuel", "", "Work", "$/gal", "gal", 0, line.quoted}};
        std::vector<QuotedCost> costs;
        for (const char* name : {"walt.fuel", "loader.fuel", "walt.idling", "again.fuel", "pump"})
            if (dice.below(name[0] == 'p' ? 8 : 2) == 1)
                costs.push_back({name, "", "Work", "$/gal", "gal", 0, whole(dice, 1, 900)});
        line.quoted = costs.empty() ? line.quoted : 0;
        for (const QuotedCost& cost : costs)
            line.quoted += cost.quantity;
        line.costs.clear();
        if (costs.size() == 1)
            line.costs = {costs[0].name};
        return costs;
    }
    return {};
}

void draw_costs(DrawnLog& drawn, tests::Dice& dice) {
    const auto quoted = [&](const char* name) {
        for (const CountedLine& line : drawn.quoted.counted)
            if (line.name == name)
                return line.quoted;
        return 60.0;
    };
    std::vector<QuotedCost> costs = hourly_costs(drawn, dice);
    for (QuotedCost& cost : fuel_costs(drawn, dice))
        costs.push_back(std::move(cost));
    costs.insert(costs.end(), {{"walking", "", "Office", "$/h", "h", 0, quoted("walk")},
                               {"hauling", "", "Move", "$/load", "load", 0, quoted("loads")},
                               {"ground", "", "Work", "$/ac", "ac", 0, quoted("acres")},
                               {"seed", "", "Work", "$/ac", "ac", 0, quoted("acres") / 2},
                               {"meals", "", "Work", "$/day", "day", 0, quoted("days")},
                               {"trips", "", "Move", "$/trip", "trip", 0, whole(dice, 1, 9)},
                               {"nights", "", "Move", "$/night", "night", 0, whole(dice, 1, 9)},
                               {"permit", "", "Move", "$", "", 0, 1}});
    for (QuotedCost& cost : costs) {
        cost.rate = whole(dice, 1, 400) / 4;
        if (dice.below(3) != 1)
            drawn.quoted.costs.push_back(std::move(cost));
    }
}

// A machine of the job, called in one of many ways; one that it does not have; or none.
void draw_name(const DrawnLog& drawn, LoggedRow& row, tests::Dice& dice) {
    const std::size_t way = dice.below(8);
    if (way == 7) {
        const char* const others[] = {"", "wlat", "Kestrel", "load er", "tractor 2", "rig"};
        row.machine = others[dice.below(6)];
        for (std::size_t i = 0; i < drawn.machines.size(); ++i)
            if (drawn.machines[i] == "tractor" && row.machine == "tractor 2")
                row.whose = {i};
        row.numbered = true;
        return;
    }
    const std::size_t at = dice.below(drawn.machines.size());
    const std::string& full = drawn.machines[at];
    row.machine = way < 4 ? full.substr(0, full.find('.')) : full;
    row.whose = {at};
    if (row.machine == "walt") // of both machines of that entry
        for (std::size_t i = 0; i < drawn.machines.size(); ++i)
            if (drawn.machines[i].starts_with("walt."))
                row.whose.insert(i);
    if (way % 2 == 1)
        row.machine[0] = static_cast<char>(row.machine[0] - 'a' + 'A');
    if (way == 3)
        row.machine += " ";
}

// Hours that another row has already, of the same meter or of another.
void overlap(const DrawnLog& drawn, LoggedRow& row, tests::Dice& dice) {
    if (drawn.rows.empty())
        return;
    const LoggedRow& other = drawn.rows[dice.below(drawn.rows.size())];
    row.start = other.start + other.tenths - 1;
}

void draw_row(DrawnLog& drawn, tests::Dice& dice) {
    LoggedRow row;
    const std::size_t step = dice.below(6);
    row.day = drawn.rows.empty() ? 1 : drawn.rows.back().day;
    row.day += drawn.rows.empty() || step % 3 == 1 ? 0 : step == 5 ? -1 : 1;
    row.day = row.day < 1 ? 1 : row.day;
    draw_name(drawn, row, dice);
    row.start = drawn.rows.empty() ? 1003 : drawn.rows.back().start + drawn.rows.back().tenths;
    row.tenths = static_cast<int>(dice.below(121));
    row.has_meter = dice.below(8) != 1;
    if (!row.has_meter)
        row.tenths = 0;
    if (dice.below(4) == 1)
        row.hourly = dice.below(2) == 1 ? row.tenths : row.tenths / 3;
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
    if (dice.below(40) == 39)
        overlap(drawn, row, dice);
    drawn.rows.push_back(std::move(row));
}

void put_hours(const Written& written, const LoggedRow& row, std::string& text) {
    char cells[80];
    const auto put = [&](bool there, int tenths) {
        std::snprintf(cells, sizeof cells, "%d.%d", tenths / 10, tenths % 10);
        text += written.between;
        text += there ? cells : "";
    };
    put(row.has_meter, row.start);
    put(row.has_meter, row.start + row.tenths);
    put(row.hourly > 0, row.hourly);
    text += written.between;
    text += row.hourly > 0 ? "\"hole, 12\"" : "";
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
    drawn.written = {",;\t"[dice.below(3)], dice.below(2) == 1, dice.below(3) == 1,
                     dice.below(3) == 1};
    for (std::size_t rows = 1 + dice.below(8); rows > 0; --rows)
        draw_row(drawn, dice);
    return drawn;
}

std::string csv_of(const DrawnLog& drawn) {
    const Written& written = drawn.written;
    std::vector<std::string> heads = {written.american ? "date mm/dd/yyyy" : "date",
                                      "machine",
                                      "meter_start",
                                      "meter_stop",
                                      "hourly_hours",
                                      "refused_at",
                                      "gallons",
                                      "loads",
                                      "walk",
                                      "tips_used",
                                      "fuel_price",
                                      "down_hours",
                                      "amount.trips",
                                      "crew_waited"};
    if (drawn.has_acres)
        heads.emplace_back("acres");
    if (drawn.has_spare)
        heads.emplace_back("spare.acres");
    if (written.has_empty)
        heads.emplace_back();
    std::string text;
    for (std::string& head : heads) {
        if (written.capitals && !head.empty() && !head.starts_with("amount")) {
            head[0] = static_cast<char>(head[0] - 'a' + 'A');
            if (const std::size_t at = head.find('_'); at != std::string::npos)
                head[at] = ' ';
        }
        text += (text.empty() ? "" : std::string(1, written.between)) + head;
    }
    text += "\n";
    for (const LoggedRow& row : drawn.rows) {
        char cells[400];
        const auto put = [&](const std::optional<double>& cell) {
            std::snprintf(cells, sizeof cells, "%c%.17g", written.between, cell.value_or(0));
            text += cell ? cells : std::string(1, written.between);
        };
        std::snprintf(cells, sizeof cells, written.american ? "3/%d/2027" : "2027-03-%02d",
                      row.day);
        text += cells + std::string(1, written.between) + row.machine;
        put_hours(written, row, text);
        for (const auto& cell :
             {row.gallons, row.loads, row.walk, row.tips, row.price, row.down, row.spent})
            put(cell);
        text += written.between;
        text += row.waited ? written.capitals ? "Yes" : "yes" : "";
        if (drawn.has_acres)
            put(row.acres);
        if (drawn.has_spare)
            put(row.spare);
        if (written.has_empty) // and a row of nothing
            text += written.between + ("\n" + std::string(heads.size() - 1, written.between));
        text += "\n";
    }
    return text;
}

} // namespace acre::fuzz::naive
