// How far a share is known that was counted: so many of so many.
#pragma once

#include <cstddef>

#include "engine/questions/what_if/range.h"

namespace acre::engine {

// Exact, by the beta distribution (Clopper and Pearson 1934, Biometrika 26, 404-413; from memory):
// it covers the true share at least as often as `level` says. Of none: from 0 to 1.
Range exact_share(std::size_t count, std::size_t of, double level);

// By the score (Wilson 1927, J. American Statistical Association 22, 209-212; from memory): it
// covers about as often as `level` says.
Range score_share(std::size_t count, std::size_t of, double level);

// Of the first share less the second, from the two score intervals (Newcombe 1998, Statistics in
// Medicine 17, 873-890, method 10; from memory).
Range share_difference(std::size_t count, std::size_t of, std::size_t other_count,
                       std::size_t other_of, double level);

// The chance of no more, and of no fewer, than `count` of `of` at that share.
double chance_of_at_most(std::size_t count, std::size_t of, double share);
double chance_of_at_least(std::size_t count, std::size_t of, double share);

} // namespace acre::engine
