// An exact positive fraction. Every unit of the catalog is one, so conversions carry no rounding of
// their own.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace acre::lang {

__extension__ using Wide = unsigned __int128;

// num / den in lowest terms, both at least 1.
struct Ratio {
    Wide num = 1;
    Wide den = 1;

    friend bool operator==(const Ratio&, const Ratio&) = default;
};

// Empty when the exact result does not fit 128-bit parts.
std::optional<Ratio> multiply(Ratio a, Ratio b);
std::optional<Ratio> divide(Ratio a, Ratio b);
std::optional<Ratio> power(Ratio a, int exponent);
// The exact root, where there is one.
std::optional<Ratio> square_root(Ratio a);
// The nearest double.
double to_double(Ratio a);
// Reads "12.5", "1,100", "2.5e-3" exactly. Empty when malformed, zero, or too large.
std::optional<Ratio> read_ratio(std::string_view decimal);

} // namespace acre::lang
