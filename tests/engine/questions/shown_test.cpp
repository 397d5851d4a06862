// What the customer may see, and what a record lets a wording name.
#include "engine/questions/shown.h"

#include <algorithm>
#include <string>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "engine/book/make_record.h"
#include "engine/questions/estimate.h"
#include "tests/support/priced.h"

namespace shown_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

const std::string model = R"(model "Mowing"
choice pattern = one_way | both_ways
list strip
use "wheel"
part "Strips" each strip
  given area = 10 ac  "acres mowed"
  given pace = 2 ac/h  "pace"
part "All"
  given method : pattern = both_ways  "how"
  given extra = 0 h  "more hours"
  given rough = 3 ft
  hours : h = sum(area) / most(pace)  "machine hours"
  cost wheel : $/h = $40/h over hours  "wheel"
show area, method, extra, rough, mowing.rate, wheel.age
price "Mowing" per ac of sum(area)
  overhead 10 %
)";
const Choices with_wheel = {
    {{"wheel.rate", "model \"Wheel\"\ngiven age = 3 yr  \"its age\"\ngiven size = 20 in  "
                    "\"its size\"\nshow size\n"}}};

} // namespace

TEST_CASE(
    "the figures that a model shows, its entries named first, and none of which there is none") {
    const Priced p = priced_ok("job \"j\"\nmodel \"mowing\"\nstrip north \"North strip\"\nstrip "
                               "south\n  set area = 4 ac\n",
                               {{{"mowing.rate", model}, *with_wheel.files.begin()}});
    std::string all;
    for (const ShownFigure& figure : ask(p, ShownQuestion{}).figures)
        all += figure.name + " " + figure.label + " = " + figure.text + "\n";
    // Not the pace, nor what the wheel's own model shows, nor the price, nor no hours at all.
    CHECK(all == "north.area North strip: acres mowed = 10 ac\n"
                 "south.area south: acres mowed = 4 ac\n"
                 "method how = both ways\nrough rough = 3 ft\n"
                 "wheel.age its age = 3 yr\n");
}

TEST_CASE("a record names what is shown and what prices say") {
    const Priced p = priced_ok(model, with_wheel);
    const lang::Outcome<Estimate> estimate = engine::estimate(p);
    REQUIRE(estimate);
    const QuoteRecord record = quote_of(p, *estimate);
    REQUIRE(record.shown);
    CHECK(*record.shown == std::vector<std::string>{"area", "extra", "method", "mowing.amount",
                                                    "mowing.quantity", "mowing.rate",
                                                    "price.per_unit", "price.total", "rough",
                                                    "wheel.age"});
}

TEST_CASE("an inner figure that is shown is inner no more") {
    const auto record_of_model = [](const std::string& shown) {
        const Priced p = priced_ok("model \"m\"\ngiven hours = 6 h \"h\"\ncost wheel : $/h = $40/h "
                                   "over hours\nshow " +
                                   shown + "\nprice \"P\" lump\n  margin 10 %\n");
        return quote_of(p, *engine::estimate(p)).inner;
    };
    const std::vector<std::string> without = record_of_model("hours");
    CHECK(std::count(without.begin(), without.end(), "wheel.amount") == 1);
    const std::vector<std::string> with = record_of_model("wheel.amount");
    CHECK(std::count(with.begin(), with.end(), "wheel.amount") == 0);
    CHECK(with.size() + 1 == without.size());
}

} // namespace shown_test
