// Pieces of a formula put together so that every spreadsheet reads them alike. There a sign binds
// tighter than a power and powers go from left to right: a piece stands in brackets wherever two
// programs, or a reader, might differ.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace acre::engine {

struct Expression {
    enum Strength { comparison = 4, sum = 5, product = 6, power = 8, whole = 9 };
    std::string text;
    int strength = whole; // of its outermost operator
    int depth = 0;        // brackets and functions within each other
    // Of a call that may take more values: its function, and how many it has.
    std::string_view function;
    std::size_t values = 0;

    // A name, an address, a number: may be written twice.
    bool is_short() const { return depth == 0 && strength == whole; }
};

Expression word(std::string text); // a name, an address, a number, a text
Expression infix(const Expression& a, std::string_view sign, const Expression& b, int strength);
Expression minus(const Expression& a);
Expression raised(const Expression& a, const Expression& b);
Expression call(std::string_view function, const Expression& a);
Expression call(std::string_view function, const Expression& a, const Expression& b);
Expression call(std::string_view function, const Expression& a, const Expression& b,
                const Expression& c);
// MIN, MAX, AND, OR: of what is such a call already, one call of all.
Expression gathered(std::string_view function, const Expression& a, const Expression& b);

// To a whole number with the tolerance of the engine (scalar_rules.h): `x` is written twice.
Expression ceiling_of(const Expression& x);
Expression floor_of(const Expression& x);
Expression rounded_of(const Expression& x);

// The engine's power, whatever a program makes of 0 ^ 0 or of a root of what is below zero. Both
// may be written several times.
Expression power_of(const Expression& a, const Expression& b, const double* written_exponent);
// Of degrees; no answer at 90, 270, ….
Expression tangent_of(const Expression& degrees);

} // namespace acre::engine
