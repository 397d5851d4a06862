#include "engine/field/sweep.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "engine/field/cell_chain.h"

namespace acre::engine {
namespace {

struct Piece { // a run before its direction is known
    std::size_t first, last;
    std::uint32_t row;
    double begin, end;
};

std::vector<Piece> pieces_of(const Lines& lines, double reach) {
    std::vector<Piece> pieces;
    for (std::size_t i = 0; i < lines.segments.size(); ++i) {
        const Segment& s = lines.segments[i];
        if (!pieces.empty() && pieces.back().row == s.row && s.begin - pieces.back().end <= reach) {
            pieces.back().last = i;
            pieces.back().end = s.end;
        } else {
            pieces.push_back({i, i, s.row, s.begin, s.end});
        }
    }
    return pieces;
}

// Calls meet(a, b) for the pieces of one row and those of the next that overlap.
template <class Meet>
void visit_overlaps(const std::vector<Piece>& pieces, std::size_t begin, std::size_t middle,
                    std::size_t end, Meet&& meet) {
    for (std::size_t a = begin, b = middle; a < middle && b < end;) {
        if (pieces[a].begin < pieces[b].end && pieces[b].begin < pieces[a].end)
            meet(a, b);
        ++(pieces[a].end < pieces[b].end ? a : b);
    }
}

// Each piece continues the one below it if the two see only each other.
std::vector<std::vector<std::size_t>> cells_of(const std::vector<Piece>& pieces) {
    constexpr std::size_t nobody = std::numeric_limits<std::size_t>::max();
    std::vector<std::size_t> seen_above(pieces.size()), seen_below(pieces.size());
    std::vector<std::size_t> below(pieces.size(), nobody);
    std::size_t begin = 0;
    while (begin < pieces.size()) {
        std::size_t middle = begin;
        while (middle < pieces.size() && pieces[middle].row == pieces[begin].row)
            ++middle;
        std::size_t end = middle;
        while (end < pieces.size() && pieces[end].row == pieces[begin].row + 1)
            ++end;
        visit_overlaps(pieces, begin, middle, end, [&](std::size_t a, std::size_t b) {
            ++seen_above[a];
            ++seen_below[b];
            below[b] = a;
        });
        begin = middle;
    }
    std::vector<std::vector<std::size_t>> cells;
    std::vector<std::size_t> cell(pieces.size());
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (seen_below[i] == 1 && seen_above[below[i]] == 1) {
            cell[i] = cell[below[i]];
        } else {
            cell[i] = cells.size();
            cells.emplace_back();
        }
        cells[cell[i]].push_back(i);
    }
    return cells;
}

// Rows in the order they are driven. A machine that cannot turn into the next row goes `skip` rows
// over and `skip - 1` back, land by land, until every row is done.
std::vector<std::size_t> row_order(const std::vector<std::size_t>& rows, std::uint32_t skip) {
    std::vector<std::size_t> order;
    order.reserve(rows.size());
    const std::size_t land = skip == 1 ? rows.size() : std::size_t{2} * skip;
    for (std::size_t begin = 0; begin < rows.size(); begin += land) {
        const std::size_t size = std::min(land, rows.size() - begin);
        const std::size_t half = skip == 1 ? size : (size + 1) / 2;
        for (std::size_t i = 0; i < half; ++i) {
            order.push_back(rows[begin + i]);
            if (skip != 1 && half + i < size)
                order.push_back(rows[begin + half + i]);
        }
    }
    return order;
}

std::vector<std::vector<std::size_t>> all_in_one(std::size_t pieces) {
    std::vector<std::vector<std::size_t>> cells(1, std::vector<std::size_t>(pieces));
    std::iota(cells.front().begin(), cells.front().end(), 0);
    return cells;
}

Way driven(const std::vector<Piece>& pieces, const std::vector<std::size_t>& order, bool forward,
           const Lines& lines, double spacing) {
    Way way;
    for (std::size_t i = 0; i < order.size(); ++i, forward = !forward) {
        const Piece& piece = pieces[order[i]];
        const double y = lines.first + piece.row * spacing;
        const Point in{forward ? piece.begin : piece.end, y};
        if (i == 0)
            way.in = in;
        else
            way.inside += std::hypot(in.x - way.out.x, in.y - way.out.y);
        way.out = {forward ? piece.end : piece.begin, y};
    }
    return way;
}

} // namespace

Sweep sweep(const Lines& lines, double spacing, double turn_diameter, double reach) {
    Sweep result;
    if (turn_diameter > spacing)
        result.skip =
            static_cast<std::uint32_t>(std::min(64.0, std::ceil(turn_diameter / spacing)));
    const std::vector<Piece> pieces = pieces_of(lines, reach);
    std::vector<std::vector<std::size_t>> cells =
        std::isinf(reach) ? all_in_one(pieces.size()) : cells_of(pieces);
    result.cells = cells.size();
    // Each cell both ways up; the first run goes toward greater x or less.
    std::vector<std::array<std::vector<std::size_t>, 2>> orders(cells.size());
    std::vector<CellEnds> ends(cells.size());
    for (std::size_t c = 0; c < cells.size(); ++c) {
        orders[c][0] = row_order(cells[c], result.skip);
        std::reverse(cells[c].begin(), cells[c].end());
        orders[c][1] = row_order(cells[c], result.skip);
        for (std::size_t way = 0; way < ways_through; ++way) {
            const std::vector<std::size_t>& order = orders[c][way / 2];
            const bool forward = way % 2 == 0;
            ends[c][way] = driven(pieces, order, forward, lines, spacing);
        }
    }
    result.runs.reserve(pieces.size());
    for (const CellWay& next : chain_cells(ends)) {
        bool forward = next.way % 2 == 0;
        for (const std::size_t i : orders[next.cell][next.way / 2]) {
            result.runs.push_back({pieces[i].first, pieces[i].last, forward, next.cell});
            forward = !forward;
        }
    }
    return result;
}

} // namespace acre::engine
