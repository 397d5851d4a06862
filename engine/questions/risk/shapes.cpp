#include "engine/questions/risk/shapes.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>

namespace acre::engine {
namespace {

constexpr int pieces_to_octave = 8;
constexpr std::uint64_t first_index = std::uint64_t{1023 - quantile_octaves}
                                      << 3; // of 2^-quantile_octaves: exponent and three bits

// A table of quantile(p, upper) and density at it; upper: p counts from above.
template <class Quantile, class Density>
QuantileTable make_table(Quantile quantile, Density density) {
    QuantileTable table;
    for (const bool upper : {false, true}) {
        Pieces& pieces = upper ? table.high : table.low;
        for (int octave = quantile_octaves; octave >= 1; --octave)
            for (int k = 0; k < pieces_to_octave; ++k) {
                const double size = std::ldexp(1.0, -octave);
                const double start = size * (1 + k / 8.0), end = size * (1 + (k + 1) / 8.0);
                const double y0 = quantile(start, upper), y1 = quantile(end, upper);
                const double sign = upper ? -1 : 1;
                pieces.add(start, end, y0, sign / density(y0), y1, sign / density(y1));
                if (octave == 1)
                    break; // p is at most one half
            }
    }
    return table;
}

} // namespace

void Pieces::add(double start, double end, double y0, double slope0, double y1, double slope1) {
    const double h = end - start, rise = (y1 - y0) / h;
    c.insert(c.end(), {y0, slope0, (3 * rise - 2 * slope0 - slope1) / h,
                       (slope0 + slope1 - 2 * rise) / (h * h)});
}

Shape shape_of(const Axis& axis) {
    Shape shape;
    const double low = axis.swing->low,
                 high = axis.swing
                            ->high; // names of their own: clang 14 captures no parts of a binding
    shape.low = low;
    shape.high = high;
    const double mode = std::clamp(axis.value, low, high), width = high - low;
    switch (axis.shape) {
    case lang::ast::SwingShape::Even:
        shape.spread = Spread::Even;
        shape.mean_ = (low + high) / 2;
        break;
    case lang::ast::SwingShape::Step:
        shape.spread = Spread::Step;
        shape.steps = std::floor(width + 1e-9) + 1;
        shape.mean_ = low + (shape.steps - 1) / 2;
        break;
    case lang::ast::SwingShape::Pert: {
        const double alpha = 1 + 4 * (mode - low) / width, beta = 1 + 4 * (high - mode) / width;
        const boost::math::beta_distribution<> spread(alpha, beta);
        shape.spread = Spread::Table;
        shape.mean_ = (low + 4 * mode + high) / 6;
        shape.table = make_table(
            [&](double p, bool upper) {
                return low +
                       width * (upper ? boost::math::quantile(boost::math::complement(spread, p))
                                      : boost::math::quantile(spread, p));
            },
            [&](double x) {
                return boost::math::pdf(spread, std::clamp((x - low) / width, 0.0, 1.0)) / width;
            });
        break;
    }
    case lang::ast::SwingShape::Triangular:
    case lang::ast::SwingShape::Unstated:
        shape.spread = Spread::Triangular;
        shape.share = (mode - low) / width;
        shape.left = width * (mode - low);
        shape.right = width * (high - mode);
        shape.mean_ = (low + mode + high) / 3;
        break;
    }
    return shape;
}

QuantileTable normal_quantiles() {
    const boost::math::normal_distribution<> normal;
    return make_table(
        [&](double p, bool upper) {
            return upper ? boost::math::quantile(boost::math::complement(normal, p))
                         : boost::math::quantile(normal, p);
        },
        [&](double z) { return boost::math::pdf(normal, z); });
}

Pieces normal_shares() {
    const boost::math::normal_distribution<> normal;
    Pieces pieces;
    const int count = static_cast<int>(2 * deviate_reach * deviate_pieces);
    for (int k = 0; k < count; ++k) {
        const double a = -deviate_reach + k / deviate_pieces, b = a + 1 / deviate_pieces;
        pieces.add(a, b, boost::math::cdf(normal, a), boost::math::pdf(normal, a),
                   boost::math::cdf(normal, b), boost::math::pdf(normal, b));
    }
    return pieces;
}

double quantile(const QuantileTable& table, double p) {
    const bool upper = p > 0.5;
    const double v = std::max(upper ? 1 - p : p, std::ldexp(1.0, -quantile_octaves));
    const auto bits = std::bit_cast<std::uint64_t>(v) >> 49;
    const double start = std::bit_cast<double>(bits << 49), t = v - start;
    const double* c = (upper ? table.high : table.low).c.data() + 4 * (bits - first_index);
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
}

double quantile(const Shape& shape, double p) {
    switch (shape.spread) {
    case Spread::Even:
        return shape.low + p * (shape.high - shape.low);
    case Spread::Step:
        return shape.low + std::min(std::floor(p * shape.steps), shape.steps - 1);
    case Spread::Triangular:
        return p < shape.share ? shape.low + std::sqrt(p * shape.left)
                               : shape.high - std::sqrt((1 - p) * shape.right);
    case Spread::Table:
        return std::clamp(quantile(shape.table, p), shape.low, shape.high);
    }
    return shape.low;
}

} // namespace acre::engine
