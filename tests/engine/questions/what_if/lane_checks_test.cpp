// Checks of many lanes against a loop over them: every number of lanes that fills vectors, leaves a
// rest or is too few for one, with the one bad lane at every place.
#include "engine/questions/what_if/lane_checks.h"

#include <cmath>
#include <cstddef>
#include <vector>

#include <doctest/doctest.h>

namespace lane_checks_test {

using acre::engine::lane_checks;
using acre::engine::LaneChecks;

namespace {

constexpr std::size_t most = 19; // two of the widest vectors and three
constexpr double fine = 5;
const double not_a_number = std::nan("");

// Lanes of which one is another, with what no check may look at before and behind them.
class Lanes {
  public:
    Lanes(std::size_t n, double around, std::size_t at, double other) : all_(n + 16, around) {
        for (std::size_t i = 0; i < n; ++i)
            all_[8 + i] = i == at ? other : fine;
    }
    const double* at() const { return all_.data() + 8; }

  private:
    std::vector<double> all_;
};

} // namespace

TEST_CASE("one bad lane is found wherever it is, and none beside the lanes") {
    const LaneChecks& any = lane_checks();
    for (std::size_t n = 0; n <= most; ++n) {
        CAPTURE(n);
        const Lanes low(n, 1, n, 1), high(n, 9, n, 9);
        const auto outside = [&](const Lanes& y) {
            return any.any_outside(y.at(), low.at(), high.at(), n);
        };
        // At n itself: no lane of theirs.
        for (std::size_t at = 0; at <= n; ++at) {
            CAPTURE(at);
            CHECK(any.any_nan(Lanes(n, not_a_number, at, not_a_number).at(), n) == (at < n));
            CHECK(any.any_zero(Lanes(n, 0, at, 0).at(), n) == (at < n));
            CHECK(any.any_below(Lanes(n, 2, at, 2).at(), 3, n) == (at < n));
            CHECK(outside(Lanes(n, 4, at, 4)) == (at < n));
            CHECK(outside(Lanes(n, 6, at, 6)) == (at < n));
            CHECK(outside(Lanes(n, 6, at, not_a_number)) == (at < n));
        }
    }
}

TEST_CASE("the ends of what is allowed are allowed") {
    const LaneChecks& any = lane_checks();
    for (std::size_t n = 1; n <= most; ++n) {
        const Lanes five(n, 0, n, 0), less(n, 0, 0, std::nextafter(fine, 0)),
            more(n, 0, 0, std::nextafter(fine, 9));
        CHECK_FALSE(any.any_below(five.at(), fine, n));
        CHECK(any.any_below(less.at(), fine, n));
        CHECK_FALSE(any.any_outside(five.at(), five.at(), five.at(), n));
        CHECK(any.any_outside(less.at(), five.at(), five.at(), n));
        CHECK(any.any_outside(more.at(), five.at(), five.at(), n));
        // Zero of either sign; and what is no number is neither zero nor below anything.
        CHECK(any.any_zero(Lanes(n, 1, n - 1, -0.0).at(), n));
        CHECK_FALSE(any.any_zero(Lanes(n, 1, n - 1, not_a_number).at(), n));
        CHECK_FALSE(any.any_zero(Lanes(n, 1, n - 1, 5e-324).at(), n));
        CHECK_FALSE(any.any_below(Lanes(n, 1, n - 1, not_a_number).at(), 3, n));
        CHECK_FALSE(any.any_nan(Lanes(n, 1, n - 1, -INFINITY).at(), n));
    }
}

} // namespace lane_checks_test
