// Transcendental functions: one double, lanes of every width, with and without fused multiply-add;
// and against the C library.
#include <doctest/doctest.h>

#include <bit>
#include <cmath>
#include <random>
#include <vector>

#include "engine/plan/math_functions.h"
#include "engine/plan/operations.h"
#include "engine/readers/lanes.h"
#include "engine/readers/lanes/kernels.h"

#if defined(__x86_64__)
#include <sleef.h>

namespace function_library_test {

#endif

using namespace acre::engine;

namespace {

class Numbers {
  public:
    double any() { // of every size, either sign
        const auto bits = random_();
        const double x = std::bit_cast<double>(bits);
        return std::isfinite(x) ? x : 1;
    }
    double near() {
        return std::ldexp(static_cast<double>(static_cast<std::int64_t>(random_())),
                          -63 + static_cast<int>(random_() % 14) - 4);
    }

  private:
    std::mt19937_64 random_{20270314};
};

bool same(double a, double b) {
    return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b) || (a != a && b != b);
}

// In units of the last place of `right`.
double apart(double got, long double right) {
    if (!std::isfinite(got) || right == 0 || std::fabs(static_cast<double>(right)) < 1e-300)
        return 0;
    const double last = std::nextafter(std::fabs(static_cast<double>(right)), HUGE_VAL) -
                        std::fabs(static_cast<double>(right));
    return static_cast<double>(
        std::fabs((static_cast<long double>(got) - right) / static_cast<long double>(last)));
}

} // namespace

TEST_CASE("every function gives the same bits for one double and for lanes of every width") {
    constexpr std::size_t lanes = lanes_per_run, batches = 40;
    for (const OpCode code : {OpCode::Exp, OpCode::Log, OpCode::Sin, OpCode::Cos, OpCode::Tan,
                              OpCode::Atan, OpCode::Power, OpCode::Sqrt}) {
        Plan plan;
        plan.inputs = {{0, 1, 0, false}, {1, 1, 1, false}};
        plan.operations = {
            {OpCode::Input, 0}, {OpCode::Input, 1}, {code, 0, code == OpCode::Power ? 1U : 0U}};
        for (const lanes::KernelSet* set : lanes::kernel_sets()) {
            const LaneReader reader(plan, std::vector<std::uint32_t>{0, 1}, std::vector<Slot>{2},
                                    {}, set->bits);
            const auto scratch = reader.scratch();
            Numbers numbers;
            std::vector<double> x(lanes), y(lanes), out(lanes);
            const double* in[] = {x.data(), y.data()};
            double* to[] = {out.data()};
            std::size_t wrong = 0, sound = 0;
            for (std::size_t batch = 0; batch < batches; ++batch) {
                for (std::size_t i = 0; i < lanes; ++i) {
                    x[i] = i % 4 == 0 ? numbers.any() : numbers.near() * (i % 4 == 1 ? 180 : 1);
                    y[i] = i % 8 == 2   ? std::round(numbers.near())
                           : i % 8 == 0 ? numbers.any()
                                        : numbers.near();
                }
                reader.run(lanes, in, to, *scratch);
                for (std::size_t i = 0; i < lanes; ++i) {
                    const double expected = apply(code, x[i], y[i], 0);
                    wrong += !same(out[i], expected);
                    sound += expected == expected;
                }
            }
            CAPTURE(static_cast<int>(code));
            CAPTURE(set->bits);
            CHECK(wrong == 0);
            CHECK(sound > batches * lanes / 10);
        }
    }
}

TEST_CASE("one double is within one unit in the last place of the C library's long double") {
    // The promise of SLEEF's functions is 1.0 units (0.5 for sines and cosines of half turns).
    Numbers numbers;
    double worst_exp = 0, worst_log = 0, worst_atan = 0, worst_power = 0;
    for (int k = 0; k < 200'000; ++k) {
        const double x = numbers.near(), positive = std::fabs(x) + 1e-12, y = numbers.near();
        worst_exp = std::max(worst_exp,
                             apart(math_functions().exp(x), std::exp(static_cast<long double>(x))));
        worst_log = std::max(worst_log, apart(math_functions().log(positive),
                                              std::log(static_cast<long double>(positive))));
        worst_atan = std::max(
            worst_atan, apart(math_functions().atan(x), std::atan(static_cast<long double>(x))));
        worst_power = std::max(worst_power, apart(math_functions().power(positive, y),
                                                  std::pow(static_cast<long double>(positive),
                                                           static_cast<long double>(y))));
    }
    CHECK(worst_exp < 1);
    CHECK(worst_log < 1);
    CHECK(worst_atan < 1);
    CHECK(worst_power < 1);
    CHECK(worst_power > 0.4); // the comparison sees something
}

#if defined(__x86_64__)
TEST_CASE("on a processor without fused multiply-add two lanes and one double agree as well") {
    Numbers numbers;
    std::size_t wrong = 0;
    const auto first = [](__m128d v) { return _mm_cvtsd_f64(v); };
    for (int k = 0; k < 100'000; ++k) {
        const double x = numbers.near(), y = numbers.near(), size = std::fabs(x);
        const __m128d vx = _mm_set1_pd(x), vy = _mm_set1_pd(y), vs = _mm_set1_pd(size);
        wrong += !same(Sleef_cinz_expd1_u10purec(x), first(Sleef_cinz_expd2_u10sse2(vx)));
        wrong += !same(Sleef_cinz_logd1_u10purec(size), first(Sleef_cinz_logd2_u10sse2(vs)));
        wrong += !same(Sleef_cinz_sinpid1_u05purec(x), first(Sleef_cinz_sinpid2_u05sse2(vx)));
        wrong += !same(Sleef_cinz_cospid1_u05purec(x), first(Sleef_cinz_cospid2_u05sse2(vx)));
        wrong += !same(Sleef_cinz_atand1_u10purec(x), first(Sleef_cinz_atand2_u10sse2(vx)));
        wrong += !same(Sleef_cinz_powd1_u10purec(size, y), first(Sleef_cinz_powd2_u10sse2(vs, vy)));
    }
    CHECK(wrong == 0);
}
#endif

} // namespace function_library_test
