#include "engine/field/sweep.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <tuple>
#include <utility>

#include "engine/field/cell_chain.h"
#include "engine/field/row_order.h"
#include "engine/field/turn.h"

namespace acre::engine {
namespace {

struct Piece { // a run before its direction is known
    std::size_t first, last;
    std::uint32_t track, block;
    double begin, end;
};

std::vector<Piece> pieces_of(const Lines& lines, double reach) {
    std::vector<Piece> pieces;
    for (std::size_t i = 0; i < lines.segments.size(); ++i) {
        const Segment& s = lines.segments[i];
        if (!pieces.empty() && pieces.back().track == s.track && pieces.back().block == s.block &&
            s.begin - pieces.back().end <= reach) {
            pieces.back().last = i;
            pieces.back().end = s.end;
        } else {
            pieces.push_back({i, i, s.track, s.block, s.begin, s.end});
        }
    }
    return pieces;
}

// Calls meet(a, b) for the pieces of one row and those of the next that overlap.
template <class Meet>
void visit_overlaps(const std::vector<Piece>& pieces, std::size_t begin, std::size_t middle,
                    std::size_t end, Meet&& meet) {
    for (std::size_t a = begin, b = middle; a < middle && b < end;) {
        if (pieces[a].begin < pieces[b].end && pieces[b].begin < pieces[a].end &&
            pieces[a].block == pieces[b].block)
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
        while (middle < pieces.size() && pieces[middle].track == pieces[begin].track)
            ++middle;
        std::size_t end = middle;
        while (end < pieces.size() && pieces[end].track == pieces[begin].track + 1)
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

std::vector<std::vector<std::size_t>> all_of_each_block(const std::vector<Piece>& pieces) {
    std::map<std::uint32_t, std::vector<std::size_t>> blocks;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        blocks[pieces[i].block].push_back(i);
    std::vector<std::vector<std::size_t>> cells;
    for (auto& [block, cell] : blocks)
        cells.push_back(std::move(cell));
    return cells;
}

class Driver {
  public:
    Driver(const Lines& lines, const std::vector<Piece>& pieces, double turn_diameter)
        : lines_(lines),
          pieces_(pieces),
          diameter_(turn_diameter) {}

    Way way(const std::vector<std::size_t>& order, bool forward) const {
        Way way;
        Pose at;
        for (std::size_t i = 0; i < order.size(); ++i, forward = !forward) {
            const Piece& piece = pieces_[order[i]];
            const double y = lines_.tracks[piece.track].y;
            const double angle = forward ? 0 : std::numbers::pi;
            const Pose in{{forward ? piece.begin : piece.end, y}, angle};
            if (i == 0)
                way.in = in.at;
            else
                way.inside += turn_length(at, in, diameter_);
            at = {{forward ? piece.end : piece.begin, y}, angle};
        }
        way.out = at.at;
        return way;
    }

    // The pieces of a cell as they are driven, with how many rows over that is.
    std::pair<std::vector<std::size_t>, std::size_t>
    order(const std::vector<std::size_t>& cell) const {
        std::vector<double> y;
        for (const std::size_t piece : cell)
            y.push_back(std::abs(lines_.tracks[pieces_[piece].track].y -
                                 lines_.tracks[pieces_[cell.front()].track].y));
        const std::size_t skip = rows_apart(y, diameter_);
        if (skip == 1)
            return {cell, 1};
        std::vector<std::size_t> over;
        for (const std::size_t i : row_order(cell.size(), skip))
            over.push_back(cell[i]);
        if (way(over, true).inside < way(cell, true).inside)
            return {std::move(over), skip};
        return {cell, 1};
    }

  private:
    const Lines& lines_;
    const std::vector<Piece>& pieces_;
    double diameter_;
};

} // namespace

Sweep sweep(const Lines& lines, double turn_diameter, double reach) {
    Sweep result;
    const std::vector<Piece> pieces = pieces_of(lines, reach);
    const Driver driver(lines, pieces, turn_diameter);
    std::vector<std::vector<std::size_t>> cells =
        std::isinf(reach) ? all_of_each_block(pieces) : cells_of(pieces);
    result.cells = cells.size();
    // Each cell both ways up; the first run goes toward greater x or less.
    std::vector<std::array<std::vector<std::size_t>, 2>> orders(cells.size());
    std::vector<CellEnds> ends(cells.size());
    for (std::size_t c = 0; c < cells.size(); ++c) {
        for (std::vector<std::size_t>& order : orders[c]) {
            std::size_t skip = 1;
            std::tie(order, skip) = driver.order(cells[c]);
            result.skip = std::max(result.skip, skip);
            std::reverse(cells[c].begin(), cells[c].end());
        }
        for (std::size_t way = 0; way < ways_through; ++way)
            ends[c][way] = driver.way(orders[c][way / 2], way % 2 == 0);
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
