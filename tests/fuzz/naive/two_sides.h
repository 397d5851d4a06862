// Two jobs with their models, as bytes throw them, and the price of each worked out by hand: what a
// bridge between them must say.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "tests/support/dice.h"

namespace acre::fuzz::naive {

enum Given : std::uint8_t { Area, Pace, Drag, Extra, Rate, Diesel, Burn, Share, Method };
inline constexpr std::size_t givens = 9;
inline constexpr std::array<const char*, givens> given_names{
    "area", "pace", "drag", "extra", "rate", "diesel", "burn", "share", "method"};

// A value of its own, the default of the model, or a formula that the job sets.
enum class BurnFrom : std::uint8_t { Value, Model, Job };

struct Side {
    std::array<int, givens> value{}; // of the method: 0 one, 1 both
    BurnFrom burn_from = BurnFrom::Value;
    std::size_t hours = 0, steps = 0; // of the model
    bool eases = true;                // it uses the library
    std::size_t ease = 0;             // of the library
};
bool same_model(const Side& a, const Side& b);

std::string model_of(const Side& side);
std::string library_of(const Side& side);
std::string job_of(const Side& side, const std::string& because);
std::string label_of(Given given, const Side& side);
// "$300/h"; of a burn that is computed what it comes to.
std::string shown(Given given, const Side& side);

// What of a side may change by itself: a given, the model (its formulas and labels), the library.
inline constexpr int model_part = givens, library_part = givens + 1;
using Parts = std::set<int>;
Parts changed(const Side& before, const Side& after);
// The old side with some parts of the new one.
Side mixed(const Side& before, const Side& after, const Parts& taken);

struct Worth {
    double cost = 0, total = 0, per_acre = 0; // of what is not priced: not finite
    bool doubtful = false;                    // a step right at its edge
    double price(bool is_total) const { return is_total ? total : per_acre; }
};
Worth worth(const Side& side);

// Parts that have no price without each other, or matter on one side only because of each other.
std::vector<Parts> groups(const Side& before, const Side& after, bool total);

// By group: what it adds, on the mean of all orders. Empty: a price stands at the edge of a step.
std::vector<double> by_every_order(const Side& before, const Side& after,
                                   const std::vector<Parts>& groups, bool total);

Side draw_side(tests::Dice& dice);
// That side after some changes.
Side draw_changes(Side side, tests::Dice& dice);

} // namespace acre::fuzz::naive
