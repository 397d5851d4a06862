#include "engine/learning/binomial.h"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>

namespace acre::engine {

Range exact_share(std::size_t count, std::size_t of, double level) {
    const double tail = (1 - level) / 2;
    const auto k = static_cast<double>(count), n = static_cast<double>(of);
    Range range{0, 1};
    if (count > 0)
        range.low = boost::math::quantile(boost::math::beta_distribution<>(k, n - k + 1), tail);
    if (count < of)
        range.high = boost::math::quantile(
            boost::math::complement(boost::math::beta_distribution<>(k + 1, n - k), tail));
    return range;
}

Range score_share(std::size_t count, std::size_t of, double level) {
    if (of == 0)
        return {0, 1};
    const double z = boost::math::quantile(boost::math::normal_distribution<>(), (1 + level) / 2);
    const auto n = static_cast<double>(of);
    const double share = static_cast<double>(count) / n, extra = z * z / n;
    const double middle = (share + extra / 2) / (1 + extra);
    const double half = std::sqrt(extra * (share * (1 - share) + extra / 4)) / (1 + extra);
    return {count == 0 ? 0 : middle - half, count == of ? 1 : middle + half};
}

Range share_difference(std::size_t count, std::size_t of, std::size_t other_count,
                       std::size_t other_of, double level) {
    if (of == 0 || other_of == 0)
        return {-1, 1};
    const double a = static_cast<double>(count) / static_cast<double>(of);
    const double b = static_cast<double>(other_count) / static_cast<double>(other_of);
    const Range first = score_share(count, of, level);
    const Range second = score_share(other_count, other_of, level);
    return {a - b - std::hypot(a - first.low, second.high - b),
            a - b + std::hypot(first.high - a, b - second.low)};
}

double chance_of_at_most(std::size_t count, std::size_t of, double share) {
    if (count >= of)
        return 1;
    const auto k = static_cast<double>(count), n = static_cast<double>(of);
    return boost::math::cdf(
        boost::math::complement(boost::math::beta_distribution<>(k + 1, n - k), share));
}

double chance_of_at_least(std::size_t count, std::size_t of, double share) {
    return count == 0 ? 1 : 1 - chance_of_at_most(count - 1, of, share);
}

} // namespace acre::engine
