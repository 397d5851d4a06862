#define HWY_DISABLED_TARGETS HWY_AVX3_DL
#include <hwy/highway.h>
#include <sleef.h>

#include "tests/bench/readers/rip_native.h"
#include "tests/bench/readers/rivals.h"

HWY_BEFORE_NAMESPACE();
namespace acre::bench {
namespace {
namespace hn = hwy::HWY_NAMESPACE;
using D = hn::ScalableTag<double>;
using V = hn::Vec<D>;
constexpr D d{};

struct Lanes {
    V v;
    Lanes() = default;
    Lanes(V x) : v(x) {}
    explicit Lanes(double x) : v(hn::Set(d, x)) {}
};
HWY_INLINE Lanes operator+(Lanes a, Lanes b) {
    return hn::Add(a.v, b.v);
}
HWY_INLINE Lanes operator-(Lanes a, Lanes b) {
    return hn::Sub(a.v, b.v);
}
HWY_INLINE Lanes operator*(Lanes a, Lanes b) {
    return hn::Mul(a.v, b.v);
}
HWY_INLINE Lanes operator/(Lanes a, Lanes b) {
    return hn::Div(a.v, b.v);
}

struct Functions {
    template <std::size_t rows>
    static inline Lanes between_rows(Lanes at, const double (&x)[rows], const double (&y)[rows]) {
        return lines_between<Lanes, Functions>(at, x, y);
    }
    using Mask = hn::Mask<D>;
#if HWY_TARGET <= HWY_AVX3
    static HWY_INLINE Lanes power(Lanes a, Lanes b) {
        return V{Sleef_finz_powd8_u10avx512f(a.v.raw, b.v.raw)};
    }
    static HWY_INLINE Lanes logarithm(Lanes a) {
        return V{Sleef_finz_logd8_u10avx512f(a.v.raw)};
    }
#elif HWY_TARGET == HWY_AVX2
    static HWY_INLINE Lanes power(Lanes a, Lanes b) {
        return V{Sleef_finz_powd4_u10avx2(a.v.raw, b.v.raw)};
    }
    static HWY_INLINE Lanes logarithm(Lanes a) {
        return V{Sleef_finz_logd4_u10avx2(a.v.raw)};
    }
#else
#error "the rival by hand wants AVX2 or AVX-512"
#endif
    static HWY_INLINE Lanes root(Lanes a) {
        return hn::Sqrt(a.v);
    }
    static HWY_INLINE Lanes ceiling(Lanes x) {
        const V whole = hn::Floor(x.v);
        const V dust = hn::Min(hn::Max(hn::Mul(hn::Set(d, 1e-9), hn::Abs(x.v)), hn::Set(d, 1e-9)),
                               hn::Set(d, 1e-3));
        return hn::IfThenElse(hn::Gt(hn::Sub(x.v, whole), dust), hn::Add(whole, hn::Set(d, 1)),
                              whole);
    }
    static HWY_INLINE Lanes lesser(Lanes a, Lanes b) {
        return hn::Min(a.v, b.v);
    }
    static HWY_INLINE Lanes greater(Lanes a, Lanes b) {
        return hn::Max(a.v, b.v);
    }
    static HWY_INLINE Lanes choose(Mask m, Lanes a, Lanes b) {
        return hn::IfThenElse(m, a.v, b.v);
    }
    static HWY_INLINE Mask below(Lanes a, Lanes b) {
        return hn::Lt(a.v, b.v);
    }
    static HWY_INLINE Mask both(Mask a, Mask b) {
        return hn::And(a, b);
    }
    static HWY_INLINE Mask either(Mask a, Mask b) {
        return hn::Or(a, b);
    }
};

} // namespace

void rip_vectors(std::size_t lanes, const double* const* in, double* const* out) {
    Lanes x[given_count], y[answer_count];
    for (std::size_t i = 0; i < lanes; i += hn::Lanes(d)) {
        for (std::size_t k = 0; k < given_count; ++k)
            x[k] = hn::LoadU(d, in[k] + i);
        rip<Lanes, Functions>(x, y);
        for (std::size_t k = 0; k < answer_count; ++k)
            hn::StoreU(y[k].v, d, out[k] + i);
    }
}

const char* vector_name() {
    return hwy::TargetName(HWY_TARGET);
}

} // namespace acre::bench
HWY_AFTER_NAMESPACE();
