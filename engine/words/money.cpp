#include "engine/words/money.h"

#include <algorithm>
#include <cmath>

namespace acre::engine {

std::int64_t to_cents(double dollars, std::int64_t step) {
    const double cents = std::fabs(dollars) * 100 / static_cast<double>(step);
    const double whole = std::floor(cents);
    const double dust = std::min(1e-12 * cents, 1e-3);
    const double rounded = cents - whole >= 0.5 - dust ? whole + 1 : whole;
    return static_cast<std::int64_t>(std::copysign(rounded, dollars)) * step;
}

} // namespace acre::engine
