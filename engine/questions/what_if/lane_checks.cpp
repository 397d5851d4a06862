#include "engine/questions/what_if/lane_checks.h"

#define HWY_DISABLED_TARGETS (HWY_AVX3_DL | HWY_SSSE3)
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "engine/questions/what_if/lane_checks.cpp"
#include "hwy/foreach_target.h"

#include "engine/readers/widest.h"
#include "hwy/highway.h"

HWY_BEFORE_NAMESPACE();
namespace acre::engine {
namespace HWY_NAMESPACE {
namespace {
namespace hn = hwy::HWY_NAMESPACE;

#if HWY_TARGET == HWY_SCALAR
using D = hn::Sisd<double>;
#else
using D = hn::ScalableTag<double>;
#endif
constexpr D d{};
constexpr std::size_t width = hn::MaxLanes(D());

// bad(tag, i): of the lanes from i on, as many as the tag says.
template <class Bad> HWY_INLINE bool any(std::size_t n, Bad bad) {
    constexpr hn::CappedTag<double, 1> one{};
    auto found = hn::MaskFromVec(hn::Zero(d));
    std::size_t i = 0;
    for (; i + width <= n; i += width)
        found = hn::Or(found, bad(d, i));
    bool rest = !hn::AllFalse(d, found);
    for (; i < n; ++i)
        rest |= !hn::AllFalse(one, bad(one, i));
    return rest;
}

bool any_nan(const double* y, std::size_t n) {
    return any(
        n,
        [y](auto tag, std::size_t i) HWY_ATTR {
            const auto x = hn::LoadU(tag, y + i);
            return hn::Not(hn::Eq(x, x)); // Ne of a NaN is false here
        });
}
bool any_zero(const double* y, std::size_t n) {
    return any(
        n, [y](auto tag, std::size_t i)
               HWY_ATTR { return hn::Eq(hn::LoadU(tag, y + i), hn::Zero(tag)); });
}
bool any_below(const double* y, double limit, std::size_t n) {
    return any(
        n, [=](auto tag, std::size_t i)
               HWY_ATTR { return hn::Lt(hn::LoadU(tag, y + i), hn::Set(tag, limit)); });
}
bool any_outside(const double* y, const double* low, const double* high, std::size_t n) {
    return any(
        n,
        [=](auto tag, std::size_t i) HWY_ATTR {
            const auto x = hn::LoadU(tag, y + i);
            return hn::Not(
                hn::And(hn::Le(hn::LoadU(tag, low + i), x), hn::Le(x, hn::LoadU(tag, high + i))));
        });
}

} // namespace

const LaneChecks* checks() {
    static constexpr LaneChecks all{any_nan, any_zero, any_below, any_outside};
    return &all;
}

} // namespace HWY_NAMESPACE
} // namespace acre::engine
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace acre::engine {

const LaneChecks& lane_checks() {
    static const LaneChecks& chosen = *ACRE_WIDEST(checks);
    return chosen;
}

} // namespace acre::engine
#endif
