// What a season assumes and nobody knows: figures with a swing that the season or the model sets,
// each the same in every job. Learning starts from what was assumed: a figure as likely too low as
// too high, that stays within its swing, the nearer the likelier. Many are drawn from that once;
// every job is worked out with the same draws.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/questions/what_if/axis.h"

namespace acre::engine {

inline constexpr std::size_t learning_draws = 4096;
inline constexpr std::size_t no_assumption = static_cast<std::size_t>(-1);

struct Assumption {
    std::string name, label, unit; // as the season names it
    double value = 0;              // as the season has it
    Range swing;
    std::vector<double> drawn;
};

class Assumptions {
  public:
    explicit Assumptions(std::size_t draws = learning_draws) : draws_(draws) {}

    std::size_t draws() const { return draws_; }
    const std::vector<Assumption>& all() const { return all_; }
    std::size_t find(std::string_view name) const;
    // The one of that name, drawn if it is new. no_assumption: a job before had another value or
    // swing, so that it is no figure of the season's.
    std::size_t take(Assumption assumption);

  private:
    std::size_t draws_;
    std::vector<Assumption> all_;
};

// Evenly between 0 and 1, never either: number `index` of the sequence that `seed` names. The same
// on every machine.
double even_number(std::uint64_t seed, std::uint64_t index);
std::uint64_t seed_of(std::string_view name);

// Where a figure lies of which nothing is known but this, from a number between 0 and 1: the value
// is its median, the density falls from there to both ends of the swing.
double assumed_at(double p, double value, const Range& swing);

} // namespace acre::engine
