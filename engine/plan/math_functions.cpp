#include "engine/plan/math_functions.h"

#include <cmath>

#if defined(__x86_64__)

// Declared here because SLEEF's header shows the fused family only to code that is itself compiled
// for such a processor; the library has both, and which one to call is known when the program runs.
extern "C" {
double Sleef_finz_expd1_u10purecfma(double);
double Sleef_finz_logd1_u10purecfma(double);
double Sleef_finz_sinpid1_u05purecfma(double);
double Sleef_finz_cospid1_u05purecfma(double);
double Sleef_finz_atand1_u10purecfma(double);
double Sleef_finz_powd1_u10purecfma(double, double);
double Sleef_cinz_expd1_u10purec(double);
double Sleef_cinz_logd1_u10purec(double);
double Sleef_cinz_sinpid1_u05purec(double);
double Sleef_cinz_cospid1_u05purec(double);
double Sleef_cinz_atand1_u10purec(double);
double Sleef_cinz_powd1_u10purec(double, double);
}

#endif

namespace acre::engine {

#if defined(__x86_64__)

namespace {

// Within one turn: past some hundred million turns the library says 0 to everything. Taking whole
// turns away is exact.
template <double (*function)(double)> double turned(double half_turns) {
    return function(half_turns - 2 * std::nearbyint(half_turns * 0.5));
}

} // namespace

const MathFunctions& math_functions() {
    static constexpr MathFunctions fused{Sleef_finz_expd1_u10purecfma,
                                         Sleef_finz_logd1_u10purecfma,
                                         turned<Sleef_finz_sinpid1_u05purecfma>,
                                         turned<Sleef_finz_cospid1_u05purecfma>,
                                         Sleef_finz_atand1_u10purecfma,
                                         Sleef_finz_powd1_u10purecfma,
                                         true};
    static constexpr MathFunctions plain{Sleef_cinz_expd1_u10purec,
                                         Sleef_cinz_logd1_u10purec,
                                         turned<Sleef_cinz_sinpid1_u05purec>,
                                         turned<Sleef_cinz_cospid1_u05purec>,
                                         Sleef_cinz_atand1_u10purec,
                                         Sleef_cinz_powd1_u10purec,
                                         false};
    static const MathFunctions& chosen = __builtin_cpu_supports("fma") ? fused : plain;
    return chosen;
}

#else

// Other processors have no lane reader in lanes of these functions, so the C library's will do.
const MathFunctions& math_functions() {
    constexpr auto pi = 3.14159265358979323846;
    static constexpr MathFunctions library{
        [](double x) { return std::exp(x); },
        [](double x) { return std::log(x); },
        [](double x) { return std::sin(pi * std::remainder(x, 2)); },
        [](double x) { return std::cos(pi * std::remainder(x, 2)); },
        [](double x) { return std::atan(x); },
        [](double x, double y) { return std::pow(x, y); },
        false};
    return library;
}

#endif

} // namespace acre::engine
