#include "engine/learning/binomial.h"

#include <cmath>

#include <doctest/doctest.h>

#include "engine/learning/assumptions.h"

namespace binomial_test {

using namespace acre::engine;

TEST_CASE("exact intervals of a share") {
    // None of n: the upper end solves (1 - p)^n = 2.5 %, worked by hand.
    CHECK(exact_share(0, 10, 0.95).low == 0);
    CHECK(exact_share(0, 10, 0.95).high == doctest::Approx(1 - std::pow(0.025, 0.1)));
    CHECK(exact_share(10, 10, 0.95).low == doctest::Approx(std::pow(0.025, 0.1)));
    CHECK(exact_share(10, 10, 0.95).high == 1);
    // 81 of 263: 0.2527 to 0.3676 (Newcombe 1998, Statistics in Medicine 17, 857-872, from memory).
    CHECK(exact_share(81, 263, 0.95).low == doctest::Approx(0.2527).epsilon(0.0003));
    CHECK(exact_share(81, 263, 0.95).high == doctest::Approx(0.3676).epsilon(0.0003));
    CHECK(exact_share(0, 0, 0.95).high == 1);
}

TEST_CASE("score intervals of a share, and of the difference of two") {
    // The same paper: 81 of 263, 0.2553 to 0.3662; 0 of 20, 0 to 0.1611 (from memory).
    CHECK(score_share(81, 263, 0.95).low == doctest::Approx(0.2553).epsilon(0.0003));
    CHECK(score_share(81, 263, 0.95).high == doctest::Approx(0.3662).epsilon(0.0003));
    CHECK(score_share(0, 20, 0.95).low == 0);
    CHECK(score_share(0, 20, 0.95).high == doctest::Approx(0.1611).epsilon(0.0005));
    CHECK(score_share(0, 0, 0.95).high == 1);
    // Its second part (873-890), method 10: 56 of 70 less 48 of 80, 0.0524 to 0.3339 (from memory).
    CHECK(share_difference(56, 70, 48, 80, 0.95).low == doctest::Approx(0.0524).epsilon(0.001));
    CHECK(share_difference(56, 70, 48, 80, 0.95).high == doctest::Approx(0.3339).epsilon(0.001));
}

TEST_CASE("chances of a count") {
    // Of two: (1 - p)^2, 1 - p^2, by hand.
    CHECK(chance_of_at_most(0, 2, 0.9) == doctest::Approx(0.01));
    CHECK(chance_of_at_most(1, 2, 0.9) == doctest::Approx(0.19));
    CHECK(chance_of_at_most(2, 2, 0.9) == 1);
    CHECK(chance_of_at_least(0, 2, 0.9) == 1);
    CHECK(chance_of_at_least(2, 2, 0.9) == doctest::Approx(0.81));
}

TEST_CASE("a figure that is only assumed has its value as median, its swing as ends") {
    CHECK(assumed_at(0.5, 45, {20, 120}) == doctest::Approx(45));
    CHECK(assumed_at(0, 45, {20, 120}) == doctest::Approx(20));
    CHECK(assumed_at(1, 45, {20, 120}) == doctest::Approx(120));
    // A triangle of half the mass from 20 to 45: at an eighth of all, half way (2 p = (1/2)^2).
    CHECK(assumed_at(0.125, 45, {20, 120}) == doctest::Approx(32.5));
    // At an end it can be wrong one way only, and so it is when it lies outside.
    CHECK(assumed_at(0.75, 20, {20, 120}) == doctest::Approx(70));
    CHECK(assumed_at(0.25, 130, {20, 120}) == doctest::Approx(70));
    Assumptions assumptions(64);
    CHECK(assumptions.take({"a", "", "h", 45, {20, 120}, {}}) == 0);
    CHECK(assumptions.take({"a", "", "h", 45, {20, 120}, {}}) == 0);
    CHECK(assumptions.take({"a", "", "h", 46, {20, 120}, {}}) == no_assumption);
    CHECK(assumptions.all()[0].drawn.size() == 64);
}

} // namespace binomial_test
