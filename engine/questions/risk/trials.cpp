#include "engine/questions/risk/trials.h"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/poisson.hpp>

namespace acre::engine {
namespace {

// Of many expected: the expansion of Cornish and Fisher (Abramowitz and Stegun, Handbook of
// Mathematical Functions, 1964, 26.2.49) with the skewness and excess of a Poisson count. Where it
// may be one off, the chance itself decides. Boost's own quantile rounds down below the median, and
// takes milliseconds for a billion.
double quantile_of_many(double expected, double p) {
    constexpr double told_alone = 10'000; // exact further up, in all that was tried
    const double z = boost::math::quantile(boost::math::normal(), std::clamp(p, 1e-16, 1 - 1e-15));
    const double deviation = std::sqrt(expected);
    double count = std::ceil(expected + deviation * z + (z * z - 1) / 6 +
                             (z - z * z * z) / (72 * deviation) - 0.5);
    if (expected > told_alone)
        return count;
    count = std::max(count, 0.0);
    const boost::math::poisson_distribution<> counts(expected);
    while (count > 0 && boost::math::cdf(counts, count - 1) >= p)
        --count;
    while (boost::math::cdf(counts, count) < p)
        ++count;
    return count;
}

// Counts of events; the chance of none is kept while so many are expected.
class PoissonQuantile {
  public:
    // The least count whose chance of not being exceeded reaches p.
    double operator()(double expected, double p) {
        if (!(expected >= 0))
            return std::nan("");
        if (expected > 40)
            return quantile_of_many(expected, p);
        if (expected != expected_) {
            expected_ = expected;
            none_ = std::exp(-expected);
        }
        double term = none_, sum = term, count = 0;
        while (p > sum && term > 0) {
            count += 1;
            term *= expected / count;
            sum += term;
        }
        return count;
    }

  private:
    double expected_ = 0, none_ = 1;
};

} // namespace

TrialScratch Trials::scratch(std::size_t dimensions) const {
    TrialScratch s;
    s.lanes = reader_->scratch();
    s.offset.resize(dimensions);
    s.p.resize(factors() * points_in_batch);
    s.x.resize(factors() * points_in_batch);
    s.deviate.resize(together_.size() * points_in_batch);
    s.read.resize(targets_.size() * points_in_batch);
    s.answer.resize(measures() * points_in_batch);
    for (std::size_t k = 0; k < axes_.size(); ++k)
        s.in.push_back(s.x.data() + k * points_in_batch);
    for (std::size_t k = 0; k < targets_.size(); ++k)
        s.out.push_back(s.read.data() + k * points_in_batch);
    return s;
}

void Trials::draw(const ScrambledPoints& points, std::uint64_t batch, std::size_t first,
                  std::size_t n, TrialScratch& s) const {
    const DrawKernels& kernels = draw_kernels();
    points.offsets(batch, s.offset);
    std::vector<const double*> p(factors());
    std::vector<double*> x(factors());
    for (std::size_t f = 0; f < factors(); ++f) {
        const std::uint64_t* base = points.base(first + f);
        const std::uint64_t offset = s.offset[first + f];
        p[f] = s.p.data() + f * points_in_batch;
        x[f] = s.x.data() + f * points_in_batch;
        if (f >= axes_.size() || place_together_[f] != nowhere)
            kernels.even(base, offset, n, s.p.data() + f * points_in_batch);
        else
            kernels.shaped(shapes_[f], base, offset, n, x[f]);
    }
    draw_together(p.data(), n, x.data(), s);
}

void Trials::draw_together(const double* const* p, std::size_t n, double* const* x,
                           TrialScratch& s) const {
    const DrawKernels& kernels = draw_kernels();
    for (std::size_t i = 0; i < together_.size(); ++i)
        kernels.deviates(normal_, p[together_[i]], n, s.deviate.data() + i * points_in_batch);
    for (std::size_t i = together_.size();
         i-- > 0;) { // from the last, so that each is mixed from what was drawn
        double* z = s.deviate.data() + i * points_in_batch;
        for (std::size_t lane = 0; lane < n; ++lane)
            z[lane] *= mix_[i * together_.size() + i];
        for (std::size_t j = 0; j < i; ++j) {
            const double weight = mix_[i * together_.size() + j];
            const double* other = s.deviate.data() + j * points_in_batch;
            for (std::size_t lane = 0; weight != 0 && lane < n; ++lane)
                z[lane] += weight * other[lane];
        }
        kernels.shares(shares_, z, n, z);
        kernels.shaped_from(shapes_[together_[i]], z, n, x[together_[i]]);
    }
}

std::span<const std::size_t> Trials::shaped_with(std::size_t factor) const {
    if (factor < axes_.size() && place_together_[factor] != nowhere)
        return together_;
    return std::span(&alone_[factor], 1);
}

void Trials::shape_factor(std::size_t factor, const double* const* p, std::size_t n,
                          double* const* x, TrialScratch& s) const {
    if (factor >= axes_.size())
        return;
    if (place_together_[factor] != nowhere)
        draw_together(p, n, x, s);
    else
        draw_kernels().shaped_from(shapes_[factor], p[factor], n, x[factor]);
}

std::size_t Trials::read(std::size_t n, const double* const* x, const double* const* p,
                         double* const* answer, TrialScratch& s) const {
    // What is only passed on is read straight into its place.
    for (std::size_t k = 0; k < lines_; ++k)
        s.out[k] = answer[k];
    const std::size_t faulty = reader_->run(n, x, s.out.data(), s.lanes);
    s.refused = 0;
    if (!has_price_)
        return faulty;
    double* const cost = answer[lines_];
    double* const contribution = answer[this->contribution()];
    double* const profit = answer[this->profit()];
    double* const margin = answer[lines_ + 3];
    std::copy_n(s.out[cost_], n, cost);
    for (std::size_t e = 0; e < events_.size(); ++e) {
        const double* count = s.out[events_[e].count];
        const double* money = s.out[events_[e].money];
        const double* drawn = p[axes_.size() + e];
        PoissonQuantile quantile;
        for (std::size_t i = 0; i < n; ++i)
            cost[i] +=
                (quantile(count[i], drawn[i]) - (events_[e].in_cost ? count[i] : 0)) * money[i];
    }
    std::fill_n(contribution, n, lumps_); // what is paid, until the cost is taken off
    for (const Item& item : items_)
        for (std::size_t i = 0; i < n; ++i)
            contribution[i] += item.rate * s.out[item.target][i];
    for (std::size_t i = 0; i < n; ++i) {
        const double paid = contribution[i];
        contribution[i] = paid - cost[i];
        profit[i] = contribution[i] - overhead_;
        margin[i] = paid > 0 || std::isnan(profit[i]) ? profit[i] / paid : 0;
    }
    if (faulty == 0)
        return 0;
    s.refused = refusals_.settle(n, s.lanes.fault.data(), s.out.data(), contribution);
    for (std::size_t i = 0; i < n; ++i)
        profit[i] = contribution[i] - overhead_;
    return faulty;
}

std::vector<double> Trials::at_job(const Values& values) const {
    std::vector<double> at;
    for (std::size_t k = 0; k < lines_; ++k)
        at.push_back(values.slot[targets_[k]]);
    if (has_price_) {
        const double cost = values.slot[targets_[cost_]];
        const double profit = paid_ - cost - overhead_;
        at.insert(at.end(), {cost, paid_ - cost, profit, profit / paid_});
    }
    return at;
}

} // namespace acre::engine
