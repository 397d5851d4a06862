// The spreads of swings against the moments and quantiles of their distributions.
#include <doctest/doctest.h>

#include <cmath>

#include "engine/questions/risk/draw.h"
#include "engine/questions/risk/points.h"
#include "engine/questions/risk/shapes.h"

namespace swing_moments_test {

using namespace acre::engine;

namespace {

Axis axis_of(double low, double value, double high, acre::lang::ast::SwingShape shape) {
    Axis axis;
    axis.value = value;
    axis.swing = Range{low, high};
    axis.shape = shape;
    return axis;
}

struct Moments {
    double mean = 0, variance = 0, least = 1e300, greatest = -1e300;
};
Moments drawn(const Shape& shape) {
    const SobolSequence sequence(1);
    const ScrambledPoints points(sequence, 7, 0);
    constexpr std::size_t batches = 256;
    std::vector<double> x(points_in_batch);
    double sum = 0, squares = 0;
    Moments m;
    for (std::size_t batch = 0; batch < batches; ++batch) {
        std::uint64_t offset = 0;
        points.offsets(batch, std::span(&offset, 1));
        draw_kernels().shaped(shape, points.base(0), offset, points_in_batch, x.data());
        for (const double v : x) {
            sum += v;
            squares += v * v;
            m.least = std::min(m.least, v);
            m.greatest = std::max(m.greatest, v);
        }
    }
    const double n = static_cast<double>(batches * points_in_batch);
    m.mean = sum / n;
    m.variance = squares / n - m.mean * m.mean;
    return m;
}

using acre::lang::ast::SwingShape;

} // namespace

TEST_CASE(
    "a triangular swing has mean (a + b + c) / 3 and variance (a2 + b2 + c2 - ab - ac - bc) / 18") {
    // Any text of probability (the variance from memory): 2, 5, 14 give 7 and 6.5.
    const Moments m = drawn(shape_of(axis_of(2, 5, 14, SwingShape::Triangular)));
    CHECK(m.mean == doctest::Approx(7).epsilon(1e-6));
    CHECK(m.variance == doctest::Approx(6.5).epsilon(1e-5));
    CHECK(m.least > 2);
    CHECK(m.greatest < 14);
}

TEST_CASE("a PERT swing is a beta distribution: variance (mean - a)(b - mean) / 7, not the width "
          "squared over 36") {
    // Mean (a + 4 m + b) / 6 and the shapes as published for PERT; the variance is that of the beta
    // distribution (from memory). 2, 5, 14: mean 6, variance 32 / 7; the planning rule would say 4.
    const Moments m = drawn(shape_of(axis_of(2, 5, 14, SwingShape::Pert)));
    CHECK(m.mean == doctest::Approx(6).epsilon(1e-6));
    CHECK(m.variance == doctest::Approx(32.0 / 7).epsilon(1e-5));
    const Moments symmetric = drawn(shape_of(axis_of(0, 5, 10, SwingShape::Pert)));
    CHECK(symmetric.variance == doctest::Approx(100.0 / 28).epsilon(1e-5));
}

TEST_CASE("an even swing has mean (a + b) / 2 and variance (b - a)^2 / 12") {
    const Moments m = drawn(shape_of(axis_of(3, 4, 9, SwingShape::Even)));
    CHECK(m.mean == doctest::Approx(6).epsilon(1e-7));
    CHECK(m.variance == doctest::Approx(3).epsilon(1e-6));
}

TEST_CASE("a value at the end of its swing, or outside, puts the mode at that end") {
    for (const double value : {2.0, 1.0}) {
        CHECK(drawn(shape_of(axis_of(2, value, 8, SwingShape::Triangular))).mean ==
              doctest::Approx(4).epsilon(1e-6));
        CHECK(drawn(shape_of(axis_of(2, value, 8, SwingShape::Pert))).mean ==
              doctest::Approx(3).epsilon(1e-6));
    }
}

TEST_CASE(
    "the tables of quantiles hold the normal distribution to six digits, far into its tails") {
    // Abramowitz and Stegun, table 26.1 and 26.6 (from memory): quantiles of the normal
    // distribution.
    const QuantileTable normal = normal_quantiles();
    const double rows[][2] = {{0.5, 0},
                              {0.8413447460685429, 1},
                              {0.975, 1.959963984540054},
                              {0.95, 1.6448536269514722},
                              {0.01, -2.3263478740408408},
                              {0.001, -3.090232306167813},
                              {1e-6, -4.753424308822899}};
    for (const auto& [p, z] : rows) {
        CAPTURE(p);
        CHECK(std::fabs(quantile(normal, p) - z) < 1e-6);
    }
    // And back: the pieces of the distribution function, through the lanes.
    std::vector<double> p(points_in_batch), z(points_in_batch), back(points_in_batch);
    for (std::size_t i = 0; i < p.size(); ++i)
        p[i] = (static_cast<double>(i) + 0.5) / static_cast<double>(p.size());
    draw_kernels().deviates(normal, p.data(), points_in_batch, z.data());
    draw_kernels().shares(normal_shares(), z.data(), points_in_batch, back.data());
    for (std::size_t i = 0; i < p.size(); ++i) {
        CHECK(z[i] == quantile(normal, p[i])); // lanes and one value at a time: the same bits
        CHECK(std::fabs(back[i] - p[i]) < 1e-6);
    }
}

TEST_CASE("scrambled points stay as even as the sequence: one in every cell of equal size") {
    // A property of (0, m, 1) nets: of the first 2^m points of one dimension, exactly one in each
    // interval of 2^-m.
    const SobolSequence sequence(5);
    const ScrambledPoints points(sequence, 3, 9);
    std::vector<std::uint64_t> offset(5);
    constexpr unsigned m = 12;
    for (std::size_t k = 0; k < 5; ++k) {
        std::vector<int> cell(1 << m);
        for (std::uint64_t batch = 0; batch < (1U << m) / points_in_batch; ++batch) {
            points.offsets(batch, offset);
            for (std::size_t i = 0; i < points_in_batch; ++i)
                ++cell[(points.base(k)[i] ^ offset[k]) >> (64 - m)];
        }
        CHECK(std::all_of(cell.begin(), cell.end(), [](int n) { return n == 1; }));
    }
}

} // namespace swing_moments_test
