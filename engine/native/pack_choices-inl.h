// Included once for every width: comparing numbers side by side, and choosing between them lane by
// lane.
#if defined(ACRE_PACK_CHOICES_INL) == defined(HWY_TARGET_TOGGLE)
#ifdef ACRE_PACK_CHOICES_INL
#undef ACRE_PACK_CHOICES_INL
#else
#define ACRE_PACK_CHOICES_INL
#endif

#include <array>
#include <cstddef>
#include <cstring>

#include "engine/native/pack.h"
#include "hwy/highway.h"

HWY_BEFORE_NAMESPACE();
namespace acre::engine {
namespace HWY_NAMESPACE {

// As many as this processor's vectors hold.
#if HWY_TARGET == HWY_AVX3
using P = Pack<8>;
#elif HWY_TARGET == HWY_AVX2
using P = Pack<4>;
#else
using P = Pack<2>;
#endif

// What a comparison says: all bits of a lane, or none.
struct Mask {
    VectorsOf<P::width>::Truths at;
};
HWY_INLINE Mask operator&(const Mask& a, const Mask& b) {
    return {a.at & b.at};
}
HWY_INLINE Mask operator|(const Mask& a, const Mask& b) {
    return {a.at | b.at};
}
HWY_INLINE bool any(const Mask& a) {
    using Two = VectorsOf<2>::Truths;
    std::array<Two, P::width / 2> pairs;
    std::memcpy(pairs.data(), &a.at, sizeof(a.at));
    Two all = pairs[0];
    for (std::size_t k = 1; k < pairs.size(); ++k)
        all |= pairs[k];
    return (all[0] | all[1]) != 0;
}

HWY_INLINE Mask operator<(const P& a, const P& b) {
    return {a.at < b.at};
}
HWY_INLINE Mask operator<=(const P& a, const P& b) {
    return {a.at <= b.at};
}
HWY_INLINE Mask operator==(const P& a, const P& b) {
    return {a.at == b.at};
}
HWY_INLINE Mask is_nan(const P& a) {
    return {a.at != a.at};
}
HWY_INLINE P pick(const Mask& which, const P& yes, const P& no) {
    return P(which.at ? yes.at : no.at);
}

// The lesser and the greater of two; of a number and a NaN the first.
HWY_INLINE P least(const P& a, const P& b) {
    return pick(b < a, b, a);
}
HWY_INLINE P most(const P& a, const P& b) {
    return pick(a < b, b, a);
}
// Of numbers from 0 to 2^51.
HWY_INLINE P whole_part(const P& a) {
    const P near = (a + 0x1p52) - 0x1p52;
    return near - pick(a < near, 1.0, 0.0);
}

} // namespace HWY_NAMESPACE
} // namespace acre::engine
HWY_AFTER_NAMESPACE();

#endif
