#include "engine/questions/risk/spread_shares.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "engine/questions/risk/tally.h"
#include "engine/questions/risk/workers.h"

namespace acre::engine {
namespace {

using Group = std::vector<std::size_t>; // factors that are drawn anew together

// Sums over one scramble.
struct Sweep {
    double count = 0, sum = 0, squares = 0;   // of both samples, about the centre
    std::vector<double> first, total, paired; // by group: products, squared differences, how many
};

class Pass {
  public:
    Pass(const Trials& trials, std::size_t measure, double centre)
        : trials_(trials),
          measure_(measure),
          centre_(centre),
          a_(trials.scratch(2 * trials.factors())),
          b_(trials.scratch(2 * trials.factors())),
          mixed_(trials.factors() * points_in_batch),
          value_(3 * trials.measures() * points_in_batch) {}

    void batch(const ScrambledPoints& points, std::uint64_t batch, std::size_t n,
               const std::vector<Group>& groups, Sweep& sweep) {
        const std::size_t factors = trials_.factors();
        trials_.draw(points, batch, 0, n, a_);
        trials_.draw(points, batch, factors, n, b_);
        fill_p(points, n);
        read(a_.x.data(), 0, n);
        read(b_.x.data(), 1, n, true);
        const double* fa = of(0);
        const double* fb = of(1);
        for (std::size_t i = 0; i < n; ++i) {
            if (std::isnan(fa[i]) || std::isnan(fb[i]))
                continue;
            const double x = fa[i] - centre_, y = fb[i] - centre_;
            sweep.count += 2;
            sweep.sum += x + y;
            sweep.squares += x * x + y * y;
        }
        for (std::size_t g = 0; g < groups.size(); ++g) {
            replace(groups[g], n);
            read_mixed(n);
            const double* fm = of(2);
            for (std::size_t i = 0; i < n; ++i) {
                if (std::isnan(fa[i]) || std::isnan(fb[i]) || std::isnan(fm[i]))
                    continue;
                sweep.first[g] += (fb[i] - centre_) * (fm[i] - fa[i]);
                sweep.total[g] += (fa[i] - fm[i]) * (fa[i] - fm[i]);
                sweep.paired[g] += 1;
            }
        }
    }

  private:
    const double* of(std::size_t sample) const {
        return value_.data() + (sample * trials_.measures() + measure_) * points_in_batch;
    }

    std::vector<double*> answers(std::size_t sample) {
        std::vector<double*> out;
        for (std::size_t m = 0; m < trials_.measures(); ++m)
            out.push_back(value_.data() + (sample * trials_.measures() + m) * points_in_batch);
        return out;
    }

    // The numbers behind every value, for factors that are shaped again.
    void fill_p(const ScrambledPoints& points, std::size_t n) {
        const DrawKernels& kernels = draw_kernels();
        for (std::size_t f = 0; f < trials_.factors(); ++f) {
            kernels.even(points.base(f), a_.offset[f], n, a_.p.data() + f * points_in_batch);
            kernels.even(points.base(trials_.factors() + f), b_.offset[trials_.factors() + f], n,
                         b_.p.data() + f * points_in_batch);
        }
    }

    void read(const double* x, std::size_t sample, std::size_t n, bool second = false) {
        std::vector<const double*> columns, p;
        for (std::size_t f = 0; f < trials_.factors(); ++f) {
            columns.push_back(x + f * points_in_batch);
            p.push_back((second ? b_ : a_).p.data() + f * points_in_batch);
        }
        trials_.read(n, columns.data(), p.data(), answers(sample).data(), a_);
    }

    // The first sample with the factors of a group from the second.
    void replace(const Group& group, std::size_t n) {
        x_.clear();
        p_.clear();
        std::vector<double*> out;
        for (std::size_t k = 0; k < trials_.factors(); ++k) {
            x_.push_back(a_.x.data() + k * points_in_batch);
            p_.push_back(a_.p.data() + k * points_in_batch);
            out.push_back(mixed_.data() + k * points_in_batch);
        }
        std::optional<std::size_t> together; // one of those that are shaped together
        for (const std::size_t f : group) {
            p_[f] = b_.p.data() + f * points_in_batch;
            if (trials_.shaped_with(f).size() == 1)
                x_[f] = b_.x.data() + f * points_in_batch; // its value is drawn already
            else
                together = f;
        }
        if (!together)
            return;
        for (const std::size_t k : trials_.shaped_with(*together))
            x_[k] = out[k];
        trials_.shape_factor(*together, p_.data(), n, out.data(), a_);
    }
    void read_mixed(std::size_t n) { trials_.read(n, x_.data(), p_.data(), answers(2).data(), a_); }

    const Trials& trials_;
    std::size_t measure_;
    double centre_;
    TrialScratch a_, b_;
    std::vector<double> mixed_, value_;
    std::vector<const double*> x_, p_;
};

// Of each scramble, about the mean of all of them: their mean is the variance of all.
std::vector<double> variance_by_scramble(const std::vector<Sweep>& sweeps) {
    double count = 0, sum = 0;
    for (const Sweep& sweep : sweeps) {
        count += sweep.count;
        sum += sweep.sum;
    }
    const double mean = count > 0 ? sum / count : 0;
    std::vector<double> variances;
    for (const Sweep& sweep : sweeps)
        variances.push_back(sweep.count > 0 ? sweep.squares / sweep.count -
                                                  2 * mean * sweep.sum / sweep.count + mean * mean
                                            : 0);
    return variances;
}

// The ratio of two means over the scrambles, and its standard error: both are estimates, and the
// error of a part goes with that of the whole, so it is taken from part - ratio * whole (the delta
// method for a ratio, as W. G. Cochran, Sampling Techniques, chapter 6, has it; from memory).
Estimated ratio(const std::vector<double>& part, const std::vector<double>& whole) {
    const double mean = estimated(whole).mean;
    if (!(mean > 0))
        return {};
    Estimated result{estimated(part).mean / mean, 0};
    std::vector<double> left;
    for (std::size_t i = 0; i < part.size(); ++i)
        left.push_back((part[i] - result.mean * whole[i]) / mean);
    result.error = estimated(left).error;
    return result;
}

// Draws the groups anew, `batches` of every scramble; they are told in the order of groups.
class Sweeps {
  public:
    Sweeps(const Trials& trials, std::size_t measure, double centre, const RiskQuestion& question)
        : trials_(trials),
          measure_(measure),
          centre_(centre),
          question_(question),
          sequence_(2 * trials.factors()) {}

    std::vector<SpreadShare> run(const std::vector<Group>& groups, std::uint64_t batches) {
        std::vector<Sweep> sweeps(scrambles);
        in_threads(question_.threads, scrambles, [&] {
            return [&, pass = Pass(trials_, measure_, centre_)](std::size_t scramble) mutable {
                Sweep& sweep = sweeps[scramble];
                for (std::vector<double>* sums : {&sweep.first, &sweep.total, &sweep.paired})
                    sums->assign(groups.size(), 0);
                // Other points than those of the trials.
                const ScrambledPoints points(sequence_, question_.seed, scrambles + scramble);
                for (std::uint64_t batch = 0; batch < batches; ++batch) {
                    if (question_.stop != nullptr &&
                        question_.stop->load(std::memory_order_relaxed))
                        return;
                    pass.batch(points, batch, points_in_batch, groups, sweep);
                }
            };
        });
        readings_ += batches * scrambles * points_in_batch * (groups.size() + 2);
        const std::vector<double> variances = variance_by_scramble(sweeps);
        spread_ = std::sqrt(std::max(0.0, estimated(variances).mean));
        std::vector<SpreadShare> shares;
        for (std::size_t g = 0; g < groups.size(); ++g) {
            std::vector<double> first, total;
            for (const Sweep& sweep : sweeps) {
                const double paired = std::max(1.0, sweep.paired[g]);
                first.push_back(sweep.first[g] / paired);
                total.push_back(sweep.total[g] / paired / 2);
            }
            const Estimated one = ratio(first, variances), all = ratio(total, variances);
            shares.push_back({groups[g].front(), one.mean, one.error, all.mean, all.error});
        }
        return shares;
    }

    double spread() const { return spread_; } // as the last run saw it
    std::uint64_t readings() const { return readings_; }

  private:
    const Trials& trials_;
    std::size_t measure_;
    double centre_;
    const RiskQuestion& question_;
    SobolSequence sequence_;
    double spread_ = 0;
    std::uint64_t readings_ = 0;
};

// Of very many factors those that matter, by halving (group screening, sequential bifurcation as
// B. Bettonvil and J. P. C. Kleijnen call it, from memory): groups are drawn anew together, the
// half of them that does least is set aside, the others are cut in two, until each is one factor.
// Readings so grow with the logarithm of the factors. `aside`: all that was set aside.
std::vector<Group> those_that_matter(Sweeps& sweeps, std::size_t factors, Group& aside) {
    std::vector<Group> groups(max_shared);
    for (std::size_t f = 0; f < factors; ++f)
        groups[f * max_shared / factors].push_back(f);
    const auto is_single = [](const Group& group) { return group.size() == 1; };
    while (!std::all_of(groups.begin(), groups.end(), is_single)) {
        const std::vector<SpreadShare> does = sweeps.run(groups, 1);
        std::vector<std::size_t> order(groups.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return does[a].total > does[b].total;
        });
        std::vector<Group> next;
        for (std::size_t i = 0; i < order.size(); ++i) {
            const Group& group = groups[order[i]];
            const auto middle = group.begin() + static_cast<std::ptrdiff_t>((group.size() + 1) / 2);
            if (i >= max_shared / 2)
                aside.insert(aside.end(), group.begin(), group.end());
            else
                next.emplace_back(group.begin(), middle);
            if (i < max_shared / 2 && middle != group.end())
                next.emplace_back(middle, group.end());
        }
        groups = std::move(next);
    }
    return groups;
}

} // namespace

SpreadShares spread_shares(const Trials& trials, std::size_t measure, double centre,
                           const RiskQuestion& question) {
    const std::uint64_t batches =
        (question.share_trials + scrambles * points_in_batch - 1) / (scrambles * points_in_batch);
    Sweeps sweeps(trials, measure, centre, question);
    std::vector<Group> groups;
    Group aside;
    if (trials.factors() > max_shared)
        groups = those_that_matter(sweeps, trials.factors(), aside);
    else
        for (std::size_t f = 0; f < trials.factors(); ++f)
            groups.push_back({f});
    if (!aside.empty())
        groups.push_back(aside);

    SpreadShares result;
    result.measured = measure;
    result.shares = sweeps.run(groups, batches);
    result.readings = sweeps.readings();
    result.spread = sweeps.spread();
    if (!aside.empty()) {
        const SpreadShare& all = result.shares.back();
        result.aside = {aside.size(), all.total, all.total_error};
        result.shares.pop_back();
    }
    std::stable_sort(result.shares.begin(), result.shares.end(),
                     [](const SpreadShare& a, const SpreadShare& b) { return a.total > b.total; });
    return result;
}

} // namespace acre::engine
