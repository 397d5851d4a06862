#include <doctest/doctest.h>

#include <cmath>

#include "engine/questions/what_if/grid.h"
#include "tests/support/priced.h"

namespace grid_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

const std::string text = "model \"m\"\n"
                         "given a = 2  \"a\"  within 0 .. 100\n"
                         "given b = 3\n"
                         "given m = plus | times\n"
                         "y : 1 = when m is plus then a + b otherwise a * b\n"
                         "z : 1 = 10 / (a - 4)\n";

GridAnswer ask(const Priced& job, const GridQuestion& question) {
    const auto answer = acre::engine::ask(job.job(), question);
    REQUIRE_MESSAGE(answer.value.has_value(), acre::tests::title_of(answer.said));
    return *answer;
}
std::string refused(GridQuestion question) {
    const Priced job = priced_ok(text);
    const auto answer = acre::engine::ask(job.job(), question);
    CHECK_FALSE(answer);
    return acre::tests::title_of(answer.said);
}

std::size_t input_of(const Priced& job, std::string_view name) {
    for (std::size_t i = 0; i < job.plan().inputs.size(); ++i)
        if (job.plan().inputs[i].line == job.line(name))
            return i;
    FAIL("no input " << name);
    return 0;
}

} // namespace

TEST_CASE("places up to the limit of cells, and none past it") {
    CHECK(places({0, 3'999'999}, 1.0)->size() == max_grid_cells);
    CHECK_FALSE(places({0, 4'000'000}, 1.0));
    CHECK(places({0, 1}, max_grid_cells)->size() == max_grid_cells);
    CHECK_FALSE(places({0, 1}, max_grid_cells + 1));
    CHECK(*places({0, 1}, std::size_t{2}) == std::vector<double>{0, 1});
    CHECK_FALSE(places({0, 1}, std::size_t{1}));
    // The last place is the end itself where steps lead to it, else the last step before it.
    CHECK(*places({1, 2}, 0.5) == std::vector<double>{1, 1.5, 2});
    CHECK(*places({1, 2.2}, 0.5) == std::vector<double>{1, 1.5, 2});
    CHECK(*places({3, 3}, 0.5) == std::vector<double>{3});
}

TEST_CASE(
    "a cell where another given leaves its allowed range has no answer, as the job has none") {
    // `wide` is allowed to 2 a: 7 is past it at a = 3. `far` is computed: 5 a, allowed to 20.
    const std::string bounded =
        "model \"m\"\ngiven a = 4\ngiven wide = 7 within 1 .. 2 * a\n"
        "given far : 1 = 5 * a within 0 .. 20\ntogether : 1 = wide + a + far\n";
    const Priced job = priced_ok(bounded);
    const GridAnswer grid = ask(job, {{{"a", {3, 3.5, 4, 4.5}}}, {"together"}});
    CHECK(grid.without_answer == 2);
    CHECK(std::isnan(grid.columns[0].value[0]));
    CHECK(grid.columns[0].value[1] == 28); // 7 + 3.5 + 17.5, at the bound itself
    CHECK(grid.columns[0].value[2] == 31); // 7 + 4 + 20
    CHECK(std::isnan(grid.columns[0].value[3]));
}

TEST_CASE("every cell holds what the value reader says there, the last axis fastest") {
    const Priced job = priced_ok(text);
    std::vector<double> many;
    for (int k = 0; k < 700; ++k)
        many.push_back(k * 0.125);
    const GridAnswer g = ask(job, {{{"m", {0, 1}}, {"a", many}, {"b", {-1, 5}}}, {"y", "z"}});
    REQUIRE(g.cells == 2 * 700 * 2);
    for (std::size_t cell = 0; cell < g.cells; ++cell) {
        std::vector<double> inputs(3);
        for (std::size_t k = 0; k < 3; ++k)
            inputs[input_of(job, g.along[k].given.name)] = g.along[k].at[g.place(cell, k)];
        const Values expected = evaluate(job.plan(), inputs);
        const double y = expected.slot[job.slot("y")], z = expected.slot[job.slot("z")];
        if (std::isnan(z)) {
            CHECK(std::isnan(g.columns[0].value[cell])); // a cell has an answer or it has none
            CHECK(std::isnan(g.columns[1].value[cell]));
        } else {
            CHECK(g.columns[0].value[cell] == y);
            CHECK(g.columns[1].value[cell] == z);
        }
    }
    CHECK(g.without_answer == 4);
    REQUIRE(g.first_without.size() == 4);
    CHECK(g.along[1].at[g.place(g.first_without[0], 1)] == 4);
    CHECK(g.place(1, 2) == 1);
    CHECK(g.place(2, 1) == 1);
    CHECK(g.columns[0].greatest == 699 * 0.125 * 5);
}

TEST_CASE("a cell in which a line is below zero has no answer, whether or not it can be proved") {
    const Priced job = priced_ok("model \"m\"\n"
                                 "given wide = 2 ft  within 0 ft .. 10 ft\n"
                                 "given share = 10 %  within 0 % .. 100 %\n"
                                 "given more = 1 ft\n"
                                 "kept : ft = wide * (1 - share)\n" // never below zero
                                 "left : ft = kept - more\n"
                                 "beyond : ft = kept - more  may be negative\n"
                                 "number : 1 = beyond / 1 ft\n");
    const GridAnswer g = ask(job, {{{"wide", {0, 1, 2, 4}}, {"share", {0, 0.5, 100}}}, {"number"}});
    std::size_t without = 0;
    for (std::size_t cell = 0; cell < g.cells; ++cell) {
        const double wide = g.along[0].at[g.place(cell, 0)];
        const double share = g.along[1].at[g.place(cell, 1)] / 100;
        const double left = wide * (1 - share) - 1;
        CHECK(std::isnan(g.columns[0].value[cell]) == (left < -1e-9));
        without += left < -1e-9 ? 1 : 0;
        if (left >= -1e-9)
            CHECK(g.columns[0].value[cell] == doctest::Approx(left));
    }
    CHECK(without > 0);
    CHECK(without < g.cells);
    CHECK(g.without_answer == without);
}

TEST_CASE("a place outside the allowed range is refused, one at its end is not") {
    CHECK(refused({{{"a", {2, 101}}}, {"y"}}) ==
          "`a` at 101 is outside its allowed range 0 .. 100");
    CHECK(ask(priced_ok(text), {{{"a", {0, 100}}}, {"y"}}).without_answer == 0);
}

TEST_CASE("places run to the end of a range, however the step rounds") {
    CHECK(places({0.1, 0.3}, 0.1)->size() == 3);
    CHECK(places({0.1, 0.3}, 0.1)->back() == 0.3);
    CHECK(*places({1, 2}, 0.4) == std::vector<double>{1, 1.4, 1.8});
    CHECK(*places(Range{1, 2}, std::size_t{3}) == std::vector<double>{1, 1.5, 2});
    CHECK_FALSE(places({0, 1}, 0.0));
    CHECK_FALSE(places({0, 1}, -1.0));
    CHECK(acre::tests::title_of(places({0, 1}, 1e-9).said) ==
          "the grid has more than 4,000,000 cells");
    CHECK_FALSE(places(Range{0, 1}, std::size_t{1}));
}

TEST_CASE("a grid that cannot be is refused in words, before anything is computed") {
    const std::vector<double> thousand(1000, 1.0);
    CHECK(refused({{{"a", thousand}, {"m", {0, 2}}}, {"y"}}) ==
          "`m` cannot take one of the values asked for");
    CHECK(refused({{{"a", thousand}, {"b", std::vector<double>(4001, 1.0)}}, {"y"}}) ==
          "the grid has more than 4,000,000 cells");
    CHECK(refused({{{"a", thousand}, {"b", thousand}}, std::vector<std::string>(17, "y")}) ==
          "1,000,000 cells of 17 lines are more than 16,000,000 answers");
    CHECK(refused({{}, {"y"}}) == "a grid has one to 3 givens, not 0");
    CHECK(refused({{{"a", {1}}, {"a", {2}}}, {"y"}}) == "`a` is named twice");
    CHECK(refused({{{"a", {}}}, {"y"}}) == "no values for `a`");
    CHECK(refused({{{"a", {std::nan("")}}}, {"y"}}) ==
          "`a` cannot take one of the values asked for");
    CHECK(refused({{{"q", {1}}}, {"y"}}) == "no given named `q`");
}

} // namespace grid_test
