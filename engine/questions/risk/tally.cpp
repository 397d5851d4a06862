#include "engine/questions/risk/tally.h"

#include <algorithm>
#include <cmath>

namespace acre::engine {

void Tally::add(const Tally& other) {
    for (std::size_t k = 0; k < partial_sums; ++k) {
        sums.sum[k] += other.sums.sum[k];
        sums.squares[k] += other.sums.squares[k];
        sums.least[k] = std::min(sums.least[k], other.sums.least[k]);
        sums.greatest[k] = std::max(sums.greatest[k], other.sums.greatest[k]);
    }
    sums.below_zero += other.sums.below_zero;
    for (std::size_t k = 0; k < bin.size(); ++k)
        bin[k] += other.bin[k];
    count += other.count;
}

double Tally::mean(double centre) const {
    double sum = 0;
    for (const double part : sums.sum)
        sum += part;
    return centre + sum / static_cast<double>(count);
}

double Tally::deviation(double centre) const {
    double squares = 0;
    for (const double part : sums.squares)
        squares += part;
    const double away = mean(centre) - centre, n = static_cast<double>(count);
    return n < 2 ? 0 : std::sqrt(std::max(0.0, (squares - n * away * away) / (n - 1)));
}

double Tally::least() const {
    return *std::min_element(std::begin(sums.least), std::end(sums.least));
}
double Tally::greatest() const {
    return *std::max_element(std::begin(sums.greatest), std::end(sums.greatest));
}

std::vector<double> Tally::percentiles(const Bins& bins, std::span<const double> shares) const {
    const double lowest = least(), highest = greatest(), width = 1 / bins.per_unit;
    std::vector<double> found;
    std::uint64_t below = 0;
    std::size_t k = 0;
    for (const double share : shares) {
        const double wanted = share * static_cast<double>(count);
        for (; k < bin.size(); ++k) {
            if (bin[k] != 0 && static_cast<double>(below + bin[k]) >= wanted)
                break;
            below += bin[k];
        }
        if (k == bin.size()) {
            found.push_back(highest);
            continue;
        }
        const double low = k == 0 ? lowest : bins.from + static_cast<double>(k - 1) * width;
        const double high = k == 0 ? bins.from : k == bins.count + 1 ? highest : low + width;
        const double value = low + (high - low) * (wanted - static_cast<double>(below)) /
                                       static_cast<double>(bin[k]);
        found.push_back(std::clamp(value, lowest, highest));
    }
    return found;
}

Frame frame_of(const double* y, std::size_t n) {
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i)
        sum += y[i];
    Frame frame;
    frame.centre = n == 0 ? 0 : sum / static_cast<double>(n);
    const auto [least, greatest] = std::minmax_element(y, y + n);
    double span = n == 0 ? 0 : *greatest - *least;
    if (!(span > 1e-9 * std::fabs(frame.centre)))
        span = std::max(1e-9 * std::fabs(frame.centre), 1e-9); // the same answer every time
    frame.bins.count = bin_count;
    frame.bins.from = (n == 0 ? 0 : *least) - span / 2;
    frame.bins.per_unit = static_cast<double>(bin_count) / (2 * span);
    return frame;
}

Estimated estimated(const std::vector<double>& repetitions) {
    const double n = static_cast<double>(repetitions.size());
    Estimated e;
    for (const double r : repetitions)
        e.mean += r / n;
    double squares = 0;
    for (const double r : repetitions)
        squares += (r - e.mean) * (r - e.mean);
    e.error = n < 2 ? 0 : std::sqrt(squares / (n * (n - 1)));
    return e;
}

} // namespace acre::engine
