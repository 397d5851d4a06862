// Random models with a list and a list within it, and what a hand would write for them: one line
// for each entry, each with a name of its own. Both come from one plan of lines.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "tests/support/dice.h"

namespace acre::tests::random_lists {

enum class Level { Job, Leg, Layer };

// A value in a formula: a line, and what is taken of it.
struct Piece {
    std::string line;
    Level level = Level::Job;
    enum class Taken { Plain, Sum, Most, Least, Before, Mix } taken = Taken::Plain;
};

struct Formula {
    std::vector<Piece> pieces;
    std::vector<std::string> signs; // before each but the first
    std::string only_in;            // "pan": of that layer; elsewhere the first piece alone
};

struct LineOf {
    std::string name;
    Level level = Level::Job;
    bool given = false;
    Formula formula; // of a given: none
};

struct Program {
    std::vector<std::string> legs, layers;
    bool legs_by_job = false;
    std::vector<LineOf> lines;               // in the order of their parts
    std::vector<std::vector<double>> values; // of each given, by leg and layer
};

class Maker {
  public:
    explicit Maker(std::uint64_t seed) : dice_(seed) {}

    Program make() {
        Program p;
        for (std::size_t n = dice_.below(4), i = 0; i < n; ++i)
            p.legs.push_back("leg" + std::to_string(i));
        p.legs_by_job = !p.legs.empty();
        p.layers = {"top", "pan", "low"};
        p.layers.resize(1 + dice_.below(3));
        for (const auto& [start, level, givens, lines] :
             {Start{"g", Level::Job, 3, 0}, Start{"a", Level::Leg, 2, 4},
              Start{"b", Level::Layer, 2, 4}, Start{"c", Level::Leg, 0, 3},
              Start{"t", Level::Job, 0, 5}})
            part(p, start, level, givens, lines);
        return p;
    }

  private:
    struct Start {
        std::string name;
        Level level;
        int givens, lines;
    };

    void part(Program& p, const std::string& start, Level level, int givens, int lines) {
        for (int i = 0; i < givens + lines; ++i) {
            LineOf line{start + std::to_string(i), level, i < givens, {}};
            std::vector<double> values;
            if (line.given)
                for (std::size_t n = 0; n < 12; ++n)
                    values.push_back(1 + static_cast<double>(dice_.below(90)) / 8);
            else
                line.formula = formula(p, level, line.name);
            p.values.push_back(values);
            p.lines.push_back(line);
        }
    }

    Formula formula(const Program& p, Level level, const std::string& own) {
        Formula f;
        for (std::size_t n = 1 + dice_.below(3), i = 0; i <= n; ++i) {
            f.pieces.push_back(piece(p, level, own));
            if (i > 0)
                f.signs.push_back(dice_.below(3) == 0 ? " - " : " + ");
        }
        if (level == Level::Layer && dice_.below(3) == 0)
            f.only_in = p.layers[dice_.below(p.layers.size())];
        return f;
    }

    Piece piece(const Program& p, Level level, const std::string& own) {
        using T = Piece::Taken;
        // A call over the layers, where they are all there.
        if (level == Level::Leg && own[0] == 'c' && dice_.below(4) == 0)
            return {p.lines[dice_.below(3)].name, Level::Job, T::Mix};
        if (level != Level::Job && dice_.below(6) == 0)
            return {own, level, T::Before}; // what it came to itself, in the entries before
        const LineOf& line = p.lines[dice_.below(p.lines.size())];
        const bool inner = line.level == Level::Layer && level != Level::Layer;
        const bool outer = line.level == Level::Leg && level == Level::Job;
        const std::size_t taken = dice_.below(4);
        if (inner || outer)
            return {line.name, line.level, taken == 1 ? T::Most : taken == 2 ? T::Least : T::Sum};
        if (line.level != level || level == Level::Job || taken < 2)
            return {line.name, line.level, T::Plain};
        return {line.name, line.level, taken == 2 ? T::Before : T::Sum};
    }

    Dice dice_;
};

inline const char* word(Piece::Taken taken) {
    constexpr const char* words[] = {"", "sum", "most", "least", "before", "mix"};
    return words[static_cast<std::size_t>(taken)];
}

inline std::string in_lists(const Formula& f) {
    std::string out;
    std::string first;
    for (std::size_t i = 0; i < f.pieces.size(); ++i) {
        const Piece& piece = f.pieces[i];
        const bool plain = piece.taken == Piece::Taken::Plain;
        const char* more = piece.taken == Piece::Taken::Mix ? ", each layer)" : ")";
        const std::string text =
            plain ? piece.line : std::string(word(piece.taken)) + "(" + piece.line + more;
        out += (i == 0 ? "" : f.signs[i - 1]) + text;
        first = i == 0 ? text : first;
    }
    return f.only_in.empty()
               ? out
               : "when layer is " + f.only_in + " then " + out + " otherwise " + first;
}

inline std::string number(double value) {
    return std::to_string(value) + " ft";
}

// A function over the layers: columns, a line for each row that looks back, one for all, a call of
// another that hands the rows on. `written_out` below is what it means.
inline constexpr const char* mix =
    R"(define mix (k : ft) each layer (b0 : ft, b1 : ft) : ft = k + sum(b0) - least(left) + wide
  left : ft = b1 - before(b0) / 2 + before(left) / 4
  wide : ft = widest(each layer) * how_many(layer)
define widest () each layer (b1 : ft, b0 : ft) : ft = most(gap)
  gap : ft = b1 - b0
)";

// The model with its lists, and the job that lists the legs.
inline std::string with_lists(const Program& p) {
    std::string text = "model \"m\"\nlist leg\nlist layer =";
    for (std::size_t i = 0; i < p.layers.size(); ++i)
        text += (i == 0 ? " " : " | ") + p.layers[i];
    text += std::string("\n") + mix;
    char open = 'g';
    for (std::size_t i = 0; i < p.lines.size(); ++i) {
        const LineOf& line = p.lines[i];
        if (line.name[0] != open) {
            open = line.name[0];
            text += std::string("part \"") + open + "\"" +
                    (line.level == Level::Leg     ? " each leg"
                     : line.level == Level::Layer ? " each layer of leg"
                                                  : "") +
                    "\n";
        }
        text += (open == 'g' ? "" : "  ");
        if (!line.given)
            text += line.name + " : ft = " + in_lists(line.formula) + "  may be negative\n";
        else if (line.level != Level::Layer)
            text += "given " + line.name + " = " + number(p.values[i][0]) + "\n";
        else {
            text += "given " + line.name + " : ft =";
            for (std::size_t l = 0; l + 1 < p.layers.size(); ++l)
                text += " when layer is " + p.layers[l] + " then " + number(p.values[i][l]);
            text += (p.layers.size() > 1 ? " otherwise " : " ") +
                    number(p.values[i][p.layers.size() - 1]) + "\n";
        }
    }
    return text;
}

inline std::string job_of(const Program& p) {
    std::string text = "job \"j\"\nmodel \"m\"\n";
    for (std::size_t leg = 0; leg < p.legs.size(); ++leg) {
        text += "leg " + p.legs[leg] + "\n";
        for (std::size_t i = 0; i < p.lines.size(); ++i)
            if (p.lines[i].given && p.lines[i].level == Level::Leg && leg > 0)
                text += "  set " + p.lines[i].name + " = " + number(p.values[i][leg]) + "\n";
    }
    return text;
}

// One line for each leg and layer, each with a name of its own.
class ByHand {
  public:
    explicit ByHand(const Program& p) : p_(p), legs_(std::max<std::size_t>(1, p.legs.size())) {}

    std::string text() const {
        std::string text = "model \"m\"\n";
        for (std::size_t i = 0; i < p_.lines.size(); ++i) {
            const LineOf& line = p_.lines[i];
            const std::size_t legs = line.level == Level::Job ? 1 : legs_;
            const std::size_t layers = line.level == Level::Layer ? p_.layers.size() : 1;
            for (std::size_t leg = 0; leg < legs; ++leg)
                for (std::size_t layer = 0; layer < layers; ++layer) {
                    const std::string name = named(line.name, line.level, leg, layer);
                    const double value =
                        line.given ? p_.values[i][line.level == Level::Leg ? leg : layer] : 0;
                    text += line.given ? "given " + name + " = " + number(value) + "\n"
                                       : name + " : ft = " + formula(line, leg, layer) +
                                             "  may be negative\n";
                }
        }
        return text;
    }

    static std::string named(const std::string& line, Level level, std::size_t leg,
                             std::size_t layer) {
        return line + (level == Level::Job ? "" : "_" + std::to_string(leg)) +
               (level == Level::Layer ? "_" + std::to_string(layer) : "");
    }

  private:
    std::string formula(const LineOf& line, std::size_t leg, std::size_t layer) const {
        const Formula& f = line.formula;
        std::string out = piece(f.pieces[0], line.level, leg, layer);
        if (!f.only_in.empty() && p_.layers[layer] != f.only_in)
            return out;
        for (std::size_t i = 1; i < f.pieces.size(); ++i)
            out += f.signs[i - 1] + piece(f.pieces[i], line.level, leg, layer);
        return out;
    }

    std::string piece(const Piece& piece, Level at, std::size_t leg, std::size_t layer) const {
        using T = Piece::Taken;
        const auto own = [&](std::size_t a, std::size_t b) {
            return named(piece.line, piece.level, a, b);
        };
        std::vector<std::string> names;
        const bool layers = piece.level == Level::Layer;
        switch (piece.taken) {
        case T::Mix:
            return written_out(own(0, 0), leg);
        case T::Plain:
            return own(leg, layer);
        case T::Before:
            for (std::size_t e = 0; e < (layers ? layer : leg); ++e)
                names.push_back(layers ? own(leg, e) : own(e, 0));
            return names.empty() ? "0 ft" : together(names, T::Sum);
        default:
            break;
        }
        for (std::size_t a = 0; a < legs_; ++a)
            for (std::size_t b = 0; b < (layers ? p_.layers.size() : 1); ++b)
                if (!layers || at == Level::Job || a == leg)
                    names.push_back(own(a, b));
        return together(names, piece.taken);
    }

    std::string written_out(const std::string& k, std::size_t leg) const {
        std::vector<std::string> all, left, gaps;
        for (std::size_t layer = 0; layer < p_.layers.size(); ++layer) {
            const std::string b0 = named("b0", Level::Layer, leg, layer);
            const std::string b1 = named("b1", Level::Layer, leg, layer);
            const auto before = [&](const std::vector<std::string>& rows) {
                return rows.empty() ? "0 ft" : together(rows, Piece::Taken::Sum);
            };
            left.push_back("(" + b1 + " - " + before(all) + " / 2 + " + before(left) + " / 4)");
            all.push_back(b0);
            gaps.push_back("(" + b1 + " - " + b0 + ")");
        }
        return "(" + k + " + " + together(all, Piece::Taken::Sum) + " - " +
               together(left, Piece::Taken::Least) + " + " + together(gaps, Piece::Taken::Most) +
               " * " + std::to_string(p_.layers.size()) + ")";
    }

    static std::string together(const std::vector<std::string>& names, Piece::Taken taken) {
        if (names.size() == 1)
            return names[0];
        const bool sum = taken == Piece::Taken::Sum;
        std::string out = sum ? "(" : taken == Piece::Taken::Most ? "max(" : "min(";
        for (std::size_t i = 0; i < names.size(); ++i)
            out += (i == 0 ? "" : sum ? " + " : ", ") + names[i];
        return out + ")";
    }

    const Program& p_;
    std::size_t legs_;
};

inline std::string in_sheet(const Program& p, const LineOf& line, std::size_t leg,
                            std::size_t layer) {
    std::string name;
    if (line.level != Level::Job && !p.legs.empty())
        name += p.legs[leg] + ".";
    if (line.level == Level::Layer)
        name += p.layers[layer] + ".";
    return name + line.name;
}

} // namespace acre::tests::random_lists
