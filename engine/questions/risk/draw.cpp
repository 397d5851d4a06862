#include "engine/questions/risk/draw.h"

#include <algorithm>
#include <limits>

#define HWY_DISABLED_TARGETS (HWY_AVX3_DL | HWY_SSSE3)
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "engine/questions/risk/draw.cpp"
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
using U = hn::RebindToUnsigned<D>;
using I = hn::RebindToSigned<D>;
using V = hn::Vec<D>;
constexpr D d{};
constexpr U du{};
constexpr I di{};
constexpr std::size_t width = hn::MaxLanes(D());

HWY_INLINE V number(double x) {
    return hn::Set(d, x);
}

// 52 bits, in the middle of their cell: 2^-53 .. 1 - 2^-53.
struct FromBits {
    const std::uint64_t* base;
    hn::Vec<U> offset;
    HWY_INLINE V operator()(std::size_t i) const {
        const auto bits = hn::ShiftRight<12>(hn::Xor(hn::LoadU(du, base + i), offset));
        const V one_to_two = hn::BitCast(d, hn::Or(bits, hn::Set(du, 0x3FF0000000000000)));
        return hn::Sub(one_to_two, number(1 - 0x1p-53));
    }
};
struct FromMemory {
    const double* p;
    HWY_INLINE V operator()(std::size_t i) const { return hn::LoadU(d, p + i); }
};

HWY_INLINE V cubic(const double* c, hn::Vec<I> at, V t) {
    const auto first = hn::ShiftLeft<2>(at);
    const V c0 = hn::GatherIndex(d, c, first), c1 = hn::GatherIndex(d, c + 1, first);
    const V c2 = hn::GatherIndex(d, c + 2, first), c3 = hn::GatherIndex(d, c + 3, first);
    return hn::Add(c0, hn::Mul(t, hn::Add(c1, hn::Mul(t, hn::Add(c2, hn::Mul(t, c3))))));
}

HWY_INLINE V from_table(const QuantileTable& table, V p) {
    const auto upper = hn::Gt(p, number(0.5));
    const V far = hn::IfThenElse(upper, hn::Sub(number(1), p), p);
    const V v = hn::Max(far, number(1.0 / (std::uint64_t{1} << quantile_octaves)));
    const auto bits = hn::ShiftRight<49>(hn::BitCast(du, v));
    const V t = hn::Sub(v, hn::BitCast(d, hn::ShiftLeft<49>(bits)));
    const auto at =
        hn::Sub(hn::BitCast(di, bits), hn::Set(di, std::int64_t{1023 - quantile_octaves} << 3));
    return hn::IfThenElse(upper, cubic(table.high.c.data(), at, t),
                          cubic(table.low.c.data(), at, t));
}

template <class From>
HWY_INLINE void shape_all(const Shape& shape, From from, std::size_t n, double* x) {
    const V low = number(shape.low), high = number(shape.high), one = number(1);
    switch (shape.spread) {
    case Spread::Even: {
        const V range = number(shape.high - shape.low);
        for (std::size_t i = 0; i < n; i += width)
            hn::StoreU(hn::Add(low, hn::Mul(from(i), range)), d, x + i);
        break;
    }
    case Spread::Triangular: {
        const V share = number(shape.share), left = number(shape.left), right = number(shape.right);
        for (std::size_t i = 0; i < n; i += width) {
            const V p = from(i);
            const auto below = hn::Lt(p, share);
            const V root =
                hn::Sqrt(hn::IfThenElse(below, hn::Mul(p, left), hn::Mul(hn::Sub(one, p), right)));
            hn::StoreU(hn::IfThenElse(below, hn::Add(low, root), hn::Sub(high, root)), d, x + i);
        }
        break;
    }
    case Spread::Step: {
        const V steps = number(shape.steps), last = number(shape.steps - 1);
        for (std::size_t i = 0; i < n; i += width)
            hn::StoreU(hn::Add(low, hn::Min(hn::Floor(hn::Mul(from(i), steps)), last)), d, x + i);
        break;
    }
    case Spread::Table:
        for (std::size_t i = 0; i < n; i += width)
            hn::StoreU(hn::Min(hn::Max(from_table(shape.table, from(i)), low), high), d, x + i);
        break;
    }
}

void even(const std::uint64_t* base, std::uint64_t offset, std::size_t n, double* p) {
    const FromBits from{base, hn::Set(du, offset)};
    for (std::size_t i = 0; i < n; i += width)
        hn::StoreU(from(i), d, p + i);
}
void shaped(const Shape& shape, const std::uint64_t* base, std::uint64_t offset, std::size_t n,
            double* x) {
    shape_all(shape, FromBits{base, hn::Set(du, offset)}, n, x);
}
void shaped_from(const Shape& shape, const double* p, std::size_t n, double* x) {
    shape_all(shape, FromMemory{p}, n, x);
}

void deviates(const QuantileTable& normal, const double* p, std::size_t n, double* z) {
    for (std::size_t i = 0; i < n; i += width)
        hn::StoreU(from_table(normal, hn::LoadU(d, p + i)), d, z + i);
}
void shares(const Pieces& normal, const double* z, std::size_t n, double* p) {
    const V reach = number(deviate_reach), pieces = number(deviate_pieces);
    const V last = number(2 * deviate_reach * deviate_pieces - 1);
    for (std::size_t i = 0; i < n; i += width) {
        const V place = hn::Mul(hn::Add(hn::LoadU(d, z + i), reach), pieces);
        const V piece = hn::Min(hn::Max(hn::Floor(place), number(0)), last);
        const V t = hn::Div(hn::Sub(place, piece), pieces);
        const V share = cubic(normal.c.data(), hn::ConvertTo(di, piece), t);
        hn::StoreU(hn::Min(hn::Max(share, number(0x1p-53)), number(1 - 0x1p-53)), d, p + i);
    }
}

void count(const double* y, std::size_t n, double centre, const Bins& bins, Sums& sums,
           std::int64_t* bin) {
    const V middle = number(centre), from = number(bins.from), per_unit = number(bins.per_unit);
    const V last = number(static_cast<double>(bins.count) + 1), zero = number(0), one = number(1);
    const std::size_t full = n / partial_sums * partial_sums;
    std::size_t below = 0;
    for (std::size_t k = 0; k < partial_sums; k += width) {
        V sum = hn::LoadU(d, sums.sum + k), squares = hn::LoadU(d, sums.squares + k);
        V least = hn::LoadU(d, sums.least + k), greatest = hn::LoadU(d, sums.greatest + k);
        for (std::size_t i = k; i < full; i += partial_sums) {
            const V x = hn::LoadU(d, y + i), away = hn::Sub(x, middle);
            sum = hn::Add(sum, away);
            squares = hn::Add(squares, hn::Mul(away, away));
            least = hn::Min(least, x);
            greatest = hn::Max(greatest, x);
            below += hn::CountTrue(d, hn::Lt(x, zero));
            const V place = hn::Add(hn::Mul(hn::Sub(x, from), per_unit), one);
            hn::StoreU(hn::ConvertTo(di, hn::Min(hn::Max(place, zero), last)), di, bin + i);
        }
        hn::StoreU(sum, d, sums.sum + k);
        hn::StoreU(squares, d, sums.squares + k);
        hn::StoreU(least, d, sums.least + k);
        hn::StoreU(greatest, d, sums.greatest + k);
    }
    for (std::size_t i = full; i < n; ++i) {
        const double away = y[i] - centre;
        const std::size_t k = i - full;
        sums.sum[k] += away;
        sums.squares[k] += away * away;
        sums.least[k] = std::min(sums.least[k], y[i]);
        sums.greatest[k] = std::max(sums.greatest[k], y[i]);
        below += y[i] < 0;
        const double place = (y[i] - bins.from) * bins.per_unit + 1;
        bin[i] = static_cast<std::int64_t>(
            std::min(std::max(place, 0.0), static_cast<double>(bins.count) + 1));
    }
    sums.below_zero += below;
}

} // namespace

const DrawKernels* kernels() {
    static constexpr DrawKernels all{even, shaped, shaped_from, deviates, shares, count};
    return &all;
}

} // namespace HWY_NAMESPACE
} // namespace acre::engine
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace acre::engine {

Sums::Sums() {
    std::fill_n(least, partial_sums, std::numeric_limits<double>::infinity());
    std::fill_n(greatest, partial_sums, -std::numeric_limits<double>::infinity());
}

const DrawKernels& draw_kernels() {
    static const DrawKernels& chosen = *ACRE_WIDEST(kernels);
    return chosen;
}

} // namespace acre::engine
#endif
