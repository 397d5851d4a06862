// Divides a difference fairly among the changes that made it: each change gets the mean of what it
// adds over all orders in which the changes could have been made (Shapley 1953, "A value for
// n-person games"). The shares add up to the difference, do not depend on any order, and a change
// that changes nothing gets nothing.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace acre::engine {

// Up to here every subset is evaluated; above it a fixed set of orders and their reverses is
// averaged.
inline constexpr std::size_t max_exact_players = 14;
inline constexpr std::size_t max_players = 64;

// results[k]: the value when the changes in masks[k] are made (bit i: change i) and the others are
// not; NaN if that combination has no answer.
using Worth = std::function<void(std::span<const std::uint64_t> masks, std::span<double> results)>;

struct Attribution {
    double before = 0, after = 0;
    std::vector<double> share; // by player; players of one group carry the share of the group at
                               // its first member, 0 else
    std::vector<std::uint32_t> group; // by player: the first player of its group; itself when alone
    bool exact = true;                // every order counted
    bool answered = true;             // false: before or after has no answer
};

// Players whose combinations have no answer without each other are put into one group and share one
// row; `together`: masks of players that are one from the start, each player in one of them. Empty:
// each is alone.
Attribution attribute(std::size_t players, const Worth& worth,
                      std::span<const std::uint64_t> together = {});

} // namespace acre::engine
