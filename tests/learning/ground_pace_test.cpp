// Paces by ground: simulated firms whose grounds and jobs differ by known spreads.
#include "engine/learning/ground_pace.h"

#include <doctest/doctest.h>

#include "engine/learning/binomial.h"
#include "tests/learning/firms.h"

namespace ground_pace_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

TEST_CASE("paces by ground hold the truth of nine grounds in ten, over two hundred firms") {
    Chance chance(7);
    std::size_t held = 0, of = 0;
    double learned_off = 0, alone_off = 0;
    for (std::size_t firm = 0; firm < 200; ++firm) {
        const double all = 0.15 * chance.normal();
        std::vector<double> truth;
        std::vector<PaceOfJob> jobs;
        for (std::size_t ground = 0; ground < 5; ++ground) {
            truth.push_back(all + 0.10 * chance.normal());
            for (std::size_t job = 0; job <= ground; ++job) // one to five jobs on it
                jobs.push_back(
                    {{std::string(1, static_cast<char>('a' + ground)), 5.5, "ft"},
                     std::exp(truth.back() + 0.12 * chance.normal() + 0.03 * chance.normal()),
                     0.03});
        }
        double between = 0;
        const std::vector<GroundPace> paces = ground_paces(jobs, 0.10, between);
        REQUIRE(paces.size() == 5);
        for (std::size_t ground = 0; ground < 5; ++ground) {
            const double at = std::exp(truth[ground]);
            held += paces[ground].low <= at && at <= paces[ground].high ? 1 : 0;
            ++of;
            learned_off += std::pow(std::log(paces[ground].learned / at), 2);
            alone_off += std::pow(std::log(paces[ground].ratio / at), 2);
        }
    }
    INFO(held << " of " << of);
    CHECK(chance_of_at_most(held, of, 0.90) > 1e-4);
    CHECK(chance_of_at_least(held, of, 0.90) > 1e-4);
    CHECK(learned_off < 0.8 * alone_off); // drawn together they are nearer than each alone
}

TEST_CASE("a ground of one job stays near all jobs, and depth is in whole feet") {
    std::vector<PaceOfJob> jobs(8, {{"loam", 4.2, "ft"}, 1.0, 0.02});
    jobs.push_back({{"clay", 6, "ft"}, 0.5, 0.02});
    double between = 0;
    const std::vector<GroundPace> paces = ground_paces(jobs, 0.15, between);
    REQUIRE(paces.size() == 2);
    CHECK(paces[0].layer == "clay");
    CHECK(paces[0].from == 5);
    CHECK(paces[0].to == 6);
    CHECK(paces[1].from == 4);
    CHECK(paces[1].to == 5);
    CHECK(paces[0].ratio == doctest::Approx(0.5));
    CHECK(paces[0].learned > 0.5);
    CHECK(paces[0].learned < 1);
    CHECK(paces[0].high - paces[0].low > paces[1].high - paces[1].low);
    CHECK(ground_paces({}, 0.15, between).empty());
    // A hair past a foot is its conversion; a sixteenth of an inch is past it.
    const auto from = [&](double depth) {
        return ground_paces(std::vector<PaceOfJob>{{{"clay", depth, "ft"}, 1, 0.02}}, 0.15, between)
            .at(0)
            .from;
    };
    CHECK(from(5 + 1e-12) == 4);
    CHECK(from(5 + 1.0 / 192) == 5);
}

namespace {

double noise(double job, double error) {
    return job * job + error * error;
}

// All that was measured is one normal vector with mean zero: half of all jobs, a ground's own, and
// the noise of each. Its density, and mean and square of a ground given the vector, by elimination.
struct Given {
    double density = 0, mean = 0, square = 0;
};
Given given(const std::vector<PaceOfJob>& jobs, const std::string& ground, double job_spread,
            double ground_spread) {
    const std::size_t n = jobs.size();
    const double all = 0.5 * 0.5, own = ground_spread * ground_spread;
    std::vector<std::vector<double>> a(n, std::vector<double>(n + 2));
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < n; ++k)
            a[i][k] = all + (jobs[i].ground.layer == jobs[k].ground.layer ? own : 0) +
                      (i == k ? noise(job_spread, jobs[i].error) : 0);
        a[i][n] = std::log(jobs[i].ratio);
        a[i][n + 1] = all + (jobs[i].ground.layer == ground ? own : 0);
    }
    const std::vector<std::vector<double>> before = a;
    double determinant = 1;
    for (std::size_t i = 0; i < n; ++i) {
        determinant *= a[i][i];
        for (std::size_t k = 0; k < n; ++k)
            if (k != i)
                for (std::size_t c = n + 2; c-- > i;)
                    a[k][c] -= a[i][c] * a[k][i] / a[i][i];
    }
    Given out;
    double square = 0, known = 0;
    for (std::size_t i = 0; i < n; ++i) {
        square += before[i][n] * a[i][n] / a[i][i];
        out.mean += before[i][n + 1] * a[i][n] / a[i][i];
        known += before[i][n + 1] * a[i][n + 1] / a[i][i];
    }
    out.density = std::exp(-square / 2) / std::sqrt(determinant);
    out.square = all + own - known;
    return out;
}

} // namespace

TEST_CASE(
    "what is learned of a ground is the mean of a normal vector, over every pair of spreads") {
    const std::vector<PaceOfJob> jobs = {{{"clay", 5, "ft"}, 0.8, 0.03},
                                         {{"clay", 5, "ft"}, 0.9, 0.1},
                                         {{"loam", 5, "ft"}, 1.2, 0.05},
                                         {{"sand", 5, "ft"}, 1.1, 0.02},
                                         {{"sand", 5, "ft"}, 1.3, 0.02}};
    constexpr double scale = 0.15;
    double between = 0;
    const std::vector<GroundPace> paces = ground_paces(jobs, scale, between);
    REQUIRE(paces.size() == 3);
    for (const GroundPace& pace : paces) {
        double sum = 0, mean = 0, squares = 0, spread = 0;
        for (int j = 0; j < 16; ++j)
            for (int g = 0; g < 16; ++g) { // a twentieth to five times, each by the same factor
                const double job = 0.05 * std::pow(100, j / 15.0),
                             ground = 0.05 * std::pow(100, g / 15.0);
                const Given one = given(jobs, pace.layer, scale * job, scale * ground);
                const double weight =
                    one.density * job / (1 + job * job) * ground / (1 + ground * ground);
                sum += weight;
                mean += weight * one.mean;
                squares += weight * (one.square + one.mean * one.mean);
                spread += weight * scale * job;
            }
        mean /= sum;
        const double error = std::sqrt(squares / sum - mean * mean);
        CAPTURE(pace.layer);
        CHECK(pace.learned == doctest::Approx(std::exp(mean)).epsilon(1e-9));
        CHECK(pace.low ==
              doctest::Approx(std::exp(mean - 1.6448536269514722 * error)).epsilon(1e-8));
        CHECK(pace.high ==
              doctest::Approx(std::exp(mean + 1.6448536269514722 * error)).epsilon(1e-8));
        CHECK(between == doctest::Approx(spread / sum).epsilon(1e-9));
    }
    CHECK(paces[0].ratio == doctest::Approx(std::sqrt(0.8 * 0.9)));
    CHECK(paces[0].jobs == 2);
    CHECK(paces[1].jobs == 1);
}

} // namespace ground_pace_test
