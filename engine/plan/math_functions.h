// Transcendental functions that give the same bits for one double and for lanes of doubles: the
// deterministic functions of the SLEEF library, with fused multiply-add where the processor has it
// and without where it has not. Results are those of the C library within one unit in the last
// place; they may be infinite or NaN.
#pragma once

namespace acre::engine {

struct MathFunctions {
    double (*exp)(double);
    double (*log)(double);
    double (*sin_half_turns)(double); // sin(pi x): exact at whole and half x
    double (*cos_half_turns)(double); // cos(pi x)
    double (*atan)(double);           // in radians
    double (*power)(double, double);
    bool fused; // which of the two families it is
};

const MathFunctions& math_functions();

} // namespace acre::engine
