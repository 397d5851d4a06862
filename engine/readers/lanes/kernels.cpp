#include "engine/readers/lanes/kernels.h"
#include "engine/readers/able_targets.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <type_traits>
#include <utility>
#include <vector>

// Widths between these would gain little: SSSE3 has no rounding, and AVX3_DL adds nothing for
// doubles.
#define HWY_DISABLED_TARGETS (HWY_AVX3_DL | HWY_SSSE3)
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "engine/readers/lanes/kernels.cpp"
#include "hwy/foreach_target.h"

#include "engine/plan/opcodes.h"
#include "engine/readers/lanes/functions-inl.h"
#include "hwy/highway.h"

HWY_BEFORE_NAMESPACE();
namespace acre::engine::lanes {
namespace HWY_NAMESPACE {

// Narrow vectors are for old machines: there two steps will do, and the program stays small.
constexpr std::size_t chain_steps = width >= 4 ? 3 : 2;

template <std::size_t number> constexpr KernelFunction chain() {
    constexpr bool canonical = number % 2 == 1;
    constexpr auto third = static_cast<Then>(number / 2 % then_count);
    constexpr auto second = static_cast<Then>(number / 2 / then_count % then_count);
    constexpr auto first = static_cast<First>(number / 2 / then_count / then_count);
    if constexpr (third != Then::Stop && (second == Then::Stop || chain_steps < 3 || !canonical))
        return nullptr;
    else if constexpr (second == Then::Stop)
        return over_lanes<Chain<first, second, third, canonical>, 2>;
    else if constexpr (third == Then::Stop)
        return over_lanes<Chain<first, second, third, canonical>, 3>;
    else
        return over_lanes<Chain<first, second, third, canonical>, 4>;
}

// A kernel of its own for every operation but arithmetic, which chains do.
template <class Step, std::size_t operands, bool unrolled = true>
void put(KernelSet& set, Kernel kernel) {
    if constexpr (!std::is_void_v<Step>)
        set.run[static_cast<std::size_t>(kernel)] = over_lanes<Step, operands, unrolled>;
}

template <class Functions> void fill_operations(KernelSet& set) {
#define ACRE_STEP_Arithmetic(code) void
#define ACRE_STEP_Simple(code) code##Step
#define ACRE_STEP_Function(code) code##Step<Functions>
#define ACRE_STEP_Whole(code) code##Step
#define ACRE_STEP_Comparison(code) CompareStep<Kernel::code>
#define ACRE_STEP_Logic(code) code##Step
#define ACRE_STEP_Branch(code) code##Step
#define ACRE_OPERATION(code, kind, reads, rule)                                                    \
    put<ACRE_STEP_##kind(code), sizeof(reads) - 1, OpKind::kind != OpKind::Function>(              \
        set, Kernel::code);
#include "engine/plan/opcodes.def"
#undef ACRE_STEP_Arithmetic
#undef ACRE_STEP_Simple
#undef ACRE_STEP_Function
#undef ACRE_STEP_Whole
#undef ACRE_STEP_Comparison
#undef ACRE_STEP_Logic
#undef ACRE_STEP_Branch
    put<PowerFixedStep<Functions>, 2, false>(set, Kernel::PowerFixed);
}

template <std::size_t... number> void fill_chains(KernelSet& set, std::index_sequence<number...>) {
    constexpr KernelFunction chains[] = {chain<number>()...};
    std::copy(std::begin(chains), std::end(chains), set.run.begin() + kernel_count);
}

KernelSet make_kernel_set() {
    KernelSet set{
        hwy::TargetName(HWY_TARGET), static_cast<std::uint32_t>(width * 64), chain_steps, {}};
    put<CopyStep, 1>(set, Kernel::Copy);
    put<SelectCompareStep<Kernel::Less>, 4>(set, Kernel::SelectLess);
    put<SelectCompareStep<Kernel::LessEqual>, 4>(set, Kernel::SelectLessEqual);
    put<SelectCompareStep<Kernel::Greater>, 4>(set, Kernel::SelectGreater);
    put<SelectCompareStep<Kernel::GreaterEqual>, 4>(set, Kernel::SelectGreaterEqual);
    put<SelectCompareStep<Kernel::Equal>, 4>(set, Kernel::SelectEqual);
    put<SelectCompareStep<Kernel::NotEqual>, 4>(set, Kernel::SelectNotEqual);
    set.run[static_cast<std::size_t>(Kernel::Lines)] = table_over_lanes<false>;
    set.run[static_cast<std::size_t>(Kernel::Staircase)] = table_over_lanes<true>;
    set.run[static_cast<std::size_t>(Kernel::Native)] = native_over_lanes;
#if (HWY_TARGET == HWY_AVX3 || HWY_TARGET == HWY_AVX2) && defined(__clang__)
    // In a file that is not compiled for such a processor as a whole clang hands wide vectors over
    // in memory, where the library does not look for them: it would read whatever stands in the
    // registers.
    fill_operations<LaneByLane>(set);
#elif HWY_TARGET == HWY_AVX3 || HWY_TARGET == HWY_AVX2
    fill_operations<Library>(set);
#elif HWY_TARGET == HWY_SSE4
    // These vectors have no fused multiply-add; where the value reader uses it they would differ in
    // the last bit.
    if (math_functions().fused)
        fill_operations<LaneByLane>(set);
    else
        fill_operations<Library>(set);
#else
    fill_operations<LaneByLane>(set);
#endif
    fill_chains(set, std::make_index_sequence<chain_count>{});
    return set;
}

const KernelSet* kernel_set() {
    static const KernelSet set = make_kernel_set();
    return &set;
}

} // namespace HWY_NAMESPACE
} // namespace acre::engine::lanes
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace acre::engine::lanes {

PreparedTable::PreparedTable(const PlanTable& table)
    : x(table.x),
      y(table.y),
      rows(table.x.size()),
      below(table.hold_below ? table.y.front() : std::numeric_limits<double>::quiet_NaN()),
      above(table.hold_above ? table.y.back() : std::numeric_limits<double>::quiet_NaN()) {
    for (std::size_t k = 0; k + 1 < x.size(); ++k) {
        dx.push_back(x[k + 1] - x[k]);
        dy.push_back(y[k + 1] - y[k]);
    }
    dx.push_back(1);
    dy.push_back(-0.0); // y + share * -0 is y, to the sign of a zero
    for (std::vector<double>* column : {&x, &y, &dx, &dy})
        column->resize(std::max(rows, group), column->back());
}

std::span<const KernelSet* const> kernel_sets() {
    static const std::vector<const KernelSet*> sets = [] {
        std::vector<const KernelSet*> list;
        [[maybe_unused]] const std::int64_t able = able_targets();
#if HWY_TARGETS & HWY_AVX3
        if ((able & HWY_AVX3) != 0)
            list.push_back(N_AVX3::kernel_set());
#endif
#if HWY_TARGETS & HWY_AVX2
        if ((able & HWY_AVX2) != 0)
            list.push_back(N_AVX2::kernel_set());
#endif
#if HWY_TARGETS & HWY_SSE4
        if ((able & HWY_SSE4) != 0)
            list.push_back(N_SSE4::kernel_set());
#endif
#if (HWY_STATIC_TARGET & (HWY_AVX3 | HWY_AVX2 | HWY_SSE4)) == 0
        list.push_back(HWY_STATIC_DISPATCH(kernel_set)());
#endif
        return list;
    }();
    return sets;
}

} // namespace acre::engine::lanes
#endif
