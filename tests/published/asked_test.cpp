// Answers of the table in examples/README.md, worked by hand from the texts of the models and jobs:
// what is typed here stands in those texts or on the page of the first price, and nothing here asks
// the engine. That the commands print what the table says is held by tests/golden.
#include "tests/published/answers.h"

namespace asked_test {

using acre::tests::answered, acre::tests::up;

namespace {

// Job 01: 118 acres at 7 ft are 139.07 miles; at 1.5 mi/h that is 92.71 h in the ground, and with
// 587 turns of 0.7 min, in hours of fifty minutes, 119.48 meter hours: 6.03 days of 22 h of which
// 90 % fit, so seven, and 14 crew trips. At $560.90 a meter hour, $37.54 an hour in the ground and
// $306.095 a trip, that is what its page adds up in cents. The move is as its page has it.
constexpr double acres = 118, ripping = 74'783.00, move = 9'076.32;
// 850 hp at 90 % burn 0.36 / 7 gal a horsepower-hour; 119.48 h; oil, filters and grease are 15 % on
// top of the fuel (models/crawler.rate).
constexpr double gallons = 850 * 0.90 * 0.36 / 7 * 119.4813;

// The steps of models/deep-rip.rate with the shares of the season: overhead 9 %, reserve 3 %, and
// the margin of the price; whole dollars an acre; the move in steps of $25.
double ripped(double cost, double over_price, double on = acres) {
    return up(cost * 1.09 * 1.03 / over_price / on, 1) * on;
}
double moved(double cost, double over_price) {
    return up(cost * 1.09 / over_price, 25);
}

} // namespace

TEST_CASE("12 % of the bid, and 12 % of the cost") {
    const std::vector<double> answer = answered(2);
    REQUIRE(answer.size() == 2);
    CHECK(answer[0] == doctest::Approx(ripped(ripping, 0.88) + moved(move, 0.88)));
    // 12 on 100 is 12 of 112.
    CHECK(answer[1] == doctest::Approx(ripped(ripping, 1 / 1.12) + moved(move, 1 / 1.12)));
}

TEST_CASE("the smallest job at $900 an acre, three times") {
    const std::vector<double> answer = answered(7);
    REQUIRE(answer.size() == 5);
    // All but the crew's trips goes with the acres. Two crews drive 14 trips for 7 days here,
    // $306.095 each: 4 of them for the two days that 20 to 39 acres take, 6 for three.
    const double an_acre = (ripping - 14 * 306.095) / acres;
    const double two_days = 4 * 306.095, three_days = 6 * 306.095;
    CHECK(answer[0] == doctest::Approx((move + two_days) / (900 - an_acre)).epsilon(2e-4));
    CHECK(answer[1] ==
          doctest::Approx(1.09 * (move + three_days) / (900 - 1.09 * an_acre)).epsilon(1e-4));
    // The full margin is a matter of the rounded rate with $11,250 for the move. In six days, 118.8
    // meter hours, 1.01255 of them an acre: $803 an acre is what 12 trips leave near 116 acres.
    REQUIRE(up((an_acre + 12 * 306.095 / 116) * 1.09 * 1.03 / 0.88, 1) == 803);
    CHECK(answer[2] == doctest::Approx(11'250 / (900.0 - 803)).epsilon(1e-3));
    const double six_days = 6 * 22 * 0.90 / (119.4813 / acres);
    CHECK(answer[3] == doctest::Approx(six_days).epsilon(1e-3));
    // A seventh day has 14 trips: the rate falls to $807 where they are few enough dollars an acre.
    const double trips_an_acre = 807 * 0.88 / (1.09 * 1.03) - an_acre;
    CHECK(answer[4] == doctest::Approx(14 * 306.095 / trips_an_acre).epsilon(1e-3));
}

TEST_CASE("what is left of the price, and how it comes from the target") {
    const std::vector<double> answer = answered(26);
    REQUIRE(answer.size() == 3);
    const double price = ripped(ripping, 0.88) + moved(move, 0.88), cost = ripping + move;
    const double overhead = 0.09 * cost, reserve = 0.03 * 1.09 * ripping;
    CHECK(answer[0] == doctest::Approx(price - cost - overhead).epsilon(1e-6));
    CHECK(answer[1] == doctest::Approx(100 * (price - cost - overhead) / price).epsilon(1e-3));
    CHECK(answer[2] == doctest::Approx(price - cost - overhead - reserve).epsilon(1e-6));
}

TEST_CASE("the diesel price at which a signed quote leaves nothing") {
    const std::vector<double> answer = answered(27);
    REQUIRE(answer.size() == 1);
    const double left = 106'712 - 1.09 * (ripping + move);
    CHECK(answer[0] == doctest::Approx(4.47 + left / (1.15 * gallons)).epsilon(1e-3));
}

TEST_CASE("what a job made is after overhead as quoted") {
    const std::vector<double> answer = answered(20);
    REQUIRE(answer.size() == 4);
    const double quoted = 106'712 - 1.09 * (ripping + move);
    CHECK(answer[0] == doctest::Approx(quoted).epsilon(1e-6));
    CHECK(answer[1] < answer[0]);
}

TEST_CASE("what is billed: the price, the steps of diesel, and two hours of standby") {
    const std::vector<double> answer = answered(21), fuel = answered(18);
    REQUIRE(answer.size() == 3);
    // Two hours of a day of two shifts of eleven hours on the meter.
    CHECK(answer[1] == doctest::Approx(answer[0] * 2 / 22).epsilon(1e-4));
    CHECK(answer[2] == doctest::Approx(106'712 + fuel[4] + fuel[6] + answer[1]));
}

} // namespace asked_test
