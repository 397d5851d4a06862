// How much each draw weighs, against the densities that it comes from, written out job by job.
#include "engine/learning/agreement.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

#include <doctest/doctest.h>

namespace agreement_test {

using namespace acre::engine;

namespace {

constexpr std::size_t draws = 1'200; // so many that none of these weights is flattened

struct Job {
    Reading reading;
    Measure measure;
};
std::vector<JobTold> told(const std::vector<Job>& jobs) {
    std::vector<JobTold> out;
    for (const Job& job : jobs)
        out.push_back({&job.reading, &job.measure});
    return out;
}

std::vector<double> evenly(double from, double to) {
    std::vector<double> out(draws);
    for (std::size_t i = 0; i < draws; ++i)
        out[i] = from + (to - from) * static_cast<double>(i) / (draws - 1);
    return out;
}

double normal(double x, double square) {
    return std::exp(-x * x / (2 * square)) / std::sqrt(2 * std::numbers::pi * square);
}

void alike(const std::vector<double>& is, std::vector<double> likelihood) {
    const double all = std::accumulate(likelihood.begin(), likelihood.end(), 0.0);
    REQUIRE(is.size() == likelihood.size());
    CHECK(std::accumulate(is.begin(), is.end(), 0.0) == doctest::Approx(1));
    double effective = 0;
    for (const double l : likelihood)
        effective += l / all * l / all;
    REQUIRE(1 / effective > least_effective);
    CHECK(effective_draws(is) == doctest::Approx(1 / effective));
    for (std::size_t i = 0; i < is.size(); i += 7)
        CHECK(is[i] == doctest::Approx(likelihood[i] / all).epsilon(1e-9));
}

} // namespace

TEST_CASE("weights that are alike count each, one alone counts one") {
    CHECK(effective_draws(std::vector<double>(8, 1.0 / 8)) == doctest::Approx(8));
    CHECK(effective_draws(std::vector<double>{1, 0, 0}) == 1);
    CHECK(effective_draws(std::vector<double>{0.5, 0.25, 0.25}) == doctest::Approx(1 / 0.375));
    CHECK(effective_draws({}) == 0);
}

TEST_CASE("a pace weighs as the normal density of its ratio, over every spread between jobs") {
    std::vector<Job> jobs(3);
    const double measured[] = {1.9, 2.4, 2.1}, error[] = {0.03, 0.1, 0.05},
                 shift[] = {0, 0.1, -0.05}, scatter[] = {0.1, 0.2, 0.15};
    for (std::size_t j = 0; j < jobs.size(); ++j) {
        jobs[j].reading.drawn = evenly(1.5 + 0.1 * static_cast<double>(j), 2.6);
        jobs[j].reading.shift = shift[j];
        jobs[j].reading.scatter = scatter[j];
        jobs[j].measure = {true, measured[j], error[j], 80, 0, 0};
    }
    const double scale = std::sqrt((0.01 + 0.04 + 0.0225) / 3);
    std::vector<double> likelihood;
    for (std::size_t i = 0; i < draws; ++i) {
        double sum = 0;
        for (int k = 0; k < 16; ++k) { // a twentieth to five times, each by the same factor
            const double ratio = 0.05 * std::pow(100, k / 15.0);
            double of_all = ratio / (1 + ratio * ratio);
            for (std::size_t j = 0; j < jobs.size(); ++j)
                of_all *=
                    normal(std::log(measured[j]) - std::log(jobs[j].reading.drawn[i]) - shift[j],
                           ratio * scale * ratio * scale + error[j] * error[j]);
            sum += of_all;
        }
        likelihood.push_back(sum);
    }
    for (const Tells tells : {Tells::Pace, Tells::Burn, Tells::FuelPrice, Tells::Hours})
        alike(weights(tells, told(jobs), Assumptions(draws)), likelihood);
    // A draw without an answer in one of the jobs is out; without any draw there are no weights.
    jobs[1].reading.drawn[5] = std::nan("");
    likelihood[5] = 0;
    alike(weights(Tells::Pace, told(jobs), Assumptions(draws)), likelihood);
    jobs[1].reading.drawn.assign(draws, std::nan(""));
    CHECK(weights(Tells::Pace, told(jobs), Assumptions(draws)).empty());
    CHECK(weights(Tells::Pace, {}, Assumptions(draws)).empty());
}

TEST_CASE("breakages weigh as Poisson counts over the hours") {
    std::vector<Job> jobs(3);
    const double counts[] = {2, 0, 3}, hours[] = {80, 40, 120};
    for (std::size_t j = 0; j < jobs.size(); ++j) {
        jobs[j].reading.drawn = evenly(0.005, 0.06);
        jobs[j].measure.hours = hours[j];
        jobs[j].measure.count = counts[j];
    }
    std::vector<double> likelihood;
    for (const double rate : jobs[0].reading.drawn) {
        double of_all = 1;
        for (std::size_t j = 0; j < jobs.size(); ++j)
            of_all *= std::pow(rate * hours[j], counts[j]) * std::exp(-rate * hours[j]);
        likelihood.push_back(of_all);
    }
    alike(weights(Tells::Breaks, told(jobs), Assumptions(draws)), likelihood);
    for (Job& job : jobs)
        job.measure.count = 0; // nobody wrote them down
    CHECK(weights(Tells::Breaks, told(jobs), Assumptions(draws)).empty());
}

TEST_CASE("money weighs by Student's t of its ratio, from three jobs on") {
    std::vector<Job> jobs(3);
    const double an_hour[] = {60, 75, 63}, hours[] = {80, 40, 120};
    double spent = 0, all_hours = 0;
    for (std::size_t j = 0; j < jobs.size(); ++j) {
        jobs[j].reading.at_season = 50;
        jobs[j].reading.drawn = evenly(45, 85);
        jobs[j].measure = {true, an_hour[j], 0, hours[j], 0, 0};
        spent += an_hour[j] * hours[j];
        all_hours += hours[j];
    }
    // Jobs away from their common rate, in money.
    double squares = 0;
    for (std::size_t j = 0; j < jobs.size(); ++j)
        squares += std::pow((an_hour[j] - spent / all_hours) * hours[j], 2);
    const double error = std::sqrt(3.0 / 2 * squares) / spent;
    REQUIRE(error > 0.01);
    std::vector<double> likelihood;
    for (const double rate : jobs[0].reading.drawn) {
        const double t = std::log(spent / (rate * all_hours)) / error;
        likelihood.push_back(std::pow(1 + t * t / 2, -1.5)); // two degrees of freedom
    }
    alike(weights(Tells::Money, told(jobs), Assumptions(draws)), likelihood);
    for (Job& job : jobs) // some cents in all: what counts are ratios
        job.measure.hours /= 100'000;
    alike(weights(Tells::Money, told(jobs), Assumptions(draws)), likelihood);
    CHECK(weights(Tells::Money, told({jobs[0], jobs[1]}), Assumptions(draws)).empty());
    for (Job& job : jobs)
        job.measure.value = 0;
    CHECK(weights(Tells::Money, told(jobs), Assumptions(draws)).empty());
}

TEST_CASE("days weigh as a binomial count, less sharply where jobs differ more than chance") {
    Assumptions assumptions(draws);
    REQUIRE(assumptions.take({"fit", "", "%", 70, Range{30, 95}, {}}) == 0);
    const std::vector<double> fit = assumptions.all()[0].drawn;
    const auto weigh = [&](const std::vector<std::pair<double, double>>& lost_of,
                           double dispersion) {
        std::vector<Job> jobs;
        double lost = 0, trials = 0;
        for (const auto& [count, of] : lost_of) {
            Job& job = jobs.emplace_back();
            job.reading.rests_on = {0};
            job.measure.count = count;
            job.measure.trials = of;
            lost += count;
            trials += of;
        }
        std::vector<double> likelihood;
        for (const double percent : fit)
            likelihood.push_back(
                std::pow(std::pow(1 - percent / 100, lost) * std::pow(percent / 100, trials - lost),
                         1 / dispersion));
        alike(weights(Tells::Days, told(jobs), assumptions), likelihood);
    };
    weigh({{8, 20}}, 1);
    weigh({{8, 20}, {8, 20}}, 1); // alike: no less sure than chance
    weigh({{0, 20}}, 1);
    // 10 and 30 of 50, 20 expected: 2 × 100 / (50 × 0.4 × 0.6), over one.
    weigh({{10, 50}, {30, 50}}, 200 / 12.0);
    // 2, 8 and 8 of 20, 6 expected: (16 + 4 + 4) / (20 × 0.3 × 0.7), over two.
    weigh({{2, 20}, {8, 20}, {8, 20}}, 24 / 4.2 / 2);
}

TEST_CASE("weights of too few draws are flattened until a hundred count") {
    std::vector<Job> jobs(1);
    jobs[0].reading.drawn = evenly(0.001, 1);
    jobs[0].measure.hours = 10'000;
    jobs[0].measure.count = 5'000;
    const std::vector<double> weight = weights(Tells::Breaks, told(jobs), Assumptions(draws));
    CHECK(effective_draws(weight) == doctest::Approx(least_effective).epsilon(1e-6));
    // The same power of every likelihood.
    const auto log_likelihood = [&](std::size_t i) {
        const double expected = jobs[0].reading.drawn[i] * 10'000;
        return 5'000 * std::log(expected) - expected;
    };
    const double power =
        std::log(weight[600] / weight[620]) / (log_likelihood(600) - log_likelihood(620));
    CHECK((power > 0 && power < 1));
    for (const std::size_t i : {560U, 580U, 640U})
        CHECK(std::log(weight[600] / weight[i]) ==
              doctest::Approx(power * (log_likelihood(600) - log_likelihood(i))).epsilon(1e-6));
}

} // namespace agreement_test
