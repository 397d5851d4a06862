// Included once for every width: transcendental functions, tables and native functions in lanes.
#if defined(ACRE_LANES_FUNCTIONS_INL) == defined(HWY_TARGET_TOGGLE)
#ifdef ACRE_LANES_FUNCTIONS_INL
#undef ACRE_LANES_FUNCTIONS_INL
#else
#define ACRE_LANES_FUNCTIONS_INL
#endif

#include <array>
#include <bit>
#include <span>

#include "engine/native/native.h"
#include "engine/plan/math_functions.h"
#include "engine/plan/scalar_rules.h"
#include "engine/readers/lanes/arithmetic-inl.h"

HWY_BEFORE_NAMESPACE();

// The library's header declares a width only to a whole file compiled for it; these are compiled
// function by function.
#if HWY_TARGET == HWY_AVX3
#define ACRE_SLEEF(name, form) Sleef_finz_##name##d8_##form##avx512f
#define ACRE_SLEEF_VECTOR __m512d
#elif HWY_TARGET == HWY_AVX2
#define ACRE_SLEEF(name, form) Sleef_finz_##name##d4_##form##avx2
#define ACRE_SLEEF_VECTOR __m256d
#elif HWY_TARGET == HWY_SSE4
#define ACRE_SLEEF(name, form) Sleef_cinz_##name##d2_##form##sse4
#define ACRE_SLEEF_VECTOR __m128d
#endif
#ifdef ACRE_SLEEF
extern "C" {
ACRE_SLEEF_VECTOR ACRE_SLEEF(exp, u10)(ACRE_SLEEF_VECTOR);
ACRE_SLEEF_VECTOR ACRE_SLEEF(log, u10)(ACRE_SLEEF_VECTOR);
ACRE_SLEEF_VECTOR ACRE_SLEEF(sinpi, u05)(ACRE_SLEEF_VECTOR);
ACRE_SLEEF_VECTOR ACRE_SLEEF(cospi, u05)(ACRE_SLEEF_VECTOR);
ACRE_SLEEF_VECTOR ACRE_SLEEF(atan, u10)(ACRE_SLEEF_VECTOR);
ACRE_SLEEF_VECTOR ACRE_SLEEF(pow, u10)(ACRE_SLEEF_VECTOR, ACRE_SLEEF_VECTOR);
}
#endif

namespace acre::engine::lanes {
namespace HWY_NAMESPACE {

// One lane after the other, where the library has no vectors that agree with the value reader.
template <double (*function)(double)> HWY_INLINE V lane_by_lane(V a) {
    HWY_ALIGN double x[width];
    hn::StoreU(a, d, x);
    for (double& lane : x)
        lane = function(lane);
    return hn::LoadU(d, x);
}
template <double (*function)(double, double)> HWY_INLINE V lane_by_lane(V a, V b) {
    HWY_ALIGN double x[width];
    HWY_ALIGN double y[width];
    hn::StoreU(a, d, x);
    hn::StoreU(b, d, y);
    for (std::size_t k = 0; k < width; ++k)
        x[k] = function(x[k], y[k]);
    return hn::LoadU(d, x);
}

#ifdef ACRE_SLEEF
struct Library {
    static HWY_INLINE V exp(V a) { return V{ACRE_SLEEF(exp, u10)(a.raw)}; }
    static HWY_INLINE V log(V a) { return V{ACRE_SLEEF(log, u10)(a.raw)}; }
    static HWY_INLINE V sin_half_turns(V a) { return V{ACRE_SLEEF(sinpi, u05)(turned(a).raw)}; }
    static HWY_INLINE V cos_half_turns(V a) { return V{ACRE_SLEEF(cospi, u05)(turned(a).raw)}; }
    static HWY_INLINE V atan(V a) { return V{ACRE_SLEEF(atan, u10)(a.raw)}; }
    static HWY_INLINE V power(V a, V b) { return V{ACRE_SLEEF(pow, u10)(a.raw, b.raw)}; }

  private:
    // Within one turn, as engine/plan/math_functions.cpp has it.
    static HWY_INLINE V turned(V half_turns) {
        return hn::Sub(half_turns, hn::Mul(number(2), hn::Round(hn::Mul(half_turns, number(0.5)))));
    }
};
#undef ACRE_SLEEF
#undef ACRE_SLEEF_VECTOR
#endif

template <class Functions> struct ExpStep {
    static HWY_INLINE V apply(V a) { return finite(Functions::exp(a)); }
};
template <class Functions> struct LogStep {
    static HWY_INLINE V apply(V a) { return finite(Functions::log(a)); }
};
template <class Functions> struct SinStep {
    static HWY_INLINE V apply(V a) {
        return finite(Functions::sin_half_turns(hn::Div(a, number(180))));
    }
};
template <class Functions> struct CosStep {
    static HWY_INLINE V apply(V a) {
        return finite(Functions::cos_half_turns(hn::Div(a, number(180))));
    }
};
template <class Functions> struct TanStep {
    static HWY_INLINE V apply(V a) {
        const V half_turns = hn::Div(a, number(180));
        return finite(
            hn::Div(Functions::sin_half_turns(half_turns), Functions::cos_half_turns(half_turns)));
    }
};
template <class Functions> struct AtanStep {
    static HWY_INLINE V apply(V a) {
        return finite(hn::Mul(Functions::atan(a), number(scalar::degrees_of_a_radian)));
    }
};
template <class Functions> struct PowerStep {
    static HWY_INLINE V apply(V a, V b) {
        const V sound = hn::Add(hn::Sub(a, a), hn::Sub(b, b)); // the library makes 1 of 1 ^ NaN
        return hn::Sub(finite(Functions::power(a, b)), sound);
    }
};
template <class Functions> struct PowerFixedStep {
    static HWY_INLINE V apply(V a, V b) { return finite(Functions::power(a, b)); }
};

// The value reader's own functions.
struct LaneByLane {
    static double exp_of(double x) { return math_functions().exp(x); }
    static double log_of(double x) { return math_functions().log(x); }
    static double sin_of(double x) { return math_functions().sin_half_turns(x); }
    static double cos_of(double x) { return math_functions().cos_half_turns(x); }
    static double atan_of(double x) { return math_functions().atan(x); }
    static double power_of(double x, double y) { return math_functions().power(x, y); }
    static HWY_INLINE V exp(V a) { return lane_by_lane<exp_of>(a); }
    static HWY_INLINE V log(V a) { return lane_by_lane<log_of>(a); }
    static HWY_INLINE V sin_half_turns(V a) { return lane_by_lane<sin_of>(a); }
    static HWY_INLINE V cos_half_turns(V a) { return lane_by_lane<cos_of>(a); }
    static HWY_INLINE V atan(V a) { return lane_by_lane<atan_of>(a); }
    static HWY_INLINE V power(V a, V b) { return lane_by_lane<power_of>(a, b); }
};

// A table of few rows: the row is found by comparing with all of them.
inline constexpr std::size_t few_rows = 16;

template <bool staircase> struct TableStep {
    using Index = hn::RebindToSigned<D>;
    const PreparedTable& table;
    V front, back, below, above;

    explicit HWY_INLINE TableStep(const PreparedTable& t)
        : table(t),
          front(number(t.x[0])),
          back(number(t.x[t.rows - 1])),
          below(number(t.below)),
          above(number(t.above)) {}

    HWY_INLINE V apply(V x) const {
        V r;
#if HWY_TARGET == HWY_AVX3
        if (table.rows <= width)
            r = from_registers(x);
        else
#endif
            r = table.rows <= few_rows ? by_comparing(x) : by_searching(x);
        r = hn::IfThenElse(hn::Lt(x, front), below, r);
        r = hn::IfThenElse(hn::Gt(x, back), above, r);
        return hn::IfThenElse(hn::Eq(x, x), r, x);
    }

  private:
    static HWY_INLINE V line(V x, V x0, V dx, V y0, V dy) {
        const V share = hn::Div(hn::Sub(x, x0), dx);
        return finite(hn::Add(y0, hn::Mul(share, dy)));
    }

#if HWY_TARGET == HWY_AVX3
    // A column fits in one vector.
    HWY_INLINE V from_registers(V x) const {
        const Index di;
        auto row = hn::Zero(di);
        for (std::size_t k = 1; k < table.rows; ++k)
            row = hn::IfThenElse(hn::RebindMask(di, hn::Ge(x, number(table.x[k]))),
                                 hn::Set(di, static_cast<std::int64_t>(k)), row);
        const auto index = hn::IndicesFromVec(d, row);
        const auto pick = [&](const std::vector<double>& column) HWY_ATTR {
            return hn::TableLookupLanes(hn::LoadU(d, column.data()), index);
        };
        const V y0 = pick(table.y);
        if constexpr (staircase)
            return y0;
        else
            return line(x, pick(table.x), pick(table.dx), y0, pick(table.dy));
    }
#endif

    HWY_INLINE V by_comparing(V x) const {
        V x0 = front, y0 = number(table.y[0]), dx = number(table.dx[0]), dy = number(table.dy[0]);
        for (std::size_t k = 1; k < table.rows; ++k) {
            const V next = number(table.x[k]);
            const auto reached = hn::Ge(x, next);
            y0 = hn::IfThenElse(reached, number(table.y[k]), y0);
            if constexpr (!staircase) {
                x0 = hn::IfThenElse(reached, next, x0);
                dx = hn::IfThenElse(reached, number(table.dx[k]), dx);
                dy = hn::IfThenElse(reached, number(table.dy[k]), dy);
            }
        }
        return staircase ? y0 : line(x, x0, dx, y0, dy);
    }

    HWY_INLINE V by_searching(V x) const {
        const Index di;
        auto row = hn::Zero(di);
        std::size_t step = 1;
        while (step * 2 < table.rows)
            step *= 2;
        const auto last = hn::Set(di, static_cast<std::int64_t>(table.rows) - 1);
        for (; step > 0; step /= 2) {
            const auto next =
                hn::Min(hn::Add(row, hn::Set(di, static_cast<std::int64_t>(step))), last);
            const auto reached = hn::Ge(x, hn::GatherIndex(d, table.x.data(), next));
            row = hn::IfThenElse(hn::RebindMask(di, reached), next, row);
        }
        const V y0 = hn::GatherIndex(d, table.y.data(), row);
        if constexpr (staircase)
            return y0;
        else
            return line(x, hn::GatherIndex(d, table.x.data(), row),
                        hn::GatherIndex(d, table.dx.data(), row), y0,
                        hn::GatherIndex(d, table.dy.data(), row));
    }
};

template <bool staircase>
HWY_NOINLINE void table_over_lanes(const Instruction& instruction, const Frame& frame) {
    const Row x = frame.rows[instruction.in[0]];
    double* out = frame.rows[instruction.out].at;
    const TableStep<staircase> step(frame.tables[instruction.extra]);
    for (std::size_t i = 0; i < frame.lanes; i += width)
        hn::StoreU(step.apply(hn::LoadU(d, x.at + (i & x.mask))), d, out + i);
}

// Native calls, in two steps: what is not known of these lanes is asked for, then each function
// takes its own result. Bits are compared, so that NaN is known again and -0 is not 0.
inline std::uint64_t bits_of(double x) {
    return std::bit_cast<std::uint64_t>(x);
}

// Lanes that must be asked for, and whether others take the answer of the lane before.
struct LanesToAsk {
    std::size_t count = 0; // of them, in past.which
    bool some_as_before = false;
    std::array<std::uint64_t, lanes_per_run> moved;   // 0: as it was
    std::array<std::uint64_t, lanes_per_run> differs; // 0: as the lane before
};

// Writes the arguments of these lanes into `past`.
inline void find_lanes_to_ask(const lanes::Call& call, const Frame& frame, Remembered& past,
                              LanesToAsk& ask) {
    for (std::size_t i = 0; i < frame.lanes; ++i) {
        ask.moved[i] = past.known[frame.first + i] == 0 ? 1 : 0;
        ask.differs[i] = i == 0 ? 1 : 0;
        past.known[frame.first + i] = 1;
    }
    for (std::size_t k = 0; k < call.moving.size(); ++k) {
        const double* x = frame.rows[call.args[call.moving[k]]].at;
        double* was = past.args.data() + k * lanes_per_run + frame.first;
        for (std::size_t i = 0; i < frame.lanes; ++i) {
            ask.moved[i] |= bits_of(x[i]) ^ bits_of(was[i]);
            was[i] = x[i];
        }
        for (std::size_t i = 1; i < frame.lanes; ++i)
            ask.differs[i] |= bits_of(x[i]) ^ bits_of(x[i - 1]);
    }
    for (std::size_t i = 0; i < frame.lanes; ++i) {
        past.which[ask.count] = static_cast<std::uint16_t>(i);
        ask.count += ask.moved[i] != 0 && ask.differs[i] != 0 ? 1 : 0;
        ask.some_as_before |= ask.moved[i] != 0 && ask.differs[i] == 0;
    }
}

inline void ask_native(const lanes::Call& call, const Frame& frame, Remembered& past) {
    if (call.remembered == calls_remembered)
        std::fill(past.known.begin(), past.known.end(), 0);
    LanesToAsk ask;
    find_lanes_to_ask(call, frame, past, ask);
    if (ask.count == 0 && !ask.some_as_before)
        return;
    std::array<NativeColumn, most_native_args> columns;
    for (std::size_t k = 0; k < call.args.size(); ++k)
        columns[k] = {frame.rows[call.args[k]].at, true};
    for (std::size_t k = 0; k < call.moving.size(); ++k) {
        const double* x = past.args.data() + k * lanes_per_run + frame.first;
        double* asked = past.asked.data() + k * lanes_per_run;
        for (std::size_t n = 0; n < ask.count; ++n)
            asked[n] = x[past.which[n]];
        columns[call.moving[k]] = {asked, false};
    }
    double* found[native_results];
    for (std::size_t r = 0; r < native_results; ++r)
        found[r] = past.found.data() + r * lanes_per_run;
    native_functions()[call.function].lanes(std::span(columns).first(call.args.size()), ask.count,
                                            static_cast<std::uint32_t>(width * 64), found);
    for (std::size_t r = 0; r < native_results; ++r) {
        double* results = past.results.data() + r * lanes_per_run + frame.first;
        for (std::size_t n = 0; n < ask.count; ++n)
            results[past.which[n]] = found[r][n];
        for (std::size_t i = 1; ask.some_as_before && i < frame.lanes; ++i)
            if (ask.moved[i] != 0 && ask.differs[i] == 0)
                results[i] = results[i - 1];
    }
}

inline void native_over_lanes(const Instruction& instruction, const Frame& frame) {
    const lanes::Call& call = frame.calls[instruction.extra];
    Remembered& past = frame.remembered[call.remembered];
    if (call.leads)
        ask_native(call, frame, past);
    const double* result = past.results.data() +
                           native_functions()[call.function].result * lanes_per_run + frame.first;
    double* out = frame.rows[instruction.out].at;
    for (std::size_t i = 0; i < frame.lanes; i += width)
        hn::StoreU(finite(hn::LoadU(d, result + i)), d, out + i);
}

} // namespace HWY_NAMESPACE
} // namespace acre::engine::lanes
HWY_AFTER_NAMESPACE();

#endif
