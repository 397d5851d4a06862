// An hour of each work: of the machine whose meter is read, with all that runs along.
#include <algorithm>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/hourly_costs.h"
#include "tests/support/quoted_work.h"

namespace hourly_of_works_test {

using namespace acre;
using namespace acre::engine;
using tests::bench_job;
using tests::QuotedWork;

namespace {

struct Hour {
    HourlyCosts hourly;
    double amount = 0; // of its costs, added up
    std::vector<std::string> names;
};
Hour hour_of(const QuotedWork& work) {
    const lang::Outcome<Estimate> estimate = engine::estimate(work.job());
    REQUIRE(estimate.value.has_value());
    Hour hour{hourly_costs(work.job(), *estimate), 0, {}};
    for (const std::size_t i : hour.hourly.costs) {
        hour.amount += estimate->costs[i].rate * estimate->costs[i].quantity;
        hour.names.push_back(estimate->costs[i].name);
    }
    return hour;
}

} // namespace

TEST_CASE("an hour of planting is one of the tractor, not of one of six hands") {
    const QuotedWork work(bench_job("plant", "set area = 60 ac\n"));
    const Hour hour = hour_of(work);
    CHECK(hour.hourly.hours == doctest::Approx(45)); // 60 ac at 12 and at 1.5 ac/h
    CHECK(hour.hourly.per_hour == doctest::Approx(hour.amount / 45));
    CHECK(hour.names == std::vector<std::string>{"plant_tractor", "plant_diesel", "plant_operator",
                                                 "planting_machine", "planting_hands",
                                                 "hands_again"});
}

TEST_CASE(
    "an hour of discing has no crew travel in it, nor is it one of the truck on a small job") {
    for (const char* acres : {"90 ac", "6 ac"}) {
        const QuotedWork work(bench_job("disc-float", "set area = " + std::string(acres) + "\n"));
        const Hour hour = hour_of(work);
        CHECK(hour.names == std::vector<std::string>{"disc_tractor", "disc_diesel", "disc_operator",
                                                     "disc_wear_paid"});
        CHECK(hour.hourly.hours == doctest::Approx(work.value("disc_hours")));
    }
}

} // namespace hourly_of_works_test
