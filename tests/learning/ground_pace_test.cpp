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
}

} // namespace ground_pace_test
