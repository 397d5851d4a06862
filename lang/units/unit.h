// A unit is a dimension and an exact scale. A dimension is a fixed array of whole exponents, one
// for each base, so two units are of one kind exactly when their arrays are equal.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lang/units/ratio.h"

namespace acre::lang {

// Built-in bases; a model's nouns follow. The year is apart from clock time on purpose: $/yr + $/h
// must not add up. Yards in the bank and loose yards are apart
// because swell is the job's.
enum Base : std::uint8_t {
    Length,
    Mass,
    Time,
    Money,
    Year,
    Angle,
    Day,
    Shift,
    Bank,
    Loose,
    first_noun
};
inline constexpr std::size_t max_bases = 32;

struct Dim {
    std::array<std::int8_t, max_bases> exponent{};
    friend bool operator==(const Dim&, const Dim&) = default;
    bool is_plain() const { return *this == Dim{}; }
};

struct Unit {
    Dim dim;
    Ratio scale; // one of this unit, in base units (inch, pound, second, dollar, year, degree, day,
                 // shift, bank yard, loose yard, one noun)
    friend bool operator==(const Unit&, const Unit&) = default;
    bool is_plain() const { return dim.is_plain(); }
};

inline const Unit one{};

// Empty on overflow of an exponent or of the scale.
std::optional<Unit> multiply(const Unit& a, const Unit& b);
std::optional<Unit> divide(const Unit& a, const Unit& b);
std::optional<Unit> power(const Unit& a, int exponent);
// Half of every exponent; empty when one is odd or the scale has no exact root in these units
// (then the caller converts to base units first).
std::optional<Unit> square_root(const Unit& a);

// How a number in `from` becomes a number in `to`: multiply by factor, or divide by it, whichever
// is exact in doubles.
struct Conversion {
    double factor = 1;
    bool divide = false;
    bool is_identity() const { return factor == 1; }
    double apply(double x) const { return divide ? x / factor : x * factor; }
};
// `from` and `to` must be of one dimension.
Conversion conversion(const Unit& from, const Unit& to);

} // namespace acre::lang
