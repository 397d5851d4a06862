// Random texts of the notation: models with odd spacing that can be read, and formulas together
// with the tree they must make. One seed, one text.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "tests/support/dice.h"

namespace acre::tests {

struct RandomFormula {
    std::string text; // with brackets where they are needed, and some where they are not
    std::string tree; // as dump() writes it
    int strength = 9; // of its outermost operator; 9 for a value that needs no brackets
};

class RandomProgram {
  public:
    explicit RandomProgram(std::uint32_t seed) : dice_(seed) {}
    explicit RandomProgram(Dice dice) : dice_(dice) {}

    // A formula whose tree is at most `depth` levels deep.
    RandomFormula formula(int depth) {
        return one_of(8) == 0 ? when(depth) : condition_or_value(depth);
    }

    std::string model() {
        std::string text =
            one_of(4) == 0 ? "# before\n\nmodel \"m\"\n" : "model \"m\"  # what it is\n";
        for (int parts = 1 + one_of(4); parts > 0; --parts) {
            text += free_lines(0);
            text += statement_with_inner_lines();
        }
        text += names_of_lines();
        return in_order({text, "price \"P\" per ac of", blanks(), name(), "\n", steps()});
    }

  private:
    int one_of(int n) { return static_cast<int>(dice_.below(static_cast<std::size_t>(n))); }
    template <typename T> const T& pick(const std::vector<T>& list) {
        return list[static_cast<std::size_t>(one_of(static_cast<int>(list.size())))];
    }
    std::string maybe(const std::string& text) { return one_of(2) == 0 ? text : ""; }
    std::string blanks() { return std::string(static_cast<std::size_t>(1 + one_of(3)), ' '); }
    std::string no_or_some_blanks() {
        return std::string(static_cast<std::size_t>(one_of(3)), ' ');
    }
    std::string name() {
        return pick<std::string>(
            {"a", "b1", "long_name", "crawler.fuel", "h", "margin", "limit", "x.y.z", "even"});
    }
    std::string plain_name() {
        return pick<std::string>({"a", "b1", "long_name", "h", "margin", "limit", "Even"});
    }
    std::string unit() {
        return pick<std::string>(
            {"ft", "mi/h", "$/(ac.ft)", "ft^2", "%", "1", "1/h", "kg.m^2/s^2", "$"});
    }
    std::string text() {
        return pick<std::string>({"\"l\"", "\"not # a comment\"", "\"\u00E9 (\"", "\"\""});
    }
    std::string break_or_blank() {
        return one_of(6) == 0 ? pick<std::string>({"\n      ", "  # why\n      ", "\n\n      "})
                              : no_or_some_blanks();
    }

    RandomFormula literal() {
        switch (one_of(7)) {
        case 0:
            return {"1,850,000", "1850000"};
        case 1:
            return {"2.5" + blanks() + "mi/h", "2.5[mi/h]"};
        case 2:
            return {"$4.25/gal", "4.25[$/gal]"};
        case 3:
            return {"18%", "18[%]"};
        case 4:
            return {"3 1/h", "3[1/h]"};
        case 5:
            return {"19:30", "19.5[clock]"};
        default:
            return {"7", "7"};
        }
    }

    RandomFormula value(int depth) {
        if (depth <= 1 || one_of(4) == 0) {
            if (one_of(2) == 0)
                return literal();
            const std::string n = name();
            return {n, n};
        }
        switch (one_of(8)) {
        case 0:
            return unary("-", "(- ", 6, depth);
        case 1:
            return call(depth);
        case 2:
            return binary("^", 7, depth, true);
        case 3:
            return binary("*", 5, depth);
        case 4:
            return division(depth);
        case 5:
            return binary("-", 4, depth);
        case 6: {
            const RandomFormula inner = formula(depth - 1);
            return {"(" + no_or_some_blanks() + inner.text + ")", inner.tree};
        }
        default:
            return binary("+", 4, depth);
        }
    }

    RandomFormula condition_or_value(int depth) {
        if (depth <= 2 || one_of(3) != 0)
            return value(depth);
        switch (one_of(5)) {
        case 0:
            return word_binary("and", 2, depth);
        case 1:
            return word_binary("or", 1, depth);
        case 2: {
            const RandomFormula of = at_least(3, condition_or_value(depth - 1), false);
            return {"not " + of.text, "(not " + of.tree + ")", 3};
        }
        case 3: {
            const RandomFormula left = at_least(4, value(depth - 1), false);
            const bool negated = one_of(2) == 0;
            return {left.text + " is " + (negated ? "not " : "") + "fine",
                    "(" + left.tree + " is " + (negated ? "not " : "") + "fine)", 3};
        }
        default: {
            const std::string op = pick<std::string>({"<", "<=", ">", ">=", "==", "!="});
            const RandomFormula left = at_least(4, value(depth - 1), false);
            const RandomFormula right = at_least(4, value(depth - 1), false);
            return {in_order({left.text, break_or_blank(), op, no_or_some_blanks(), right.text}),
                    "(" + left.tree + " " + op + " " + right.tree + ")", 3};
        }
        }
    }

    RandomFormula when(int depth) {
        if (depth <= 2)
            return value(depth);
        const RandomFormula c = at_least(1, condition_or_value(depth - 1), false);
        const RandomFormula t = at_least(1, condition_or_value(depth - 1), false);
        const RandomFormula o = condition_or_value(depth - 1);
        return {"when " + c.text + " then " + t.text + " otherwise " + o.text,
                "(when " + c.tree + " then " + t.tree + " otherwise " + o.tree + ")", 0};
    }

    RandomFormula call(int depth) {
        RandomFormula f{"f" + no_or_some_blanks() + "(", "f("};
        for (int i = one_of(4), first = i; i > 0; --i) {
            const RandomFormula arg = formula(depth - 1);
            f.text += (i == first ? "" : ", ") + arg.text;
            f.tree += (i == first ? "" : ", ") + arg.tree;
        }
        if (one_of(4) == 0)
            add_list(f, depth);
        return {f.text + ")", f.tree + ")"};
    }
    // `each layer` as the last of a call, perhaps with rows of its own.
    void add_list(RandomFormula& f, int depth) {
        const char* comma = f.tree.back() == '(' ? "" : ", ";
        f.text += in_order({comma, "each", blanks(), "layer"});
        f.tree += std::string(comma) + "each layer";
        for (int row = 0, rows = one_of(3); row < rows; ++row) {
            const RandomFormula a = formula(depth - 1), b = formula(depth - 1);
            f.text += in_order({row == 0 ? "" : ",", blanks(), "(", a.text, no_or_some_blanks(),
                                ", ", b.text, ")"});
            f.tree += std::string(row == 0 ? " (" : ", (") + a.tree + ", " + b.tree + ")";
        }
    }

    // Brackets around a formula that is weaker than its place, or as weak where the place needs
    // more.
    RandomFormula at_least(int strength, RandomFormula f, bool more) {
        if (f.strength < strength || (more && f.strength == strength) || one_of(8) == 0)
            return {"(" + f.text + ")", f.tree};
        return f;
    }
    RandomFormula unary(const std::string& op, const std::string& open, int strength, int depth) {
        const RandomFormula of = at_least(strength, value(depth - 1), false);
        return {op + no_or_some_blanks() + of.text, open + of.tree + ")", strength};
    }
    RandomFormula binary(const std::string& op, int strength, int depth, bool from_right = false) {
        const RandomFormula left = at_least(strength, value(depth - 1), from_right);
        // a power may have a signed right side without brackets
        const RandomFormula right =
            at_least(from_right ? 6 : strength, value(depth - 1), !from_right);
        // behind a number `^` could belong to its unit
        const std::string t = in_order(
            {left.text, from_right ? " " : break_or_blank(), op, no_or_some_blanks(), right.text});
        return {t, "(" + left.tree + " " + op + " " + right.tree + ")", from_right ? 7 : strength};
    }
    RandomFormula
    division(int depth) { // blanks on both sides: behind a number `/` could belong to its unit
        const RandomFormula left = at_least(5, value(depth - 1), false);
        const RandomFormula right = at_least(5, value(depth - 1), true);
        return {left.text + " / " + right.text, "(" + left.tree + " / " + right.tree + ")", 5};
    }
    RandomFormula word_binary(const std::string& op, int strength, int depth) {
        const RandomFormula left = at_least(strength, condition_or_value(depth - 1), false);
        const RandomFormula right = at_least(strength, condition_or_value(depth - 1), true);
        return {left.text + " " + op + " " + right.text,
                "(" + left.tree + " " + op + " " + right.tree + ")", strength};
    }

    std::string free_lines(int indent) {
        std::string text;
        for (int i = one_of(3); i > 0; --i)
            text +=
                pick<std::string>({"\n", "\n\n", "# note\n",
                                   std::string(static_cast<std::size_t>(indent), ' ') + "# inner\n",
                                   "      # deep\n", " \t\n"});
        return text;
    }
    std::string clauses() {
        std::string text_of_clauses;
        if (one_of(2) == 0)
            text_of_clauses += in_order({blanks(), text()});
        if (one_of(3) == 0)
            text_of_clauses +=
                in_order({break_or_blank(), " within ", value(2).text, no_or_some_blanks(), "..",
                          no_or_some_blanks(), value(2).text});
        if (one_of(3) == 0)
            text_of_clauses +=
                one_of(2) == 0
                    ? in_order({" choose ", "0 .. ", value(2).text})
                    : in_order({" swing pert ", "0 .. ", value(2).text, maybe(" of it")});
        if (one_of(3) == 0)
            text_of_clauses += " because " + text();
        return text_of_clauses;
    }
    std::string statement() {
        switch (one_of(7)) {
        case 0:
            return in_order({"given ", plain_name(), no_or_some_blanks(), "=", no_or_some_blanks(),
                             formula(3).text, clauses()});
        case 1:
            return in_order({"given ", plain_name(), " : ", unit(), clauses()});
        case 2:
            return in_order({"given ", plain_name(), " = fine", no_or_some_blanks(), "|",
                             no_or_some_blanks(), "coarse | yes", clauses()});
        case 3:
            return in_order({"cost ", plain_name(), ":", unit(), "=", value(3).text, " over ",
                             value(2).text, blanks(), text()});
        case 4:
            return in_order({"require ", formula(3).text, blanks(), text()});
        case 5:
            return in_order(
                {"caution ", maybe("when " + condition_or_value(3).text + " "), text()});
        default:
            return in_order({plain_name(), no_or_some_blanks(), ":", no_or_some_blanks(), unit(),
                             no_or_some_blanks(), "=", break_or_blank(), formula(4).text});
        }
    }
    std::string names_of_lines() {
        std::string text_of;
        if (one_of(2) == 0)
            text_of += in_order({"show", blanks(), name(), no_or_some_blanks(), ",",
                                 break_or_blank(), name(), "\n"});
        if (one_of(2) == 0)
            text_of += in_order({"count", blanks(), name(), " of ", plain_name(), ",",
                                 no_or_some_blanks(), name(), "\n"});
        if (one_of(3) == 0)
            text_of += in_order(
                {"fleet", blanks(), "costs ", value(2).text, " over ", value(2).text, "\n"});
        return text_of;
    }
    std::string statement_with_inner_lines() {
        const int indent = 1 + one_of(5);
        const std::string margin(static_cast<std::size_t>(indent), ' ');
        std::string text_of;
        switch (one_of(4)) {
        case 0:
            text_of = in_order({"table t", no_or_some_blanks(), "(a:ft):", maybe("step "), unit(),
                                maybe(" below hold"), maybe(" " + text()), "\n"});
            for (int i = 0; i < 2 + one_of(4); ++i)
                text_of += in_order({free_lines(indent), margin, std::to_string(i * 1000), blanks(),
                                     maybe("-"), "1,234.5", maybe("  # row"), "\n"});
            return text_of;
        case 1:
            return in_order({"define f (a : ft,",
                             break_or_blank(),
                             "b : ",
                             unit(),
                             ") : ft =",
                             no_or_some_blanks(),
                             formula(3).text,
                             "\n",
                             margin,
                             "source ",
                             text(),
                             "\n",
                             free_lines(indent),
                             margin,
                             "limit a -1 ft .. ",
                             value(2).text,
                             maybe(" " + text()),
                             "\n",
                             margin,
                             "c : ft=",
                             formula(2).text,
                             "\n",
                             margin,
                             "example f(1 ft, 2)=3 ft",
                             maybe(" within 1 ft"),
                             "\n"});
        case 2:
            return in_order({statement(), maybe("  # tail"), "\n", free_lines(0)});
        default:
            break;
        }
        text_of = in_order({"part", blanks(), text(),
                            maybe(one_of(2) == 0 ? " each block" : " each layer of block"),
                            maybe("  # inside"), "\n"});
        for (int i = one_of(6); i > 0; --i)
            text_of += in_order({free_lines(indent), margin, statement(), maybe("  # tail"), "\n"});
        return text_of;
    }
    std::string steps() {
        std::string text_of;
        for (const std::string step :
             {"overhead ", "margin", "at least ", "round up to ", "round to "})
            if (one_of(2) == 0)
                text_of +=
                    in_order({"  ", step, step.back() == ' ' ? "" : blanks(), value(2).text, "\n"});
        return text_of;
    }

    Dice dice_;
};

} // namespace acre::tests
