// A job moved to over another road, with prices by hand.
#include "engine/questions/season/by_road.h"

#include <doctest/doctest.h>

#include <string>

#include "tests/support/memory_loader.h"

namespace by_road_test {

using namespace acre;
using namespace acre::engine;

namespace {

// $10 a mile of every leg and $50 of permits a leg, each move; $1,000 of work.
const tests::Files models = {
    {"haul.rate", "model \"Haul\"\nlist leg\ngiven moves = 2\n"
                  "part \"Road\" each leg\n"
                  "  given miles = 0 mi\n  given permit = $50\n"
                  "  one_leg : $ = moves * (miles * $10/mi + permit)\n"
                  "all : $ = sum(one_leg)\n"
                  "part \"Work\"\n"
                  "  cost work : $/mi = $10/mi over 100 mi\n"
                  "  cost road : $/mi = all / 1 mi over 1 mi\n"
                  "price \"All\" lump covers \"Work\"\n  margin 0 %\n"},
    {"over-the-pass.values", "values \"Over the pass\"\nleg low \"low road\"\n  set miles = 60 mi\n"
                             "leg high \"the pass\"\n  set miles = 40 mi\n"},
    {"rates.values", "values \"Rates\"\nset moves = 2\n"},
};
const std::string over_the_pass =
    "job \"Bench\"\nmodel \"haul\"\nwith \"over-the-pass\"\nwith \"rates\"\n"
    "option \"Winter\"\n  set high.permit = $90\n";
const std::string own_legs =
    "job \"Bench\"\nmodel \"haul\"\nleg yard \"from the yard\"\n  set miles = 30 mi\n"
    "  set permit = $70\n";

double price(const std::string& job, const GivenSets& sets, const tests::Files& beside = {}) {
    tests::MemoryLoader loader(models), dispatcher(beside);
    lang::Request request;
    request.name = "bench.job";
    request.text = job;
    const auto money = price_by_road(request, loader, sets, {"roads.csv", dispatcher});
    return money ? money->price : -1;
}

} // namespace

TEST_CASE("legs of another road take the place of the job's own, wherever those were listed") {
    const tests::Files across = {{"across.values",
                                  "values \"Across\"\nleg lane \"farm lane\"\n  set miles = 3 mi\n"
                                  "  set permit = $0\n"}};
    const GivenSets once = {{"with", "across"}, {"moves", "1"}};
    // Both ways over the pass: 2 x ($600 + $50 + $400 + $50).
    CHECK(price(over_the_pass, {}) == doctest::Approx(1'000 + 2'200));
    CHECK(price(over_the_pass, {{"moves", "1"}}) == doctest::Approx(1'000 + 1'100));
    CHECK(price(over_the_pass, once, across) == doctest::Approx(1'000 + 30));
    // What the job sets for every leg, or for one of its own, is of its own road.
    const std::string one_leg = "job \"Bench\"\nmodel \"haul\"\nset miles = 61 mi\n";
    CHECK(price(one_leg, {}) == doctest::Approx(1'000 + 2 * 660));
    CHECK(price(one_leg, once, across) == doctest::Approx(1'000 + 30));
    CHECK(price(over_the_pass + "set high.miles = 45 mi\n", {}) == doctest::Approx(1'000 + 2'300));
    CHECK(price(over_the_pass + "set high.miles = 45 mi\n", once, across) ==
          doctest::Approx(1'000 + 30));
    CHECK(price(own_legs, {}) == doctest::Approx(1'000 + 740));
    CHECK(price(own_legs, once, across) == doctest::Approx(1'000 + 30));
}

TEST_CASE("a road that is not there, or lists no legs, gives no price") {
    CHECK(price(own_legs, {{"with", "across"}}) == -1);
    CHECK(price(own_legs, {{"with", "rates"}}, models) == -1);
    CHECK(price(own_legs, {{"with", "../over-the-pass"}}, models) == -1);
    CHECK(price(own_legs, {{"miles", "3 h"}}) == -1);
    // Entries of a list that the model lacks.
    CHECK(price(own_legs, {{"with", "odd"}},
                {{"odd.values", "values \"Odd\"\nblock west\n  set miles = 3 mi\n"}}) == -1);
}

} // namespace by_road_test
