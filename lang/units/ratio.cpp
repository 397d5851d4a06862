#include "lang/units/ratio.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "lang/units/letters.h"

namespace acre::lang {
namespace {

using Narrow = std::uint64_t;

bool is_narrow(Wide x) {
    return (x >> 64U) == 0;
}

int trailing_zeros(Wide x) {
    const auto low = static_cast<Narrow>(x);
    return low != 0 ? std::countr_zero(low) : 64 + std::countr_zero(static_cast<Narrow>(x >> 64U));
}

int leading_zeros(Wide x) {
    const auto high = static_cast<Narrow>(x >> 64U);
    return high != 0 ? std::countl_zero(high) : 64 + std::countl_zero(static_cast<Narrow>(x));
}

// Both at least 1.
Wide common_divisor(Wide a, Wide b) {
    if (a == 1 || b == 1)
        return 1;
    if (is_narrow(a) && is_narrow(b))
        return std::gcd(static_cast<Narrow>(a), static_cast<Narrow>(b));
    const int shared = std::min(trailing_zeros(a), trailing_zeros(b));
    a >>= static_cast<unsigned>(trailing_zeros(a));
    b >>= static_cast<unsigned>(trailing_zeros(b));
    while (a != b) { // both odd
        if (a < b)
            std::swap(a, b);
        a -= b;
        a >>= static_cast<unsigned>(trailing_zeros(a));
    }
    return a << static_cast<unsigned>(shared);
}

bool multiply_overflows(Wide a, Wide b, Wide& product) {
    if (is_narrow(a) && is_narrow(b)) {
        product = a * b;
        return false;
    }
    return __builtin_mul_overflow(a, b, &product);
}

// Empty when there is none.
std::optional<Wide> whole_root(Wide x) {
    Wide low = 0;
    Wide high = Wide{1} << 64U;
    while (high - low > 1) { // low^2 <= x < high^2
        const Wide middle = low + (high - low) / 2;
        if (middle * middle <= x)
            low = middle;
        else
            high = middle;
    }
    return low * low == x ? std::optional(low) : std::nullopt;
}

// A comma with digits before it and exactly three after it.
bool groups_three(std::string_view text, std::size_t comma) {
    std::size_t after = 0;
    while (comma + 1 + after < text.size() && is_digit(text[comma + 1 + after]))
        ++after;
    return comma > 0 && is_digit(text[comma - 1]) && after == 3;
}

} // namespace

std::optional<Ratio> multiply(Ratio a, Ratio b) {
    // Reduced crosswise first, so that what fits never overflows on the way.
    const Wide across = common_divisor(a.num, b.den);
    const Wide back = common_divisor(b.num, a.den);
    Ratio out;
    if (multiply_overflows(a.num / across, b.num / back, out.num) ||
        multiply_overflows(a.den / back, b.den / across, out.den))
        return std::nullopt;
    return out;
}

std::optional<Ratio> divide(Ratio a, Ratio b) {
    return multiply(a, Ratio{b.den, b.num});
}

std::optional<Ratio> power(Ratio a, int exponent) {
    if (exponent < 0)
        a = {a.den, a.num};
    Ratio out;
    for (unsigned left = exponent < 0 ? 0U - static_cast<unsigned>(exponent)
                                      : static_cast<unsigned>(exponent);
         left > 0; left >>= 1U) {
        if ((left & 1U) != 0) {
            const auto next = multiply(out, a);
            if (!next)
                return std::nullopt;
            out = *next;
        }
        if (left > 1) {
            const auto squared = multiply(a, a);
            if (!squared)
                return std::nullopt;
            a = *squared;
        }
    }
    return out;
}

std::optional<Ratio> square_root(Ratio a) {
    const auto num = whole_root(a.num);
    const auto den = whole_root(a.den);
    if (!num || !den)
        return std::nullopt;
    return Ratio{*num, *den};
}

double to_double(Ratio a) {
    constexpr Wide exact = Wide{1} << 53U;
    if (a.num <= exact && a.den <= exact) // one rounding, by the division
        return static_cast<double>(a.num) / static_cast<double>(a.den);
    // Both shifted to the top bit; then 64 bits of the quotient by long division, the last one set
    // when anything is left: the conversion rounds once, to nearest.
    const int num_zeros = leading_zeros(a.num);
    const int den_zeros = leading_zeros(a.den);
    Wide rest = a.num << static_cast<unsigned>(num_zeros);
    const Wide divisor = a.den << static_cast<unsigned>(den_zeros);
    int exponent = den_zeros - num_zeros;
    Narrow quotient = 0;
    bool carried = false; // the bit that a shift pushes out at the top
    int bits = 0;
    for (; bits < 128 && (quotient >> 63U) == 0; ++bits) {
        quotient <<= 1U;
        if (carried || rest >= divisor) {
            rest -= divisor;
            quotient |= 1U;
        }
        carried = (rest >> 127U) != 0;
        rest <<= 1U;
    }
    if (rest != 0 || carried)
        quotient |= 1U;
    exponent -= bits - 1;
    return std::ldexp(static_cast<double>(quotient), exponent);
}

std::optional<Ratio> read_ratio(std::string_view decimal) {
    constexpr Wide most = std::numeric_limits<Wide>::max();
    constexpr int largest_exponent = 400; // beyond it nothing but zero would fit
    Wide digits = 0;
    int exponent = 0;
    bool any = false;
    bool point = false;
    std::size_t at = 0;
    for (; at < decimal.size(); ++at) {
        const char c = decimal[at];
        if (c == ',' && !point && groups_three(decimal, at))
            continue;
        if (c == '.' && !point) {
            point = true;
            continue;
        }
        if (!is_digit(c))
            break;
        any = true;
        const auto digit = static_cast<unsigned>(c - '0');
        if (digits > (most - digit) / 10)
            return std::nullopt;
        digits = digits * 10 + digit;
        exponent -= point ? 1 : 0;
    }
    if (!any || digits == 0)
        return std::nullopt;
    if (at < decimal.size() && (decimal[at] == 'e' || decimal[at] == 'E')) {
        ++at;
        const bool negative = at < decimal.size() && decimal[at] == '-';
        if (at < decimal.size() && (decimal[at] == '-' || decimal[at] == '+'))
            ++at;
        int written = 0;
        const std::size_t first = at;
        for (; at < decimal.size() && is_digit(decimal[at]); ++at) {
            written = written * 10 + (decimal[at] - '0');
            if (written > largest_exponent)
                return std::nullopt;
        }
        if (at == first)
            return std::nullopt;
        exponent += negative ? -written : written;
    }
    if (at != decimal.size())
        return std::nullopt;
    // Ends in zeros ("2.50"): taken off, so that long texts of small numbers fit.
    while (exponent < 0 && digits % 10 == 0) {
        digits /= 10;
        ++exponent;
    }
    const auto scale = power(Ratio{10, 1}, exponent);
    return scale ? multiply(Ratio{digits, 1}, *scale) : std::nullopt;
}

} // namespace acre::lang
