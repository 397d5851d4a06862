// The order of the cells against every order there is.
#include "engine/field/cell_chain.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <random>
#include <set>
#include <vector>

#include <doctest/doctest.h>

namespace cell_chain_test {

using namespace acre::engine;

namespace {

double between(Point a, Point b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

std::vector<CellEnds> random_cells(std::mt19937& random, std::size_t count) {
    std::uniform_real_distribution<> place(0, 1000), inside(0, 300);
    std::vector<CellEnds> cells(count);
    for (CellEnds& cell : cells)
        for (Way& way : cell)
            way = {{place(random), place(random)}, {place(random), place(random)}, inside(random)};
    return cells;
}

double length_of(const std::vector<CellEnds>& cells, const std::vector<CellWay>& chain) {
    double sum = cells[chain[0].cell][chain[0].way].inside;
    for (std::size_t i = 1; i < chain.size(); ++i) {
        const Way &left = cells[chain[i - 1].cell][chain[i - 1].way],
                  &begun = cells[chain[i].cell][chain[i].way];
        sum += between(left.out, begun.in) + begun.inside;
    }
    return sum;
}

// Of every order and every way through.
double shortest_by_trying(const std::vector<CellEnds>& cells) {
    std::vector<CellWay> chain(cells.size());
    std::vector<std::size_t> order(cells.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    double least = std::numeric_limits<double>::infinity();
    do {
        for (std::size_t ways = 0; ways < std::size_t{1} << (2 * cells.size()); ++ways) {
            for (std::size_t i = 0; i < cells.size(); ++i)
                chain[i] = {order[i], ways >> (2 * i) & 3U};
            least = std::min(least, length_of(cells, chain));
        }
    } while (std::next_permutation(order.begin(), order.end()));
    return least;
}

void each_once(const std::vector<CellWay>& chain, std::size_t cells) {
    std::set<std::size_t> driven;
    for (const CellWay& one : chain) {
        driven.insert(one.cell);
        CHECK(one.cell < cells);
        CHECK(one.way < ways_through);
    }
    CHECK(chain.size() == cells);
    CHECK(driven.size() == cells);
}

} // namespace

TEST_CASE("up to six cells no order is shorter") {
    std::mt19937 random(41);
    for (int trial = 0; trial < 60; ++trial) {
        const auto cells = random_cells(random, 1 + static_cast<std::size_t>(trial % 4));
        const std::vector<CellWay> chain = chain_cells(cells);
        each_once(chain, cells.size());
        CHECK(way_between(cells, chain) == doctest::Approx(length_of(cells, chain)));
        CHECK(way_between(cells, chain) == doctest::Approx(shortest_by_trying(cells)));
    }
    // Six in a row a hundred apart: five ways of a hundred, from whichever end.
    std::vector<CellEnds> row(6);
    for (std::size_t i = 0; i < row.size(); ++i)
        row[i].fill({{100.0 * static_cast<double>(i * 5 % 6), 0},
                     {100.0 * static_cast<double>(i * 5 % 6), 0},
                     7});
    CHECK(way_between(row, chain_cells(row)) == doctest::Approx(5 * 100 + 6 * 7));
}

TEST_CASE("six cells that are driven one way alone are in the best of all 720 orders") {
    std::mt19937 random(59);
    for (int trial = 0; trial < 20; ++trial) {
        auto cells = random_cells(random, 6);
        for (CellEnds& cell : cells)
            cell.fill(cell[0]);
        std::vector<CellWay> chain(6);
        std::vector<std::size_t> order = {0, 1, 2, 3, 4, 5};
        double least = std::numeric_limits<double>::infinity();
        do {
            for (std::size_t i = 0; i < order.size(); ++i)
                chain[i] = {order[i], 0};
            least = std::min(least, length_of(cells, chain));
        } while (std::next_permutation(order.begin(), order.end()));
        CHECK(way_between(cells, chain_cells(cells)) == doctest::Approx(least));
    }
}

TEST_CASE("more cells are chained from the nearest to the nearest, each once") {
    std::mt19937 random(43);
    for (const std::size_t count : {7U, 8U, 30U, 144U, 399U, 400U}) {
        CAPTURE(count);
        const auto cells = random_cells(random, count);
        const std::vector<CellWay> chain = chain_cells(cells);
        each_once(chain, count);
        CHECK(way_between(cells, chain) == doctest::Approx(length_of(cells, chain)));
        // From each cell to the way in that is nearest of those not driven yet.
        std::set<std::size_t> driven{chain[0].cell};
        for (std::size_t i = 1; i < chain.size(); ++i) {
            const Point out = cells[chain[i - 1].cell][chain[i - 1].way].out;
            double nearest = std::numeric_limits<double>::infinity();
            for (std::size_t cell = 0; cell < count; ++cell)
                for (const Way& way : cells[cell])
                    if (!driven.contains(cell))
                        nearest = std::min(nearest, between(out, way.in));
            CHECK(between(out, cells[chain[i].cell][chain[i].way].in) ==
                  doctest::Approx(nearest).epsilon(1e-12));
            driven.insert(chain[i].cell);
        }
    }
    // Past these they stay as they come.
    const std::vector<CellWay> many = chain_cells(random_cells(random, 401));
    each_once(many, 401);
    for (std::size_t i = 0; i < many.size(); ++i)
        CHECK((many[i].cell == i && many[i].way == 0));
    CHECK(chain_cells({}).empty());
}

TEST_CASE("of the chains from several first cells the shortest is taken") {
    // On a line, 1, 2, 4, 8 … apart: only from the near end does the nearest of all come next.
    std::vector<CellEnds> cells(7);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double x = std::ldexp(1, static_cast<int>(i * 3 % 7));
        cells[i].fill({{x, 0}, {x, 0}, 0});
    }
    CHECK(way_between(cells, chain_cells(cells)) == doctest::Approx(63));
}

} // namespace cell_chain_test
