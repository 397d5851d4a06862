// What runs by the hour of the machine, worked out by hand.
#include "engine/questions/hourly_costs.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace hourly_costs_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

struct Hourly {
    double hours = 0, per_hour = 0;
    std::vector<std::string> costs;
};
Hourly hourly(const std::string& costs, const std::string& other = "") {
    const Priced job = priced_ok(
        "model \"m\"\npart \"Field\"\n  given area = 40 ac  \"acres\"\n  given burn = 5 gal/h\n"
        "  hours : h = area / 2 ac/h\n  gallons : gal = burn * hours\n"
        "  liters : L = gallons\n  moves : 1 = ceil(hours / 8 h)\n" +
        costs + "part \"Other\"\n  cost desk : $/h = $20/h over 10 h\n" + other +
        "price \"Work\" lump\n");
    const auto estimated = estimate(job.job());
    REQUIRE(estimated.value.has_value());
    const HourlyCosts found = hourly_costs(job.job(), *estimated);
    Hourly out{found.hours, found.per_hour, {}};
    for (const std::size_t i : found.costs)
        out.costs.push_back(estimated->costs[i].name);
    return out;
}

const std::string crawler = "  cost crawler : $/h = $100/h over hours\n";

} // namespace

TEST_CASE("costs over hours and what goes with the largest's hours run by the hour") {
    // 20 h: $2,000, $600 of wages, 100 gal at $4; oil by the liter of the same gallons, half a
    // cent each: 378.5 L. The move is by days begun, the lodging by nothing of the hours.
    const Hourly all = hourly(crawler + "  cost wage : $/h = $30/h over hours\n"
                                        "  cost fuel : $/gal = $4/gal over gallons\n"
                                        "  cost oil : $/L = $0.005/L over liters\n"
                                        "  cost move : $ = $50 over moves\n"
                                        "  cost permit : $ = $70 over 1\n");
    CHECK(all.costs == std::vector<std::string>{"crawler", "wage", "fuel", "oil"});
    CHECK(all.hours == doctest::Approx(20));
    CHECK(all.per_hour == doctest::Approx((2'000 + 600 + 400 + 0.005 * 378.5411784) / 20));
}

TEST_CASE("the part is that of the largest cost over hours") {
    // $3,000 of hours beside $2,000: then it is the other part, with its desk.
    const Hourly other = hourly(crawler + "  cost wage : $/h = $30/h over hours\n",
                                "  cost rent : $/h = $300/h over 10 h\n");
    CHECK(other.costs == std::vector<std::string>{"desk", "rent"});
    CHECK(other.hours == 10);
    CHECK(other.per_hour == doctest::Approx(320));
}

TEST_CASE("one cost alone, one of nothing, and none over hours are no rate by the hour") {
    CHECK(hourly(crawler).costs.empty());
    CHECK(hourly(crawler).hours == 0);
    CHECK(hourly(crawler + "  cost wage : $/h = $0/h over hours\n").costs.empty());
    CHECK(hourly(crawler + "  cost permit : $ = $70 over 1\n").costs.empty());
    CHECK(hourly(crawler + "  cost wage : $/h = $0.01/h over hours\n").costs.size() == 2);
}

} // namespace hourly_costs_test
