#include "lang/units/unit.h"

namespace acre::lang {
namespace {

constexpr int exponent_limit = 127;

// a + sign * b, base by base. False on overflow.
bool add_exponents(const Dim& a, const Dim& b, int sign, Dim& out) {
    int outside = 0;
    for (std::size_t i = 0; i < max_bases; ++i) {
        const int sum = a.exponent[i] + sign * b.exponent[i];
        outside |= static_cast<int>(sum > exponent_limit) | static_cast<int>(sum < -exponent_limit);
        out.exponent[i] = static_cast<std::int8_t>(sum);
    }
    return outside == 0;
}

std::optional<Unit> with_scale(const Dim& dim, const std::optional<Ratio>& scale) {
    return scale ? std::optional(Unit{dim, *scale}) : std::nullopt;
}

// x with x = r exactly in doubles, if there is one: a small enough whole number over a power of
// two.
bool is_exact_double(Ratio r) {
    constexpr Wide exact = Wide{1} << 53U;
    return r.num <= exact && r.den <= exact && (r.den & (r.den - 1)) == 0;
}

} // namespace

std::optional<Unit> multiply(const Unit& a, const Unit& b) {
    Dim dim;
    if (!add_exponents(a.dim, b.dim, 1, dim))
        return std::nullopt;
    return with_scale(dim, multiply(a.scale, b.scale));
}

std::optional<Unit> divide(const Unit& a, const Unit& b) {
    Dim dim;
    if (!add_exponents(a.dim, b.dim, -1, dim))
        return std::nullopt;
    return with_scale(dim, divide(a.scale, b.scale));
}

std::optional<Unit> power(const Unit& a, int exponent) {
    Dim dim;
    for (std::size_t i = 0; i < max_bases; ++i) {
        const auto product = static_cast<std::int64_t>(a.dim.exponent[i]) * exponent;
        if (product > exponent_limit || product < -exponent_limit)
            return std::nullopt;
        dim.exponent[i] = static_cast<std::int8_t>(product);
    }
    return with_scale(dim, power(a.scale, exponent));
}

std::optional<Unit> square_root(const Unit& a) {
    Dim dim;
    for (std::size_t i = 0; i < max_bases; ++i) {
        if (a.dim.exponent[i] % 2 != 0)
            return std::nullopt;
        dim.exponent[i] = static_cast<std::int8_t>(a.dim.exponent[i] / 2);
    }
    return with_scale(dim, square_root(a.scale));
}

Conversion conversion(const Unit& from, const Unit& to) {
    if (from.scale == to.scale)
        return {};
    const auto ratio = divide(from.scale, to.scale);
    if (!ratio)
        return {to_double(from.scale) / to_double(to.scale), false};
    if (is_exact_double(*ratio))
        return {to_double(*ratio), false};
    const Ratio inverse{ratio->den, ratio->num};
    if (is_exact_double(inverse))
        return {to_double(inverse), true};
    return {to_double(*ratio), false};
}

} // namespace acre::lang
