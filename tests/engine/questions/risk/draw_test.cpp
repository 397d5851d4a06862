// The kernels of a trial, each against its plain form: numbers from bits, shapes against the closed
// forms of their distributions, counting against a loop.
#include "engine/questions/risk/draw.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/risk/shapes.h"

namespace draw_test {

using namespace acre::engine;
using acre::lang::ast::SwingShape;

namespace {

Shape shape(SwingShape which, double low, double value, double high) {
    Axis axis;
    axis.value = value;
    axis.swing = Range{low, high};
    axis.shape = which;
    return shape_of(axis);
}

double normal_share(double z) {
    return 0.5 * std::erfc(-z / std::sqrt(2.0));
}

// From the least that is drawn to the greatest: halvings at both ends, and evenly in between.
std::vector<double> shares() {
    std::vector<double> p;
    for (int k = 53; k > 1; --k)
        p.push_back(std::ldexp(1.0, -k));
    for (int k = 1; k < 200; ++k)
        p.push_back(k / 200.0 + 0.001);
    for (int k = 2; k <= 53; ++k)
        p.push_back(1 - std::ldexp(1.0, -k));
    return p;
}

} // namespace

TEST_CASE("a number is the middle of the cell that its upper 52 bits name") {
    std::vector<std::uint64_t> base(points_in_batch);
    for (std::size_t i = 0; i < base.size(); ++i)
        base[i] = i * 0x9E3779B97F4A7C15U;
    base[1] = 0;
    base[2] = ~std::uint64_t{0};
    for (const std::uint64_t offset : {std::uint64_t{0}, std::uint64_t{0x123456789ABCDEF0}}) {
        std::vector<double> p(points_in_batch);
        draw_kernels().even(base.data(), offset, points_in_batch, p.data());
        for (std::size_t i = 0; i < base.size(); ++i)
            CHECK(p[i] == std::ldexp(static_cast<double>((base[i] ^ offset) >> 12), -52) + 0x1p-53);
        if (offset == 0) {
            CHECK(p[1] == 0x1p-53);
            CHECK(p[2] == 1 - 0x1p-53);
        }
        // Through a shape at once or in two steps: the same.
        for (const SwingShape which : {SwingShape::Even, SwingShape::Step, SwingShape::Pert,
                                       SwingShape::Triangular, SwingShape::Unstated}) {
            const Shape spread = shape(which, 2, 5, 14);
            std::vector<double> once(points_in_batch), twice(points_in_batch);
            draw_kernels().shaped(spread, base.data(), offset, points_in_batch, once.data());
            draw_kernels().shaped_from(spread, p.data(), points_in_batch, twice.data());
            CHECK(once == twice);
            for (std::size_t i = 0; i < p.size(); ++i)
                CHECK(once[i] == quantile(spread, p[i]));
        }
    }
}

TEST_CASE("so large a share of a swing lies below its quantile") {
    // Distribution functions in closed form. Triangular: (x - a)² / ((b - a)(m - a)) below the
    // mode; the beta distribution of a PERT swing is 1 - (1 - t)⁵ with the mode at its low end, t⁵
    // at its high end, and t³ (10 - 15 t + 6 t²) in its middle.
    const Shape even = shape(SwingShape::Even, 3, 4, 9),
                stated = shape(SwingShape::Triangular, 2, 5, 14),
                unstated = shape(SwingShape::Unstated, 2, 5, 14),
                at_low = shape(SwingShape::Pert, 2, 2, 12),
                at_high = shape(SwingShape::Pert, 2, 12, 12),
                middle = shape(SwingShape::Pert, 2, 7, 12);
    for (const double p : shares()) {
        CAPTURE(p);
        CHECK((quantile(even, p) - 3) / 6 == doctest::Approx(p).epsilon(1e-12));
        const double x = quantile(stated, p);
        CHECK(x == quantile(unstated, p));
        CHECK((x < 5 ? (x - 2) * (x - 2) / 36 : 1 - (14 - x) * (14 - x) / 108) ==
              doctest::Approx(p).epsilon(1e-12));
        if (p < 0x1p-30 || p > 1 - 0x1p-30) // farther out the last value stays
            continue;
        const double low = (quantile(at_low, p) - 2) / 10, high = (quantile(at_high, p) - 2) / 10,
                     t = (quantile(middle, p) - 2) / 10;
        CHECK(1 - std::pow(1 - low, 5) == doctest::Approx(p).epsilon(1e-5));
        CHECK(std::pow(high, 5) == doctest::Approx(p).epsilon(1e-5));
        CHECK(t * t * t * (10 - 15 * t + 6 * t * t) == doctest::Approx(p).epsilon(1e-5));
    }
    CHECK(even.mean() == 6);
    CHECK(stated.mean() == 7);
    CHECK(unstated.mean() == 7);
    CHECK(at_low.mean() == doctest::Approx(2 + 10.0 / 6));
    CHECK(at_high.mean() == doctest::Approx(12 - 10.0 / 6));
    CHECK(middle.mean() == 7);
}

TEST_CASE("steps go one by one from the low end as far as they fit") {
    const Shape three = shape(SwingShape::Step, 1, 2, 3),
                fits = shape(SwingShape::Step, 0.5, 2, 3.2);
    CHECK(three.mean() == 2);
    CHECK(fits.mean() == 1.5); // 0.5, 1.5, 2.5
    for (const double p : shares()) {
        CHECK(quantile(three, p) == (p < 1.0 / 3 ? 1 : p < 2.0 / 3 ? 2 : 3));
        CHECK(quantile(fits, p) == (p < 1.0 / 3 ? 0.5 : p < 2.0 / 3 ? 1.5 : 2.5));
    }
    // 0.3 is not quite three times 0.1: a whole number of steps all the same.
    CHECK(shape(SwingShape::Step, 0.1 + 0.2, 1, 1.3).mean() == doctest::Approx(0.8));
}

TEST_CASE("normal deviates are exact to the last piece of the tails, and mirror each other") {
    const QuantileTable normal = normal_quantiles();
    for (const double p : shares()) {
        CAPTURE(p);
        const double z = quantile(normal, p);
        if (p >= 0x1p-30 && p <= 0.5)
            CHECK(normal_share(z) == doctest::Approx(p).epsilon(2e-6));
        if (p >= 0x1p-30 && p <= 1 - 0x1p-30)
            CHECK(normal_share(-z) == doctest::Approx(1 - p).epsilon(2e-6));
    }
    for (int k = 1; k <= 30; ++k)
        CHECK(quantile(normal, std::ldexp(1.0, -k)) ==
              doctest::Approx(-quantile(normal, 1 - std::ldexp(1.0, -k))).epsilon(1e-9));
    CHECK(quantile(normal, 0x1p-31) == quantile(normal, 0x1p-30));
    CHECK(quantile(normal, 0x1p-53) == quantile(normal, 0x1p-30));
    // And back, also from beyond the pieces.
    std::vector<double> z(points_in_batch), p(points_in_batch);
    for (std::size_t i = 0; i < z.size(); ++i)
        z[i] = -10 + 20.0 * static_cast<double>(i) / (points_in_batch - 1);
    draw_kernels().shares(normal_shares(), z.data(), points_in_batch, p.data());
    for (std::size_t i = 0; i < z.size(); ++i) {
        CAPTURE(z[i]);
        CHECK(std::fabs(p[i] - normal_share(z[i])) < 1e-6);
        CHECK((p[i] > 0 && p[i] < 1));
    }
}

TEST_CASE("answers are counted as a loop counts them, however many") {
    const Bins bins{-2, 4, 20}; // quarters from -2 to 3
    for (const std::size_t n : {std::size_t{0}, std::size_t{1}, std::size_t{15}, std::size_t{16},
                                std::size_t{37}, points_in_batch}) {
        CAPTURE(n);
        std::vector<double> y(points_in_batch);
        for (std::size_t i = 0; i < y.size(); ++i) // eighths from -3 to 4: many on an edge
            y[i] = static_cast<double>(i * 37 % 57) / 8 - 3;
        Sums sums;
        std::vector<std::int64_t> bin(points_in_batch);
        draw_kernels().count(y.data(), n, 0.5, bins, sums, bin.data());
        double sum = 0, squares = 0, least = INFINITY, greatest = -INFINITY;
        std::uint64_t below = 0;
        for (std::size_t i = 0; i < n; ++i) {
            sum += y[i] - 0.5;
            squares += (y[i] - 0.5) * (y[i] - 0.5);
            least = std::min(least, y[i]);
            greatest = std::max(greatest, y[i]);
            below += y[i] < 0 ? 1 : 0;
            CHECK(bin[i] == (y[i] < -2 ? 0 : y[i] >= 3 ? 21 : 1 + std::floor((y[i] + 2) * 4)));
        }
        double all = 0, all_squares = 0;
        for (std::size_t k = 0; k < partial_sums; ++k) {
            all += sums.sum[k]; // eighths add up without rounding
            all_squares += sums.squares[k];
        }
        CHECK(all == sum);
        CHECK(all_squares == squares);
        CHECK(*std::min_element(std::begin(sums.least), std::end(sums.least)) == least);
        CHECK(*std::max_element(std::begin(sums.greatest), std::end(sums.greatest)) == greatest);
        CHECK(sums.below_zero == below);
    }
}

} // namespace draw_test
