// What is kept of many trials: sums and bins, added up in one fixed order, and the figures read
// from them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/questions/risk/draw.h"

namespace acre::engine {

inline constexpr std::size_t bin_count = 2000;

// Of one measure over a share of the trials.
struct Tally {
    Sums sums;
    std::vector<std::uint64_t> bin;
    std::uint64_t count = 0;
    explicit Tally(std::size_t all_bins) : bin(all_bins) {} // those below and above too; or none

    void add(const Tally& other);
    double mean(double centre) const;
    double deviation(double centre) const; // of the answers, over count - 1
    double least() const;
    double greatest() const;
    // The answers that these shares of all, from the least on, lie below.
    std::vector<double> percentiles(const Bins& bins, std::span<const double> shares) const;
};

// Bins and a centre wide enough for the answers to come, from a first few.
struct Frame {
    double centre = 0;
    Bins bins;
};
Frame frame_of(const double* y, std::size_t n);

// The mean of repetitions and its standard error.
struct Estimated {
    double mean = 0, error = 0;
};
Estimated estimated(const std::vector<double>& repetitions);

} // namespace acre::engine
