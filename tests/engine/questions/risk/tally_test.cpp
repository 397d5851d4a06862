// Figures read from bins and sums, worked out by hand.
#include "engine/questions/risk/tally.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <doctest/doctest.h>

namespace tally_test {

using namespace acre::engine;

namespace {

Tally tally_of(const std::vector<double>& answers, double centre, const Bins& bins) {
    Tally tally(bins.count + 2); // and what lies below and above
    std::vector<double> y(points_in_batch);
    std::vector<std::int64_t> bin(points_in_batch);
    std::copy(answers.begin(), answers.end(), y.begin());
    draw_kernels().count(y.data(), answers.size(), centre, bins, tally.sums, bin.data());
    for (std::size_t i = 0; i < answers.size(); ++i)
        ++tally.bin[static_cast<std::size_t>(bin[i])];
    tally.count = answers.size();
    return tally;
}

} // namespace

TEST_CASE("a percentile lies in its bin as far as its share of the bin's answers") {
    // Bins of 1 from 10 to 14. Two answers below (the least 8), one in 10 .. 11, three in 11 .. 12,
    // none in 12 .. 13, two in 13 .. 14 and two above (the greatest 16).
    const Bins bins{10, 1, 4};
    const Tally tally = tally_of({8, 9, 10.5, 11, 11.2, 11.9, 13.1, 13.9, 14, 16}, 12, bins);
    const std::vector<double> shares = {0, 0.1, 0.2, 0.3, 0.45, 0.6, 0.7, 0.8, 0.9, 1};
    const std::vector<double> expected = {8, 9, 10, 11, 11.5, 12, 13.5, 14, 15, 16};
    const std::vector<double> found = tally.percentiles(bins, shares);
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        CAPTURE(shares[i]);
        CHECK(found[i] == doctest::Approx(expected[i]).epsilon(1e-12));
    }
    CHECK(tally.percentiles(bins, std::vector<double>{0.45}) == std::vector<double>{found[4]});
    // Where rounding asks for more than all, the greatest.
    CHECK(tally.percentiles(bins, std::vector<double>{1 + 1e-9}) == std::vector<double>{16});
    // Never past what was found: the one answer of a bin does not fill it.
    const Tally one = tally_of({11.4}, 11.4, bins);
    CHECK(one.percentiles(bins, std::vector<double>{0.01, 0.5, 0.99}) ==
          std::vector<double>{11.4, 11.4, 11.4});
}

TEST_CASE("mean and spread are those of the answers, whatever the centre and the parts") {
    // 2, 4, 4, 4, 5, 5, 7, 9: mean 5, squares of what is away from it 32, over 7.
    const Bins bins{0, 1, 10};
    const std::vector<double> all = {2, 4, 4, 4, 5, 5, 7, 9};
    for (const double centre : {0.0, 5.0, 100.0})
        for (std::size_t cut = 0; cut <= all.size(); ++cut) {
            const auto middle = all.begin() + static_cast<std::ptrdiff_t>(cut);
            Tally tally = tally_of({all.begin(), middle}, centre, bins);
            tally.add(tally_of({middle, all.end()}, centre, bins));
            CHECK(tally.count == 8);
            CHECK(tally.mean(centre) == doctest::Approx(5));
            CHECK(tally.deviation(centre) == doctest::Approx(std::sqrt(32.0 / 7)));
            CHECK(tally.least() == 2);
            CHECK(tally.greatest() == 9);
            CHECK(tally.bin == std::vector<std::uint64_t>{0, 0, 0, 1, 0, 3, 2, 0, 1, 0, 1, 0});
        }
    Tally losses = tally_of({-1, 0, 1}, 0, bins);
    losses.add(tally_of({-2, -3}, 0, bins));
    CHECK(losses.sums.below_zero == 3);
    CHECK(tally_of({3}, 0, bins).deviation(0) == 0);
    CHECK(tally_of({3, 4}, 0, bins).deviation(0) == doctest::Approx(std::sqrt(0.5)));
}

TEST_CASE("a frame holds a few answers with half their span to spare on either side") {
    const std::vector<double> y = {7, 3, 5, 4};
    const Frame frame = frame_of(y.data(), y.size());
    CHECK(frame.centre == 4.75);
    CHECK(frame.bins.count == bin_count);
    CHECK(frame.bins.from == doctest::Approx(1));
    CHECK(frame.bins.from + static_cast<double>(bin_count) / frame.bins.per_unit ==
          doctest::Approx(9));
    // The same answer every time, large or zero: bins of some width around it.
    for (const double same : {0.0, 5e6, -5e6}) {
        const std::vector<double> often(3, same);
        const Frame narrow = frame_of(often.data(), often.size());
        CHECK(narrow.centre == same);
        CHECK(std::isfinite(narrow.bins.per_unit));
        CHECK(narrow.bins.from < same);
        CHECK(narrow.bins.from + static_cast<double>(bin_count) / narrow.bins.per_unit > same);
        CHECK(narrow.bins.from > same - 0.01);
    }
    const Frame none = frame_of(nullptr, 0);
    CHECK(none.centre == 0);
    CHECK(std::isfinite(none.bins.per_unit));
}

TEST_CASE("repetitions give their mean and its standard error") {
    // 1, 2, 3, 4: squares 5, over 4 × 3.
    const Estimated four = estimated({1, 2, 3, 4});
    CHECK(four.mean == doctest::Approx(2.5));
    CHECK(four.error == doctest::Approx(std::sqrt(5.0 / 12)));
    const Estimated two = estimated({3, 5});
    CHECK(two.mean == 4);
    CHECK(two.error == doctest::Approx(1));
    CHECK(estimated({7}).mean == 7);
    CHECK(estimated({7}).error == 0);
}

} // namespace tally_test
