#include "engine/learning/assumptions.h"

#include <algorithm>
#include <cmath>

namespace acre::engine {

std::uint64_t seed_of(std::string_view name) {
    std::uint64_t seed = 0xCBF29CE484222325;
    for (const char c : name)
        seed = (seed ^ static_cast<unsigned char>(c)) * 0x100000001B3;
    return seed;
}

double even_number(std::uint64_t seed, std::uint64_t index) {
    std::uint64_t x = seed + index * 0x9E3779B97F4A7C15;
    x = (x ^ (x >> 30U)) * 0xBF58476D1CE4E5B9;
    x = (x ^ (x >> 27U)) * 0x94D049BB133111EB;
    x ^= x >> 31U;
    return (static_cast<double>(x >> 11U) + 0.5) * 0x1p-53;
}

double assumed_at(double p, double value, const Range& swing) {
    const double middle = std::clamp(value, swing.low, swing.high);
    const double below = middle - swing.low, above = swing.high - middle;
    if (below <= 0) // at an end of its swing it can be wrong one way only
        return swing.high - above * std::sqrt(1 - p);
    if (above <= 0)
        return swing.low + below * std::sqrt(p);
    return p < 0.5 ? swing.low + below * std::sqrt(2 * p)
                   : swing.high - above * std::sqrt(2 * (1 - p));
}

std::size_t Assumptions::find(std::string_view name) const {
    const auto at =
        std::find_if(all_.begin(), all_.end(), [&](const Assumption& a) { return a.name == name; });
    return at == all_.end() ? no_assumption : static_cast<std::size_t>(at - all_.begin());
}

std::size_t Assumptions::take(Assumption assumption) {
    if (const std::size_t at = find(assumption.name); at != no_assumption) {
        const Assumption& known = all_[at];
        const bool same = known.value == assumption.value && known.unit == assumption.unit &&
                          known.swing.low == assumption.swing.low &&
                          known.swing.high == assumption.swing.high;
        return same ? at : no_assumption;
    }
    const std::uint64_t seed = seed_of(assumption.name);
    assumption.drawn.resize(draws_);
    for (std::size_t i = 0; i < draws_; ++i)
        assumption.drawn[i] = assumed_at(even_number(seed, i), assumption.value, assumption.swing);
    all_.push_back(std::move(assumption));
    return all_.size() - 1;
}

} // namespace acre::engine
