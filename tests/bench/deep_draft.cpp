// The draft of a deep shank: one call, and one call with all its slopes.
#include <algorithm>
#include <array>
#include <ctime>
#include <utility>

#include <fmt/format.h>

#include "engine/native/deep_draft.h"

namespace {

using namespace acre::engine;
constexpr std::size_t layers = 4;
using Args = std::array<double, draft_args(layers)>;

// Dry loam, a moderate pan at 3 to 4 ft, sandy loam below; kN and m.
constexpr Args pan = {1.8288, 0.0889, 45, 0.9144, 16,  14.4, 0,  35, 23, 0.3048, 18,  60, 0, 38,
                      25,     0,      16, 6,      0.5, 34,   23, 0,  16, 6,      0.5, 34, 23};
// Four layers of unlike ground, all above the tip.
constexpr Args four = {1.8288, 0.0889, 45, 0.4, 16, 9,  1,  33, 23, 0.4, 16.5, 14, 2, 31,
                       22,     0.4,    18, 60,  0,  38, 25, 0,  17, 22,  4,    27, 20};

template <class F> double microseconds(F f) {
    constexpr int calls = 20000;
    double best = 1e9, sum = 0;
    for (int round = 0; round < 5; ++round) {
        const std::clock_t start =
            std::clock(); // of the processor, so that busy neighbours do not count
        for (int i = 0; i < calls; ++i)
            sum += f(i);
        best = std::min(best,
                        1e6 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / calls);
    }
    return sum == 0 ? 0 : best;
}

} // namespace

int main() {
    const NativeFunction& draft = deep_draft_functions()[0];
    Args slope{};
    for (const auto& [name, ground] :
         {std::pair{"three layers", pan}, std::pair{"four layers", four}}) {
        const double value = microseconds([&, g = ground](int i) mutable {
            g[0] = 1.8 + i * 1e-6;
            return draft.value(g);
        });
        const double slopes = microseconds([&, g = ground](int i) mutable {
            g[0] = 1.8 + i * 1e-6;
            return draft.slopes(g, slope);
        });
        fmt::print("{:<13} value {:6.2f} µs   with {} slopes {:6.2f} µs ({:.1f} times)   limit 20 "
                   "µs: {:.1f} times quicker\n",
                   name, value, slope.size(), slopes, slopes / value, 20 / value);
    }
}
