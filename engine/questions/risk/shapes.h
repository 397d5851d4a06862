// How a swing is spread: from a number evenly between 0 and 1 to a value of the given.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "engine/questions/what_if/axis.h"

namespace acre::engine {

// A function in cubic pieces; piece i is c[4 i] + c[4 i + 1] t + c[4 i + 2] t^2 + c[4 i + 3] t^3, t
// from the start of the piece.
struct Pieces {
    std::vector<double> c;
    void add(double start, double end, double y0, double slope0, double y1, double slope1);
};

// The inverse of a distribution, by p below one half and by 1 - p above it. Pieces are eight to
// every halving of p, so that tails are as exact as the middle; below 2^-quantile_octaves the last
// value stays.
inline constexpr int quantile_octaves = 30;
struct QuantileTable {
    Pieces low, high;
};

enum class Spread : std::uint8_t { Even, Triangular, Step, Table };

struct Shape {
    Spread spread = Spread::Even;
    double low = 0, high = 0;
    double share = 0, left = 0, right = 0; // triangular: of the side below the mode; (high - low)
                                           // (mode - low), (high - low) (high - mode)
    double steps = 0;                      // step: how many values
    QuantileTable table;

    double mean() const { return mean_; }
    double mean_ = 0;
};

// Triangular when the shape is not stated. The mode is the job's value, or the end of the swing
// next to it.
//   triangular: mode (low + mode + high) / 3 is its mean
//   PERT: a beta distribution over the swing with alpha = 1 + 4 (mode - low) / width, beta = 1 + 4
//   (high - mode) / width; its
//         variance is (mean - low) (high - mean) / 7, not the width squared over 36 of the planning
//         rule
//   even: every value alike. step: low, low + 1, ... up to high, each alike
Shape shape_of(const Axis& axis);

QuantileTable normal_quantiles(); // of the standard normal distribution

// The normal distribution function in pieces of 1 / deviate_pieces from -deviate_reach up to
// deviate_reach.
inline constexpr double deviate_reach = 8;
inline constexpr double deviate_pieces = 16;
Pieces normal_shares();

// Of a shape or table at p, one value at a time: for tests.
double quantile(const Shape& shape, double p);
double quantile(const QuantileTable& table, double p);

} // namespace acre::engine
