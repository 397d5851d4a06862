#include "engine/learning/agreement.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace acre::engine {
namespace {

constexpr double nothing = -1e300; // the logarithm of no likelihood at all
constexpr std::size_t spreads = 16;
constexpr std::size_t least_jobs_of_money = 3;

double draw_of(const Reading& reading, std::size_t draw) {
    return reading.drawn.empty() ? reading.at_season : reading.drawn[draw];
}

// Spreads between jobs, from a twentieth of what their own swings make to five times that, and how
// likely each was.
struct Spreads {
    std::array<double, spreads> square{}, log_prior{};
    explicit Spreads(std::span<const JobTold> jobs) {
        double squares = 0;
        for (const JobTold& job : jobs)
            squares += job.reading->scatter * job.reading->scatter;
        const double scale = std::max(std::sqrt(squares / static_cast<double>(jobs.size())), 0.02);
        for (std::size_t k = 0; k < spreads; ++k) {
            const double ratio = 0.05 * std::pow(100.0, static_cast<double>(k) / (spreads - 1));
            square[k] = scale * ratio * scale * ratio;
            log_prior[k] = std::log(ratio / (1 + ratio * ratio)); // evenly in its logarithm
        }
    }
};

double log_sum(const std::array<double, spreads>& logs) {
    const double most = *std::max_element(logs.begin(), logs.end());
    double sum = 0;
    for (const double x : logs)
        sum += std::exp(x - most);
    return most + std::log(sum);
}

std::vector<double> by_normal(std::span<const JobTold> jobs, std::size_t draws) {
    const Spreads spread(jobs);
    std::array<double, spreads> whole = spread.log_prior;
    std::vector<std::array<double, spreads>> half_precision(jobs.size());
    for (std::size_t j = 0; j < jobs.size(); ++j)
        for (std::size_t k = 0; k < spreads; ++k) {
            const double error = jobs[j].measure->error;
            const double square = spread.square[k] + error * error;
            half_precision[j][k] = 0.5 / square;
            whole[k] -= 0.5 * std::log(square);
        }
    std::vector<double> logs(draws, nothing);
    for (std::size_t i = 0; i < draws; ++i) {
        std::array<double, spreads> at = whole;
        bool answered = true;
        for (std::size_t j = 0; j < jobs.size() && answered; ++j) {
            const double off = std::log(jobs[j].measure->value / draw_of(*jobs[j].reading, i)) -
                               jobs[j].reading->shift;
            answered = std::isfinite(off);
            const double square = off * off;
            for (std::size_t k = 0; k < spreads; ++k)
                at[k] -= square * half_precision[j][k];
        }
        if (answered)
            logs[i] = log_sum(at);
    }
    return logs;
}

std::vector<double> by_money(std::span<const JobTold> jobs, std::size_t draws) {
    const auto n = static_cast<double>(jobs.size());
    double spent = 0, said = 0;
    for (const JobTold& job : jobs) {
        spent += job.measure->value * job.measure->hours;
        said += job.reading->at_season * job.measure->hours;
    }
    if (jobs.size() < least_jobs_of_money || !(spent > 0))
        return {};
    double squares = 0;
    for (const JobTold& job : jobs)
        squares += std::pow(
            (job.measure->value - spent / said * job.reading->at_season) * job.measure->hours, 2);
    const double error = std::max(std::sqrt(n / (n - 1) * squares) / spent, 0.01);
    std::vector<double> logs(draws, nothing);
    for (std::size_t i = 0; i < draws; ++i) {
        double drawn = 0;
        for (const JobTold& job : jobs)
            drawn += draw_of(*job.reading, i) * job.measure->hours;
        const double off = std::log(spent / drawn) / error;
        if (std::isfinite(off))
            logs[i] = -0.5 * n * std::log1p(off * off / (n - 1));
    }
    return logs;
}

std::vector<double> by_days(std::span<const JobTold> jobs, const std::vector<double>& fit) {
    double lost = 0, trials = 0;
    for (const JobTold& job : jobs) {
        lost += job.measure->count;
        trials += job.measure->trials;
    }
    // Pearson's statistic, of jobs against their mean.
    double dispersion = 1;
    const double share = lost / trials;
    if (jobs.size() > 1 && share > 0 && share < 1) {
        double squares = 0;
        for (const JobTold& job : jobs)
            squares += std::pow(job.measure->count - share * job.measure->trials, 2) /
                       (job.measure->trials * share * (1 - share));
        dispersion = std::max(1.0, squares / static_cast<double>(jobs.size() - 1));
    }
    std::vector<double> logs;
    for (const double percent : fit) {
        const double p = std::clamp(percent / 100, 1e-9, 1 - 1e-9);
        logs.push_back((lost * std::log(1 - p) + (trials - lost) * std::log(p)) / dispersion);
    }
    return logs;
}

// No log names one: then nobody wrote breakages down, which is not the same as none.
std::vector<double> by_breaks(std::span<const JobTold> jobs, std::size_t draws) {
    double count = 0;
    for (const JobTold& job : jobs)
        count += job.measure->count;
    if (count == 0)
        return {};
    std::vector<double> logs(draws, nothing);
    for (std::size_t i = 0; i < draws; ++i) {
        double expected = 0;
        for (const JobTold& job : jobs)
            expected += draw_of(*job.reading, i) * job.measure->hours;
        if (expected > 0)
            logs[i] = count * std::log(expected) - expected;
    }
    return logs;
}

std::vector<double> from_logs(const std::vector<double>& logs, double power) {
    std::vector<double> weight(logs.size(), 0);
    const double most = logs.empty() ? nothing : *std::max_element(logs.begin(), logs.end());
    if (most <= nothing)
        return {};
    double sum = 0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        weight[i] = logs[i] <= nothing ? 0 : std::exp(power * (logs[i] - most));
        sum += weight[i];
    }
    for (double& w : weight)
        w /= sum;
    return weight;
}

} // namespace

double effective_draws(std::span<const double> weight) {
    double squares = 0;
    for (const double w : weight)
        squares += w * w;
    return squares > 0 ? 1 / squares : 0;
}

std::vector<double> weights(Tells tells, std::span<const JobTold> jobs,
                            const Assumptions& assumptions) {
    if (jobs.empty())
        return {};
    std::vector<double> logs;
    switch (tells) {
    case Tells::Money:
        logs = by_money(jobs, assumptions.draws());
        break;
    case Tells::Days:
        logs = by_days(jobs, assumptions.all()[jobs[0].reading->rests_on[0]].drawn);
        break;
    case Tells::Breaks:
        logs = by_breaks(jobs, assumptions.draws());
        break;
    default:
        logs = by_normal(jobs, assumptions.draws());
    }
    std::vector<double> weight = from_logs(logs, 1);
    double low = 0, high = 1; // the power at which so many are effective
    if (!weight.empty() && effective_draws(weight) < least_effective) {
        for (int step = 0; step < 30; ++step) {
            const double middle = (low + high) / 2;
            weight = from_logs(logs, middle);
            (effective_draws(weight) < least_effective ? high : low) = middle;
        }
        weight = from_logs(logs, low);
    }
    return weight;
}

} // namespace acre::engine
