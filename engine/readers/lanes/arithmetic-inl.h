// Included once for every width: plain arithmetic, comparisons, choices and whole numbers in lanes.
#if defined(ACRE_LANES_ARITHMETIC_INL) == defined(HWY_TARGET_TOGGLE)
#ifdef ACRE_LANES_ARITHMETIC_INL
#undef ACRE_LANES_ARITHMETIC_INL
#else
#define ACRE_LANES_ARITHMETIC_INL
#endif

#include <limits>

#include "engine/readers/lanes/kernels.h"
#include "hwy/highway.h"

HWY_BEFORE_NAMESPACE();
namespace acre::engine::lanes {
namespace HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

#if HWY_TARGET == HWY_SCALAR
using D = hn::Sisd<double>;
#else
using D = hn::ScalableTag<double>;
#endif
using V = hn::Vec<D>;
constexpr D d{};
constexpr std::size_t width = hn::MaxLanes(D());

HWY_INLINE V number(double x) {
    return hn::Set(d, x);
}
HWY_INLINE V poison() {
    return number(std::numeric_limits<double>::quiet_NaN());
}
// What is not finite becomes NaN: x - x is zero for every other number.
HWY_INLINE V finite(V x) {
    return hn::Sub(x, hn::Sub(x, x));
}

// Runs STEP over all lanes. STEP::apply takes `operands` vectors and gives one; `unrolled`: so
// cheap that the loop would show.
template <class Step, std::size_t operands, bool unrolled = true>
HWY_NOINLINE void over_lanes(const Instruction& instruction, const Frame& frame) {
    double* out = frame.rows[instruction.out].at;
    const Row a = frame.rows[instruction.in[0]];
    const Row b = frame.rows[instruction.in[operands > 1 ? 1 : 0]];
    const Row c = frame.rows[instruction.in[operands > 2 ? 2 : 0]];
    const Row e = frame.rows[instruction.in[operands > 3 ? 3 : 0]];
    constexpr std::size_t step = unrolled && width > 1 ? 2 * width : width;
    static_assert(step <= group);
    for (std::size_t i = 0; i < frame.lanes; i += step) {
        const double* pa = a.at + (i & a.mask);
        const double* pb = b.at + (i & b.mask);
        const double* pc = c.at + (i & c.mask);
        const double* pe = e.at + (i & e.mask);
        HWY_UNROLL(2)
        for (std::size_t k = 0; k < step; k += width) {
            V r;
            if constexpr (operands == 1)
                r = Step::apply(hn::LoadU(d, pa + k));
            else if constexpr (operands == 2)
                r = Step::apply(hn::LoadU(d, pa + k), hn::LoadU(d, pb + k));
            else if constexpr (operands == 3)
                r = Step::apply(hn::LoadU(d, pa + k), hn::LoadU(d, pb + k), hn::LoadU(d, pc + k));
            else
                r = Step::apply(hn::LoadU(d, pa + k), hn::LoadU(d, pb + k), hn::LoadU(d, pc + k),
                                hn::LoadU(d, pe + k));
            hn::StoreU(r, d, out + i + k);
        }
    }
}

struct MinStep {
    static HWY_INLINE V apply(V a, V b) {
        const V least = hn::IfThenElse(hn::Lt(b, a), b, a); // a if a is poison
        return hn::IfThenElse(hn::Eq(b, b), least, b);
    }
};
struct MaxStep {
    static HWY_INLINE V apply(V a, V b) {
        const V most = hn::IfThenElse(hn::Gt(b, a), b, a);
        return hn::IfThenElse(hn::Eq(b, b), most, b);
    }
};

template <First first> HWY_INLINE V begin(V a, V b) {
    if constexpr (first == First::Add)
        return hn::Add(a, b);
    else if constexpr (first == First::Subtract)
        return hn::Sub(a, b);
    else if constexpr (first == First::Multiply)
        return hn::Mul(a, b);
    else
        return hn::Div(a, b);
}
template <Then then> HWY_INLINE V go_on(V so_far, V x) {
    if constexpr (then == Then::Add)
        return hn::Add(so_far, x);
    else if constexpr (then == Then::Subtract)
        return hn::Sub(so_far, x);
    else if constexpr (then == Then::SubtractFrom)
        return hn::Sub(x, so_far);
    else if constexpr (then == Then::Multiply)
        return hn::Mul(so_far, x);
    else if constexpr (then == Then::Divide)
        return hn::Div(so_far, x);
    else if constexpr (then == Then::DivideInto)
        return hn::Div(x, finite(so_far)); // one over an infinity would be a number again
    else if constexpr (then == Then::AtLeast)
        return MaxStep::apply(finite(so_far), x);
    else if constexpr (then == Then::AtMost)
        return MinStep::apply(finite(so_far), x);
    else if constexpr (then == Then::Root)
        return hn::Sqrt(so_far);
    else
        return so_far;
}
template <First first, Then second, Then third, bool canonical> struct Chain {
    static HWY_INLINE V end(V x) { return canonical ? finite(x) : x; }
    static HWY_INLINE V apply(V a, V b) { return end(begin<first>(a, b)); }
    static HWY_INLINE V apply(V a, V b, V c) { return end(go_on<second>(begin<first>(a, b), c)); }
    static HWY_INLINE V apply(V a, V b, V c, V e) {
        return end(go_on<third>(go_on<second>(begin<first>(a, b), c), e));
    }
};

struct CopyStep {
    static HWY_INLINE V apply(V a) { return finite(a); }
};
struct NegateStep {
    static HWY_INLINE V apply(V a) { return hn::Neg(a); }
};
struct AbsStep {
    static HWY_INLINE V apply(V a) { return hn::Abs(a); }
};
struct SqrtStep {
    static HWY_INLINE V apply(V a) { return hn::Sqrt(a); }
};

// Conditions: 1, 0, or NaN if one of the sides is poison. `holds` and `fails` are both false for
// NaN.
template <Kernel kernel> HWY_INLINE auto holds(V a, V b) {
    if constexpr (kernel == Kernel::Less)
        return hn::Lt(a, b);
    else if constexpr (kernel == Kernel::LessEqual)
        return hn::Le(a, b);
    else if constexpr (kernel == Kernel::Greater)
        return hn::Gt(a, b);
    else if constexpr (kernel == Kernel::GreaterEqual)
        return hn::Ge(a, b);
    else if constexpr (kernel == Kernel::Equal)
        return hn::Eq(a, b);
    else
        return hn::Or(hn::Lt(a, b), hn::Gt(a, b));
}
template <Kernel kernel> HWY_INLINE auto fails(V a, V b) {
    if constexpr (kernel == Kernel::Less)
        return hn::Ge(a, b);
    else if constexpr (kernel == Kernel::LessEqual)
        return hn::Gt(a, b);
    else if constexpr (kernel == Kernel::Greater)
        return hn::Le(a, b);
    else if constexpr (kernel == Kernel::GreaterEqual)
        return hn::Lt(a, b);
    else if constexpr (kernel == Kernel::Equal)
        return hn::Or(hn::Lt(a, b), hn::Gt(a, b));
    else
        return hn::Eq(a, b);
}
template <Kernel kernel> struct SelectCompareStep {
    static HWY_INLINE V apply(V a, V b, V yes, V no) {
        return hn::IfThenElse(holds<kernel>(a, b), yes,
                              hn::IfThenElse(fails<kernel>(a, b), no, poison()));
    }
};
template <Kernel kernel> struct CompareStep {
    static HWY_INLINE V apply(V a, V b) {
        return SelectCompareStep<kernel>::apply(a, b, number(1), number(0));
    }
};
struct SelectStep {
    static HWY_INLINE V apply(V a, V yes, V no) {
        const V taken = hn::IfThenElse(hn::Eq(a, number(0)), no, yes);
        return hn::IfThenElse(hn::Eq(a, a), taken, a);
    }
};
HWY_INLINE V truth_of(V b) {
    const V truth = hn::IfThenElse(hn::Eq(b, number(0)), number(0), number(1));
    return hn::IfThenElse(hn::Eq(b, b), truth, b);
}
struct NotStep {
    static HWY_INLINE V apply(V a) {
        const V truth = hn::IfThenElse(hn::Eq(a, number(0)), number(1), number(0));
        return hn::IfThenElse(hn::Eq(a, a), truth, a);
    }
};
struct AndStep {
    static HWY_INLINE V apply(V a, V b) {
        const V decided = hn::IfThenElse(hn::Eq(a, number(0)), number(0), truth_of(b));
        return hn::IfThenElse(hn::Eq(a, a), decided, a);
    }
};
struct OrStep {
    static HWY_INLINE V apply(V a, V b) {
        const V decided = hn::IfThenElse(hn::Eq(a, number(0)), truth_of(b), number(1));
        return hn::IfThenElse(hn::Eq(a, a), decided, a);
    }
};
struct GuardStep {
    static HWY_INLINE V apply(V a, V b) {
        const V open = hn::IfThenElse(hn::Eq(a, number(0)), poison(), b);
        return hn::IfThenElse(hn::Eq(a, a), open, a);
    }
};

// Whole numbers: the steps of engine/plan/scalar_rules.h.
HWY_INLINE V dust(V x) {
    const V relative = hn::Mul(number(1e-9), hn::Abs(x));
    const V at_most = hn::IfThenElse(hn::Gt(relative, number(1e-3)), number(1e-3), relative);
    return hn::IfThenElse(hn::Lt(relative, number(1e-9)), number(1e-9), at_most);
}
HWY_INLINE V one_more_where(hn::Mask<D> more, V whole) {
    return hn::IfThenElse(more, hn::Add(whole, number(1)), whole);
}
struct CeilStep {
    static HWY_INLINE V apply(V x) {
        const V whole = hn::Floor(x);
        return hn::Add(one_more_where(hn::Gt(hn::Sub(x, whole), dust(x)), whole), number(0));
    }
};
struct FloorStep {
    static HWY_INLINE V apply(V x) {
        const V whole = hn::Floor(x);
        return hn::Add(
            one_more_where(hn::Ge(hn::Sub(x, whole), hn::Sub(number(1), dust(x))), whole),
            number(0));
    }
};
struct RoundStep {
    static HWY_INLINE V apply(V x) {
        const V magnitude = hn::Abs(x);
        const V whole = hn::Floor(magnitude);
        const V nearest =
            one_more_where(hn::Ge(hn::Add(hn::Sub(magnitude, whole), dust(x)), number(0.5)), whole);
        return hn::Add(hn::CopySign(nearest, x), number(0));
    }
};

} // namespace HWY_NAMESPACE
} // namespace acre::engine::lanes
HWY_AFTER_NAMESPACE();

#endif
