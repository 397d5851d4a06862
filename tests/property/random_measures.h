// Random jobs in which every formula is well typed and every unit of the catalog is met: values are
// written, set and read in units that differ from the one they are declared in, some of them by a
// season for parts of the year. One throw of dice, one model, one season and one job of it.
#pragma once

#include <array>
#include <chrono>
#include <cstdio>
#include <string>
#include <vector>

#include "tests/property/measure_kinds.h"
#include "tests/support/dice.h"

namespace acre::tests {

class RandomMeasures : MeasureKinds {
  public:
    explicit RandomMeasures(Dice dice) : dice_(dice) {}

    std::string model() {
        std::string text = "model \"m\"\nnoun tree\nnoun load\nunit tank = 1,100 gal\n"
                           "choice ground = soft | firm | hard\ngiven soil : ground = firm\n";
        text += tables();
        for (std::size_t n = 3 + dice_.below(8), i = 0; i < n; ++i) {
            const std::size_t kind = dice_.below(kinds().size());
            const std::string name = "g" + std::to_string(i);
            text += in_order(
                {"given ", name, " : ", unit(kind), " = ", literal(kind), "  may be negative\n"});
            names_.push_back({name, kind});
        }
        text += "list block\npart \"Ground\" each block\n  given size = " + literal(area) + "\n";
        const std::vector<Name> outside = names_;
        names_.push_back({"size", area});
        text += in_order({"  wide : ", unit(area), " = ", formula(area, 2), "  may be negative\n"});
        names_ = outside;
        for (const char* over : {"sum(size)", "most(size)", "least(wide)", "sum(wide)"})
            names_.push_back({over, area});
        for (std::size_t n = 1 + dice_.below(6), i = 0; i < n; ++i) {
            const std::size_t kind = dice_.below(kinds().size());
            const std::string name = "l" + std::to_string(i);
            text +=
                in_order({name, " : ", unit(kind), " = ", formula(kind, 4), "  may be negative\n"});
            names_.push_back({name, kind});
        }
        return text + costs() + price();
    }

    // Values that hold for some days around the one on which the job may start, and for the rest of
    // the year.
    std::string season() {
        std::string text = "season \"s\"\n";
        start_ = 20'819 + static_cast<int>(dice_.below(800)); // from January 1, 2027
        for (const Name& name : names_)
            if (name.text.front() == 'g')
                text += values_by_day(name);
        return text + values_by_day({"soil", plain});
    }

    // Of that model and season: givens set in other units, and blocks.
    std::string job() {
        std::string text = "job \"j\"\nmodel \"m\"\nseason \"s\"\n";
        if (dice_.below(8) != 1)
            text += in_order({"date ", date(start_),
                              dice_.below(2) == 1 ? " .. " + date(start_ + 9) : "", "\n"});
        for (const Name& name : names_)
            if (name.text.front() == 'g' && dice_.below(3) == 1)
                text += in_order({"set ", name.text, " = ", literal(name.kind), "\n"});
        for (std::size_t blocks = dice_.below(3), i = 0; i < blocks; ++i)
            text +=
                in_order({"block b", std::to_string(i), "\n  set size = ", literal(area), "\n"});
        return text;
    }

  private:
    struct Name {
        std::string text;
        std::size_t kind;
    };
    std::string pick(const std::vector<const char*>& list) {
        return list[dice_.below(list.size())];
    }
    std::string unit(std::size_t kind) { return pick(kinds()[kind].units); }
    std::string digits() {
        const std::string whole = std::to_string(1 + dice_.below(90));
        switch (dice_.below(5)) {
        case 0:
            return whole;
        case 1:
            return whole + ",250.5";
        case 2:
            return "0." + std::to_string(1001 + dice_.below(8000));
        case 3:
            return whole + "e-" + std::to_string(1 + dice_.below(3));
        default:
            return whole + "." + std::to_string(10001 + dice_.below(9999)).substr(1);
        }
    }
    static std::string measured(const std::string& digits, const std::string& unit) {
        if (unit == "1")
            return "(0 + " + digits + ")"; // beside a share a bare number is none
        return unit.front() == '$' ? "$" + digits + unit.substr(1) : digits + " " + unit;
    }
    std::string literal(std::size_t kind) {
        const std::string number = digits();
        return measured(number, unit(kind));
    }

    // Days that follow each other with gaps or none, in the order of the year or against it; the
    // value of the rest of the year before, after or not at all.
    std::string values_by_day(const Name& name) {
        std::string text;
        const auto add = [&](const std::string& days) {
            const std::string value =
                name.text == "soil" ? pick({"soft", "firm", "hard"}) : literal(name.kind);
            const std::string set = in_order({"set ", name.text, " = ", value, days, "\n"});
            text = dice_.below(2) == 1 ? set + text : text + set;
        };
        int day = start_ - static_cast<int>(dice_.below(8));
        for (std::size_t spans = dice_.below(4); spans > 0; --spans) {
            const int last = day + static_cast<int>(dice_.below(4));
            add("  within " + date(day) + (last > day ? " .. " + date(last) : ""));
            day = last + 1 + static_cast<int>(dice_.below(3));
        }
        if (dice_.below(2) == 1)
            add("");
        return text;
    }
    static std::string date(int day) {
        const std::chrono::year_month_day of{std::chrono::sys_days{std::chrono::days{day}}};
        char text[40];
        std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(of.year()),
                      static_cast<unsigned>(of.month()), static_cast<unsigned>(of.day()));
        return text;
    }

    std::string tables() {
        const auto row = [](int x, const char* y) {
            return "  " + std::to_string(x) + "  " + y + "\n";
        };
        return in_order({"table used (width : ",
                         unit(length),
                         ") : ",
                         unit(burn),
                         "  below hold  above hold\n",
                         row(1, "2.5"),
                         row(20, "9"),
                         row(400, "31.25"),
                         "table fee (weight : ",
                         unit(weight),
                         ") : step ",
                         unit(money),
                         "  above hold  below hold\n",
                         row(0, "12"),
                         row(80, "310.5"),
                         "define reach (run : ",
                         unit(length),
                         ", drive : ",
                         unit(speed),
                         ", is_on : ground) : ",
                         unit(hours),
                         " = when is_on is soft then 2 * taken otherwise taken\n  taken : ",
                         unit(hours),
                         " = run / drive\n"});
    }

    std::string name(std::size_t kind) {
        std::vector<std::string> fitting;
        for (const Name& name : names_)
            if (name.kind == kind)
                fitting.push_back(name.text);
        return fitting.empty() ? literal(kind) : fitting[dice_.below(fitting.size())];
    }
    std::string product(std::size_t kind, int depth) {
        std::vector<const Made*> fitting;
        for (const Made& way : ways())
            if (way.kind == kind)
                fitting.push_back(&way);
        if (fitting.empty()) {
            const std::size_t other = dice_.below(kinds().size());
            return in_order({"(", formula(kind, depth), " * (", formula(other, depth), " / ",
                             formula(other, 0), "))"});
        }
        const Made& way = *fitting[dice_.below(fitting.size())];
        return in_order(
            {"(", formula(way.a, depth), way.over ? " / " : " * ", formula(way.b, depth), ")"});
    }
    std::string formula(std::size_t kind, int depth) {
        if (depth == 0)
            return dice_.below(2) == 1 ? name(kind) : literal(kind);
        const auto same = [&] { return formula(kind, depth - 1); };
        switch (dice_.below(13)) {
        case 0:
            return literal(kind);
        case 1:
            return name(kind);
        case 2:
            return in_order({"(", same(), " + ", same(), ")"});
        case 3:
            return in_order({"(", same(), " - ", same(), ")"});
        case 4:
        case 5:
        case 6:
            return product(kind, depth - 1);
        case 7:
            return in_order({"max(", same(), ", ", same(), ")"});
        case 8:
            return in_order({"min(", same(), ", ", same(), ")"});
        case 9:
            return in_order(
                {dice_.below(2) == 1 ? "ceil(" : "round(", same(), ", ", literal(kind), ")"});
        case 10:
            return in_order(
                {"(when ", condition(depth - 1), " then ", same(), " otherwise ", same(), ")"});
        case 11:
            return called(kind, depth - 1);
        default:
            return in_order({"(", same(), " * (", digits(), " - 2))"});
        }
    }
    std::string called(std::size_t kind, int depth) {
        switch (kind) {
        case burn:
            return in_order({"used(", formula(length, depth), ")"});
        case money:
            return in_order({"fee(", formula(weight, depth), ")"});
        case hours:
            return in_order({"reach(", formula(length, depth), ", ", formula(speed, depth), ", ",
                             pick({"soil", "soft", "hard"}), ")"});
        case length:
            return in_order({"sqrt(", formula(area, depth), ")"});
        case plain:
            return in_order({pick({"sin(", "cos(", "tan("}), formula(angle, depth), ")"});
        case angle:
            return in_order({"atan(", formula(plain, depth), ")"});
        default:
            return in_order({"abs(", formula(kind, depth), ")"});
        }
    }
    std::string condition(int depth) {
        if (dice_.below(4) == 1)
            return pick({"soil is firm", "soil is not hard", "soil is soft"});
        const std::size_t kind = dice_.below(kinds().size());
        return in_order(
            {formula(kind, depth), pick({" < ", " >= ", " > ", " <= "}), formula(kind, depth)});
    }

    std::string costs() {
        std::string text = "part \"Work\"\n";
        struct Rate {
            std::size_t rate, over;
        };
        static constexpr std::array<Rate, 5> rates{{{wage, hours},
                                                    {per_area, area},
                                                    {per_weight, weight},
                                                    {per_year, years},
                                                    {per_counted, counted}}};
        for (std::size_t n = 1 + dice_.below(3), i = 0; i < n; ++i) {
            const Rate& rate = rates[dice_.below(rates.size())];
            text += in_order({"  cost c", std::to_string(i), " : ", unit(rate.rate), " = abs(",
                              formula(rate.rate, 2), ") over abs(", formula(rate.over, 2), ")\n"});
        }
        return text + "part \"Fees\"\n  cost fixed : $ = $" + digits() + " over 1\n";
    }
    std::string price() {
        const bool lump = dice_.below(3) == 1;
        const std::size_t kind = dice_.below(2) == 1   ? area
                                 : dice_.below(2) == 1 ? counted
                                                       : volume;
        const std::string per = kinds()[kind].units[0];
        std::string text = "price \"Work\" ";
        text += lump ? "lump" : "per " + per + " of abs(" + formula(kind, 2) + ") + 1 " + per;
        text += dice_.below(3) == 1 ? " covers \"Work\"\n" : "\n";
        for (const char* step : {"overhead ", "reserve ", "markup ", "margin "})
            if (dice_.below(2) == 1)
                text += in_order({"  ", step, std::to_string(1 + dice_.below(40)), " %\n"});
        for (const char* step : {"at least ", "round up to ", "round to "})
            if (dice_.below(2) == 1)
                text += in_order({"  ", step, "$", std::to_string(1 + dice_.below(200)),
                                  !lump && dice_.below(2) == 1 ? "/" + per : "", "\n"});
        if (text.find("covers") != std::string::npos)
            text += "price \"Fees\" lump covers \"Fees\"\n  round to $" +
                    std::to_string(1 + dice_.below(9)) + "\n";
        return text;
    }

    Dice dice_;
    std::vector<Name> names_;
    int start_ = 0; // of the job, in days from January 1, 1970
};

} // namespace acre::tests
