#include "engine/field/cell_chain.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace acre::engine {
namespace {

constexpr std::size_t most_exact = 6;
constexpr std::size_t most_starts = 24;
constexpr std::size_t most_searched = 400;
constexpr double farthest = std::numeric_limits<double>::infinity();

double distance(Point a, Point b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

double square(Point a, Point b) {
    return (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y);
}

// The shortest chain through each set of cells that ends in a cell one way (Held and Karp 1962).
std::vector<CellWay> shortest_chain(const std::vector<CellEnds>& cells) {
    struct Best {
        double length = farthest;
        std::size_t before = 0;
    };
    const std::size_t states = cells.size() * ways_through;
    std::vector<Best> best((std::size_t{1} << cells.size()) * states);
    const auto at = [&](std::size_t set, std::size_t state) -> Best& {
        return best[set * states + state];
    };
    for (std::size_t state = 0; state < states; ++state)
        at(std::size_t{1} << (state / ways_through), state).length =
            cells[state / ways_through][state % ways_through].inside;
    const std::size_t all = (std::size_t{1} << cells.size()) - 1;
    for (std::size_t set = 1; set <= all; ++set)
        for (std::size_t from = 0; from < states; ++from) {
            const double length = at(set, from).length;
            if (length == farthest)
                continue;
            const Point out = cells[from / ways_through][from % ways_through].out;
            for (std::size_t to = 0; to < states; ++to) {
                const std::size_t bit = std::size_t{1} << (to / ways_through);
                if ((set & bit) != 0)
                    continue;
                const Way& next_way = cells[to / ways_through][to % ways_through];
                const double longer = length + distance(out, next_way.in) + next_way.inside;
                if (Best& next = at(set | bit, to); longer < next.length)
                    next = {longer, from};
            }
        }
    std::size_t state = 0;
    for (std::size_t other = 1; other < states; ++other)
        if (at(all, other).length < at(all, state).length)
            state = other;
    std::vector<CellWay> chain;
    for (std::size_t set = all; set != 0;) {
        chain.push_back({state / ways_through, state % ways_through});
        const std::size_t before = at(set, state).before;
        set &= ~(std::size_t{1} << (state / ways_through));
        state = before;
    }
    std::reverse(chain.begin(), chain.end());
    return chain;
}

std::vector<CellWay> nearest_chain(const std::vector<CellEnds>& cells, CellWay first) {
    std::vector<CellWay> chain{first};
    std::vector<bool> driven(cells.size());
    driven[first.cell] = true;
    while (chain.size() < cells.size()) {
        const Point out = cells[chain.back().cell][chain.back().way].out;
        CellWay next;
        double nearest = farthest;
        for (std::size_t cell = 0; cell < cells.size(); ++cell)
            for (std::size_t way = 0; way < ways_through && !driven[cell]; ++way)
                if (const double far = square(out, cells[cell][way].in); far < nearest) {
                    nearest = far;
                    next = {cell, way};
                }
        driven[next.cell] = true;
        chain.push_back(next);
    }
    return chain;
}

std::vector<CellWay> as_they_come(std::size_t cells) {
    std::vector<CellWay> chain(cells);
    for (std::size_t cell = 0; cell < cells; ++cell)
        chain[cell].cell = cell;
    return chain;
}

} // namespace

double way_between(const std::vector<CellEnds>& cells, const std::vector<CellWay>& chain) {
    double sum = 0;
    for (std::size_t i = 0; i < chain.size(); ++i) {
        const Way& way = cells[chain[i].cell][chain[i].way];
        sum += way.inside;
        if (i > 0)
            sum += distance(cells[chain[i - 1].cell][chain[i - 1].way].out, way.in);
    }
    return sum;
}

std::vector<CellWay> chain_cells(const std::vector<CellEnds>& cells) {
    if (cells.empty() || cells.size() > most_searched)
        return as_they_come(cells.size());
    if (cells.size() <= most_exact)
        return shortest_chain(cells);
    // Fewer first cells where each chain takes longer.
    const std::size_t starts =
        std::clamp<std::size_t>(most_starts * most_starts / cells.size(), 1, most_starts);
    std::vector<CellWay> best;
    double shortest = farthest;
    for (std::size_t i = 0; i < std::min(starts, cells.size() * ways_through); ++i) {
        const std::size_t state = i * cells.size() * ways_through / starts;
        std::vector<CellWay> chain =
            nearest_chain(cells, {state / ways_through, state % ways_through});
        if (const double way = way_between(cells, chain); way < shortest) {
            shortest = way;
            best = std::move(chain);
        }
    }
    return best;
}

} // namespace acre::engine
