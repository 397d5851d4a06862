#include "engine/questions/bridge/shapley.h"

#include <cmath>
#include <limits>
#include <numeric>

#include <doctest/doctest.h>

namespace shapley_test {

using namespace acre::engine;

namespace {

constexpr double no_answer = std::numeric_limits<double>::quiet_NaN();

template <class F> Worth each(F f) {
    return [f](std::span<const std::uint64_t> masks, std::span<double> results) {
        for (std::size_t i = 0; i < masks.size(); ++i)
            results[i] = f(masks[i]);
    };
}
double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

} // namespace

TEST_CASE("the airport game has its closed form") {
    // Littlechild and Owen 1973, Management Science 20(3): the cost of a set is that of its largest
    // member; the share of member i (costs rising) is the sum over k <= i of (c_k - c_{k-1}) / (n -
    // k + 1).
    for (const std::size_t n : {std::size_t{5}, max_exact_players, max_exact_players + 4}) {
        CAPTURE(n);
        const Attribution result =
            attribute(n, each([](std::uint64_t mask) {
                          double most = 0;
                          for (std::size_t i = 0; mask >> i != 0; ++i)
                              if ((mask >> i & 1U) != 0)
                                  most = std::pow(static_cast<double>(i) + 1, 1.5);
                          return most;
                      }));
        CHECK(result.exact == (n <= max_exact_players));
        double share = 0;
        double before = 0;
        for (std::size_t i = 0; i < n; ++i) {
            const double cost = std::pow(static_cast<double>(i) + 1, 1.5);
            share += (cost - before) / static_cast<double>(n - i);
            before = cost;
            CHECK(result.share[i] == doctest::Approx(share).epsilon(result.exact ? 1e-12 : 0.15));
        }
        CHECK(sum(result.share) == doctest::Approx(result.after - result.before).epsilon(1e-13));
    }
}

TEST_CASE("two factors of a product share the joint part evenly") {
    // 10 x 5 to 12 x 7: price alone 10, quantity alone 20, jointly 4, halved.
    const Attribution result =
        attribute(2, each([](std::uint64_t mask) {
                      return ((mask & 1U) != 0 ? 12.0 : 10.0) * ((mask & 2U) != 0 ? 7.0 : 5.0);
                  }));
    CHECK(result.share[0] == doctest::Approx(12));
    CHECK(result.share[1] == doctest::Approx(22));
}

TEST_CASE("changes that have no answer without each other share one row") {
    const Attribution result =
        attribute(3, each([](std::uint64_t mask) {
                      const std::uint64_t pair = mask & 3U;
                      return pair == 1 || pair == 2 ? no_answer : static_cast<double>(mask);
                  }));
    CHECK(result.answered);
    CHECK(result.group == std::vector<std::uint32_t>{0, 0, 2});
    CHECK(result.share[0] == doctest::Approx(3));
    CHECK(result.share[1] == 0);
    CHECK(result.share[2] == doctest::Approx(4));
}

TEST_CASE("players that are one from the start share one row") {
    // The first two alone are worth 3 and -3, together 0: as one they change nothing.
    const std::uint64_t together[] = {3, 4};
    const Attribution result = attribute(3, each([](std::uint64_t mask) {
                                             return ((mask & 1U) != 0 ? 3.0 : 0) -
                                                    ((mask & 2U) != 0 ? 3.0 : 0) +
                                                    ((mask & 4U) != 0 ? 5.0 : 0);
                                         }),
                                         together);
    CHECK(result.group == std::vector<std::uint32_t>{0, 0, 2});
    CHECK(result.share[0] == doctest::Approx(0));
    CHECK(result.share[2] == doctest::Approx(5));
}

TEST_CASE("an end without an answer is said, no change is no row") {
    CHECK(!attribute(2, each([](std::uint64_t mask) { return mask == 3 ? no_answer : 1.0; }))
               .answered);
    const Attribution nothing = attribute(0, each([](std::uint64_t) { return 7.0; }));
    CHECK(nothing.answered);
    CHECK(nothing.before == 7);
    CHECK(nothing.after == 7);
}

} // namespace shapley_test
