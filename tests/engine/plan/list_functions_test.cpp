// Functions over a list: their values, by hand.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "tests/support/value_of.h"

namespace list_functions_test {

using namespace acre;
using tests::value_of;

namespace {

const std::string head = R"(model "m"
list layer = top | pan  "ground"
define load (share : 1) each layer (thick : ft, weight : lb/ft) : lb = share * sum(own)
  own : lb = thick * weight
define deep () each layer (thick : ft) : ft = most(bottom)
  bottom : ft = before(thick) + thick
define both (share : 1) each layer (weight : lb/ft, thick : ft) : lb = load(share, each layer) * how_many(layer)
)";

} // namespace

TEST_CASE("rows of a call's own need no list of the job") {
    CHECK(value_of(head +
                       "x : lb = load(2, each layer (3 ft, 10 lb/ft), (1 ft, 20 lb/ft), (2 ft, 5 "
                       "lb/ft))\n",
                   "x") == doctest::Approx(2 * (30 + 20 + 10)));
    CHECK(value_of(head + "x : ft = deep(each layer (3 ft), (12 in), (0.5 ft))\n", "x") ==
          doctest::Approx(4.5));
    CHECK(value_of(head + "x : ft = deep(each layer (3 ft))\n", "x") == doctest::Approx(3));
}

TEST_CASE("a function hands its rows on by the names of the columns") {
    // The other function has its columns in another order.
    CHECK(value_of(head + "x : lb = both(1, each layer (10 lb/ft, 3 ft), (20 lb/ft, 1 ft))\n",
                   "x") == doctest::Approx(2 * (30 + 20)));
}

TEST_CASE("a limit of a column stops at the row that leaves it") {
    const std::string text = head + "define held () each layer (thick : ft) : ft = sum(thick)\n"
                                    "  limit thick 0 ft .. 5 ft  \"no deeper\"\n";
    CHECK(value_of(text + "x : ft = held(each layer (5 ft), (4 ft))\n", "x") == doctest::Approx(9));
    const tests::Priced p =
        tests::priced(text + "x : ft = held(each layer (1 ft), (6 ft))\n"
                             "cost c : $/ft = $1/ft over x\nprice \"P\" lump\n");
    REQUIRE(p.made.value.has_value());
    CHECK(std::isnan(p.value("x")));
}

} // namespace list_functions_test
