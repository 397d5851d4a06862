// A plain loop over the lanes; compiled twice with different freedoms.
#include <cmath>

#include "tests/bench/readers/rip_native.h"
#include "tests/bench/readers/rivals.h"

namespace acre::bench {
namespace {

struct Functions {
    template <std::size_t rows> static inline double between_rows(double at, const double (&x)[rows], const double (&y)[rows]) {
        return lines_between<double, Functions>(at, x, y);
    }
    static double power(double a, double b) { return std::pow(a, b); }
    static double logarithm(double a) { return std::log(a); }
    static double root(double a) { return std::sqrt(a); }
    static double ceiling(double x) {
        const double whole = std::floor(x);
        const double relative = 1e-9 * std::fabs(x);
        const double dust = relative < 1e-9 ? 1e-9 : relative > 1e-3 ? 1e-3 : relative;
        return x - whole > dust ? whole + 1 : whole;
    }
    static double lesser(double a, double b) { return a < b ? a : b; }
    static double greater(double a, double b) { return a > b ? a : b; }
    static double choose(bool m, double a, double b) { return m ? a : b; }
    static bool below(double a, double b) { return a < b; }
    static bool both(bool a, bool b) { return a & b; }
    static bool either(bool a, bool b) { return a | b; }
};

void over_lanes(std::size_t lanes, const double* const* in, double* const* out) {
    double* const cost = out[0];
    double* const price = out[1];
    double* const per_unit = out[2];
#pragma GCC ivdep
    for (std::size_t i = 0; i < lanes; ++i) {
        double x[given_count], y[answer_count];
#pragma GCC unroll 32
        for (std::size_t k = 0; k < given_count; ++k)
            x[k] = in[k][i];
        rip<double, Functions>(x, y);
        cost[i] = y[0];
        price[i] = y[1];
        per_unit[i] = y[2];
    }
}

} // namespace
} // namespace acre::bench
