// Random models in which every formula is well typed: a formula is made for the unit it must have.
// One throw of dice, one text.
#pragma once

#include <string>
#include <vector>

#include "tests/support/dice.h"

namespace acre::tests {

class RandomModel {
  public:
    explicit RandomModel(Dice dice) : dice_(dice) {}

    // Givens g0 … g14 and lines l0 … of the units below.
    std::string text(int lines) {
        std::string text = beginning();
        for (const std::string& unit : units)
            for (int i = 0; i < 3; ++i)
                names_.push_back({"g" + std::to_string(names_.size()), unit});
        for (const Name& name : names_)
            text += "given " + name.text + " = " + literal(name.unit, false) + "\n";
        return text + lines_of(lines);
    }

    // The same as a whole model with bounds and swings, blocks, costs, an event, conditions and a
    // price.
    std::string priced_text(int lines) {
        std::string text = beginning();
        for (const std::string& unit : units) {
            for (int i = 0; i < 3; ++i) {
                names_.push_back({"g" + std::to_string(names_.size()), unit});
                text += in_order({"given ", names_.back().text, " = ", literal(unit, false),
                                  bounds(unit, names_.size() > 2), "\n"});
            }
        }
        text +=
            "list block\npart \"Ground\" each block\n  given size = " + literal("ft", false) + "\n";
        const std::vector<Name> outside = names_;
        names_.push_back({"size", "ft"});
        text += "  wide : ft = " + number("ft", 3) + "  may be negative\n";
        names_ = outside;
        for (const char* over : {"sum(wide)", "most(wide)", "least(size)"})
            names_.push_back({over, "ft"});
        text += lines_of(lines);
        text += "part \"Costs\"\n";
        for (std::size_t costs = 1 + dice_.below(3), i = 0; i < costs; ++i)
            text += in_order({"  cost c", std::to_string(i), " : $/h = ", number("$/h", 3),
                              " over ", number("h", 3), "\n"});
        if (dice_.below(3) == 1)
            text += in_order({"event tip = ", literal("1", false), " 1/h over ", number("h", 2),
                              " costs $180\ncost tips : $/h = tip.amount / 1 h over 1 h\n"});
        if (dice_.below(2) == 1)
            text += in_order({"require ", condition(2), "  \"as it must be\"",
                              pick({"", " costs $900", " costs $90 * abs(g0)"}), "\n"});
        if (dice_.below(2) == 1)
            text += in_order({"caution when ", condition(2), "  \"look twice\"\n"});
        if (dice_.below(3) == 1)
            text += "correlate g0, g1 40 %\n";
        text += in_order({"price \"Work\" ",
                          dice_.below(3) == 1 ? "lump" : "per ft of " + number("ft", 2), "\n"});
        for (const char* step : {"overhead 9 %", "reserve 5 %", "markup 10 %", "margin 15 %",
                                 "at least $650", "round up to $5", "round to $1"})
            if (dice_.below(2) == 1)
                text += in_order({"  ", step, "\n"});
        return text;
    }

    // A job of that model: blocks, options and values of its own.
    std::string job(const std::string& model) {
        std::string text = "job \"j\"\nmodel \"" + model + "\"\n";
        for (std::size_t given = dice_.below(8); given < 15 && dice_.below(3) != 0;
             given += 1 + dice_.below(4))
            text +=
                in_order({"set g", std::to_string(given), " = ", literal(units[given / 3], false),
                          pick({"", "", "  swing pert 80 % .. 130 % of it"}), "\n"});
        for (std::size_t blocks = dice_.below(3), i = 0; i < blocks; ++i)
            text += in_order(
                {"block b", std::to_string(i), "\n  set size = ", literal("ft", false), "\n"});
        return text;
    }

    const std::vector<std::string> units = {"1", "ft", "h", "mi/h", "$/h"};

  private:
    struct Name {
        std::string text, unit;
    };

    std::size_t below(std::size_t n) { return dice_.below(n); }
    std::string pick(const std::vector<std::string>& list) { return list[below(list.size())]; }

    static std::string beginning() {
        return "model \"m\"\n"
               "choice ground = soft | firm | hard\n"
               "given soil : ground = firm\n"
               "given ground_now : ground = hard\n"
               "table burn (load : 1) : gal/h below hold above error\n  -4  2\n  0  3.5\n  1  "
               "9.25\n  6  11\n"
               "table fee (weight : 1) : step 1 above hold\n  -3  1\n  2  4\n  5  0.5\n"
               "define reach (a : ft, b : 1) : ft = wide * b - a / (1 + b ^ 2)\n  wide : ft = a + "
               "2 ft\n"
               "define eased (x : 1) : 1 = when x < 0 then -reach(x * 1 ft, 2) / 1 ft otherwise "
               "sqrt(x)\n"
               "  limit x -40 .. 400\n"
               "define mixed (s : ground, x : 1) : 1 = when s is soft then x / 2 when s is hard "
               "then x + 1 otherwise eased(x)\n";
    }
    std::string lines_of(int lines) {
        std::string text;
        for (int i = 0; i < lines; ++i) {
            const std::string unit = pick(units);
            const std::string name = "l" + std::to_string(i);
            text += name + " : " + unit + " = " + number(unit, 5) + "  may be negative\n";
            names_.push_back({name, unit});
        }
        return text;
    }
    // The first two givens are correlated, so they are not chosen.
    std::string bounds(const std::string& unit, bool may_be_chosen) {
        const auto both = [&](const std::string& low, const std::string& high) {
            return low + (unit == "1" ? "" : " " + unit) + " .. " + high +
                   (unit == "1" ? "" : " " + unit);
        };
        std::string text;
        if (below(2) == 1)
            text += "  within " + both("0", "50");
        if (below(2) == 1)
            text += in_order({"  ",
                              pick({"swing ", "swing ", "swing pert ", "swing even ",
                                    "swing whole ", may_be_chosen ? "choose " : "swing "}),
                              both("1", "45")});
        return text;
    }
    std::string literal(const std::string& unit, bool other_units) {
        const std::string whole = std::to_string(below(40));
        const std::string digits = whole + "." + std::to_string(below(1000) + 1000).substr(1);
        if (unit == "1")
            // Within a sum: beside a share by itself a bare number would be none (S124).
            return other_units && below(4) == 1 ? "(0 + " + digits + " %)" : digits;
        if (unit == "ft" && other_units)
            return digits + pick({" in", " ft", " mi", " m"});
        if (unit == "h" && other_units)
            return digits + pick({" min", " h", " s"});
        return digits + " " + unit;
    }
    std::string name(const std::string& unit) {
        std::vector<std::string> fitting;
        for (const Name& name : names_)
            if (name.unit == unit)
                fitting.push_back(name.text);
        return pick(fitting);
    }
    std::string number(const std::string& unit, int depth) {
        if (depth == 0)
            return below(3) == 1 ? literal(unit, true) : name(unit);
        const auto same = [&] { return number(unit, depth - 1); };
        const auto plain = [&] { return number("1", depth - 1); };
        switch (below(unit == "1" ? 24 : 14)) {
        case 0:
            return name(unit);
        case 1:
            return literal(unit, true);
        case 2:
            return in_order({"(", same(), " + ", same(), ")"});
        case 3:
            return in_order({"(", same(), " - ", same(), ")"});
        case 4:
            return in_order({"(", same(), " * ", plain(), ")"});
        case 5:
            return in_order({"(", same(), " / ", plain(), ")"});
        case 6:
            return in_order({"min(", same(), ", ", same(), ", ", same(), ")"});
        case 7:
            return in_order({"max(", same(), ", ", same(), ")"});
        case 8:
            return in_order({"(-abs(", same(), "))"});
        case 9:
            return in_order(
                {"(when ", condition(depth - 1), " then ", same(), " otherwise ", same(), ")"});
        case 10:
            return in_order(
                {pick({"ceil", "floor", "round"}), "(", same(), ", ", literal(unit, false), ")"});
        case 11:
            return unit == "ft" ? in_order({"reach(", same(), ", ", plain(), ")"}) : same();
        case 12:
            return unit == "ft" ? in_order({"(", number("h", depth - 1), " * ",
                                            number("mi/h", depth - 1), ")"})
                                : same();
        case 13:
            return in_order({"(", plain(), " * ", same(), ")"});
        case 14:
            return in_order({"sqrt(", plain(), ")"});
        case 15:
            return in_order({"exp(", plain(), " / 50)"});
        case 16:
            return in_order({"log(", plain(), ")"});
        case 17:
            return in_order({"(", plain(), " ^ 3)"});
        case 18:
            return in_order({"(", number("ft", depth - 1), " / ", number("ft", depth - 1), ")"});
        case 19:
            return in_order({"sin(", plain(), " * 1 deg)"});
        case 20:
            return in_order({"eased(", plain(), ")"});
        case 21:
            return in_order({"mixed(", pick({"soil", "ground_now", "hard"}), ", ", plain(), ")"});
        case 22:
            return in_order({"(burn(", plain(), ") / 1 gal/h)"});
        default:
            return in_order({"fee(", plain(), ")"});
        }
    }
    std::string condition(int depth) {
        const std::string unit = pick(units);
        const auto inner = [&] { return "(" + condition(depth - 1) + ")"; };
        if (depth <= 0)
            return in_order({name(unit), " < ", name(unit)});
        switch (below(7)) {
        case 1:
            return in_order({inner(), " and ", inner()});
        case 2:
            return in_order({inner(), " or ", inner()});
        case 3:
            return in_order({"not ", inner()});
        case 4:
            return pick(
                {"soil is firm", "soil is not firm", "ground_now is soft", "ground_now is hard"});
        default:
            return in_order({number(unit, depth - 1),
                             pick({" < ", " <= ", " > ", " >= ", " == ", " != "}),
                             number(unit, depth - 1)});
        }
    }

    Dice dice_;
    std::vector<Name> names_;
};

} // namespace acre::tests
