// Drawing trials and counting answers, in lanes. Every step is rounded by itself, so all widths of
// vector draw the same values.
#pragma once

#include <cstddef>
#include <cstdint>

#include "engine/questions/risk/points.h"
#include "engine/questions/risk/shapes.h"

namespace acre::engine {

// What is known of many answers when each has been looked at once: enough for mean, spread and
// percentiles, and nothing that grows with their number. Sixteen partial sums each, so that the
// order of adding does not depend on the vectors.
inline constexpr std::size_t partial_sums = 16;
struct Sums {
    double sum[partial_sums] = {};     // of answer - centre
    double squares[partial_sums] = {}; // of (answer - centre) squared
    double least[partial_sums], greatest[partial_sums];
    std::uint64_t below_zero = 0;
    Sums();
};
struct Bins { // bin 0: below `from`; the last: above; between them `count` of width 1 / per_unit
    double from = 0, per_unit = 1;
    std::size_t count = 0;
};

struct DrawKernels {
    // n numbers evenly between 0 and 1, never 0 or 1, from base[i] ^ offset. Here and below there
    // is room for points_in_batch, and up to a whole vector more than n may be written.
    void (*even)(const std::uint64_t* base, std::uint64_t offset, std::size_t n, double* p);
    // The same drawn through a shape at once, or from such numbers.
    void (*shaped)(const Shape& shape, const std::uint64_t* base, std::uint64_t offset,
                   std::size_t n, double* x);
    void (*shaped_from)(const Shape& shape, const double* p, std::size_t n, double* x);
    // Normal deviates from such numbers and back; z may be p.
    void (*deviates)(const QuantileTable& normal, const double* p, std::size_t n, double* z);
    void (*shares)(const Pieces& normal, const double* z, std::size_t n, double* p);
    // Adds n answers, none of them NaN, and says the bin of each. Room for points_in_batch bins.
    void (*count)(const double* y, std::size_t n, double centre, const Bins& bins, Sums& sums,
                  std::int64_t* bin);
};

const DrawKernels& draw_kernels(); // the widest this machine has

} // namespace acre::engine
