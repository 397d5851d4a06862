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

struct Row {
    const char* formula;
    double feet;
};

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

TEST_CASE("rows are handed on from wherever the call stands, however many there are") {
    // Three rows of 1, 2 and 4 ft; the list has two entries, so nobody else calls `all` with three.
    const std::string text = "model \"m\"\nlist layer = top | pan\nchoice wet = dry | soaked\n"
                             "define all () each layer (thick : ft) : ft = sum(thick)\n"
                             "define twice (one : ft) : ft = 2 * one\n";
    const auto value = [&](const std::string& body, const std::string& lines = "") {
        CAPTURE(body);
        return value_of(text + "define f (a : 1, b : wet) each layer (thick : ft) : ft = " + body +
                            "\n" + lines +
                            "x : ft = f(3, dry, each layer (1 ft), (2 ft), (4 ft))\n",
                        "x");
    };
    const Row rows[] = {
        {"all(each layer)", 7},
        {"-all(each layer)", -7},
        {"1 ft + all(each layer)", 8},
        {"all(each layer) + 1 ft", 8},
        {"a * (all(each layer) + 1 ft)", 24},
        {"twice(all(each layer))", 14},
        {"max(1 ft, all(each layer))", 7},
        {"when all(each layer) > 6 ft then 1 ft otherwise 2 ft", 1},
        {"when not all(each layer) > 6 ft then 1 ft otherwise 2 ft", 2},
        {"when a > 2 then all(each layer) otherwise 2 ft", 7},
        {"when a < 2 then 2 ft otherwise all(each layer)", 7},
        {"all(each layer (all(each layer)), (1 ft))", 8},
        {"all(each layer (1 ft), (all(each layer)))", 8},
    };
    for (const Row& row : rows)
        CHECK(value(row.formula) == doctest::Approx(row.feet));
    CHECK(value("2 * whole", "  whole : ft = all(each layer)\n") == doctest::Approx(14));
    // A function that hands on what it was handed.
    CHECK(value_of(text + "define g () each layer (thick : ft) : ft = 10 * all(each layer)\n"
                          "define f () each layer (thick : ft) : ft = g(each layer) + 1 ft\n"
                          "x : ft = f(each layer (1 ft), (2 ft), (4 ft))\n",
                   "x") == doctest::Approx(71));
}

TEST_CASE("a line of a define is there for each row wherever a column stands in it") {
    // Rows of 1, 2 and 4 ft.
    const auto value = [](const std::string& own) {
        CAPTURE(own);
        return value_of("model \"m\"\nlist layer = top | pan\nchoice wet = dry | soaked\n"
                        "define twice (one : ft) : ft = 2 * one\n"
                        "define all () each layer (thick : ft) : ft = sum(thick)\n"
                        "define f (a : ft) each layer (thick : ft) : ft = sum(own)\n"
                        "  own : ft = " +
                            own + "\nx : ft = f(3 ft, each layer (1 ft), (2 ft), (4 ft))\n",
                        "x");
    };
    const Row rows[] = {
        {"thick", 7},
        {"-thick", -7},
        {"a + thick", 16},
        {"thick + a", 16},
        {"max(a, thick)", 10},
        {"twice(thick)", 14},
        {"when thick > 1 ft then a otherwise 0 ft", 6},
        {"when not thick > 1 ft then a otherwise 0 ft", 3},
        {"when a > 2 ft then thick otherwise 0 ft", 7},
        {"when a > 3 ft then 0 ft otherwise thick", 7},
        {"when a > 2 ft and thick > 3 ft then a otherwise 0 ft", 3},
        {"before(thick)", 4},          // 0, 1, 3
        {"thick / sum(thick) * a", 3}, // a sum is one value
        {"all(each layer (thick), (1 ft))", 10},
    };
    for (const Row& row : rows)
        CHECK(value(row.formula) == doctest::Approx(row.feet));
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
