#include "engine/field/cut_lines.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>
#include <span>
#include <utility>

#include "engine/field/layout_faults.h"

namespace acre::engine {
namespace {

struct Edge {
    Point low, high; // low.y < high.y
    std::uint32_t block;
};
struct Crossing {
    double x;
    std::uint32_t block;
    bool slanting; // the edge makes less than 45 degrees with the pull
};
std::vector<Edge> turned_edges(const std::vector<PlanePolygon>& polygons, const Turned& turned) {
    std::vector<Edge> edges;
    const auto add = [&](const PlaneRing& ring, std::uint32_t block) {
        for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
            const Point a = turned.in(ring[i]);
            const Point b = turned.in(ring[i + 1 == n ? 0 : i + 1]);
            if (a.y != b.y)
                edges.push_back(a.y < b.y ? Edge{a, b, block} : Edge{b, a, block});
        }
    };
    for (const PlanePolygon& polygon : polygons) {
        add(polygon.outer, polygon.block);
        for (const PlaneRing& hole : polygon.holes)
            add(hole, polygon.block);
    }
    return edges;
}

// Passes of a row as far as they are whole: with one and a half, every other row has two.
std::size_t passes_of(std::size_t row, double passes) {
    const auto upto = [&](std::size_t rows) {
        return std::floor(static_cast<double>(rows) * passes + 1e-9);
    };
    return static_cast<std::size_t>(upto(row + 1) - upto(row));
}

// Each pass rips up to halfway to the next one, the outer ones up to the edge of the row's strip.
std::vector<Track> tracks_of(double first, std::size_t rows, const LayoutRequest& request) {
    std::vector<Track> tracks;
    for (std::size_t row = 0; row < rows; ++row) {
        const double middle = first + static_cast<double>(row) * request.spacing;
        const std::size_t passes = passes_of(row, request.passes_per_row);
        const double apart = request.pass_spacing > 0
                                 ? request.pass_spacing
                                 : request.spacing / static_cast<double>(passes);
        for (std::size_t pass = 0; pass < passes; ++pass) {
            const double side = static_cast<double>(pass) - static_cast<double>(passes - 1) / 2;
            const double y = middle + side * apart;
            tracks.push_back({y, pass == 0 ? middle - request.spacing / 2 : y - apart / 2,
                              pass + 1 == passes ? middle + request.spacing / 2 : y + apart / 2,
                              static_cast<std::uint32_t>(row)});
        }
    }
    return tracks;
}

// Calls at(track, y) for every track that cuts the edge. An edge owns its low end and not its high
// end, so that a line through a corner counts it once or twice, never wrongly.
template <class At> void visit_tracks(const Edge& edge, const std::vector<Track>& tracks, At&& at) {
    auto track = std::lower_bound(tracks.begin(), tracks.end(), edge.low.y,
                                  [](const Track& one, double value) { return one.y < value; });
    for (; track != tracks.end() && track->y < edge.high.y; ++track)
        at(static_cast<std::size_t>(track - tracks.begin()), track->y);
}

// Where lines cut edges: those of track i are begin_of[i] .. begin_of[i + 1].
struct Cuts {
    std::vector<Crossing> crossings;
    std::vector<std::size_t> begin_of;
};

// Empty: too many. Counted before they are kept: thousands of long edges may cut thousands of rows
// each, and two cuts are a pull.
std::optional<Cuts> cuts_of(const std::vector<Edge>& edges, const std::vector<Track>& tracks) {
    Cuts cuts;
    cuts.begin_of.assign(tracks.size() + 1, 0);
    std::size_t all = 0;
    for (const Edge& edge : edges) {
        visit_tracks(edge, tracks,
                     [&](std::size_t track, double) { ++cuts.begin_of[track + 1], ++all; });
        if (all > 4 * max_pulls)
            return std::nullopt;
    }
    std::partial_sum(cuts.begin_of.begin(), cuts.begin_of.end(), cuts.begin_of.begin());
    cuts.crossings.resize(all);
    std::vector<std::size_t> place(cuts.begin_of.begin(), cuts.begin_of.end() - 1);
    for (const Edge& edge : edges) {
        const double slope = (edge.high.x - edge.low.x) / (edge.high.y - edge.low.y);
        const bool slanting = std::abs(slope) > 1;
        visit_tracks(edge, tracks, [&](std::size_t track, double y) {
            cuts.crossings[place[track]++] = {edge.low.x + (y - edge.low.y) * slope, edge.block,
                                              slanting};
        });
    }
    return cuts;
}

// Of one track: block by block, for blocks that share a fence cut it at the same place. Between the
// first and the second cut a line is inside, and so on.
void take_track(std::span<Crossing> cuts, std::uint32_t track, double row_ends, Lines& lines) {
    constexpr double shortest_pull = 0.01; // m
    std::sort(cuts.begin(), cuts.end(), [](const Crossing& a, const Crossing& b) {
        return a.block != b.block ? a.block < b.block : a.x < b.x;
    });
    const auto before = static_cast<std::ptrdiff_t>(lines.segments.size());
    for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
        const double begin = cuts[i].x + row_ends;
        const double end = cuts[i + 1].x - row_ends;
        if (end - begin >= shortest_pull)
            lines.segments.push_back(
                {track, cuts[i].block, begin, end, cuts[i].slanting || cuts[i + 1].slanting});
    }
    if (!cuts.empty() && cuts.front().block != cuts.back().block)
        std::sort(lines.segments.begin() + before, lines.segments.end(),
                  [](const Segment& a, const Segment& b) { return a.begin < b.begin; });
}

// False: too many pulls.
bool take_segments(Cuts cuts, double row_ends, Lines& lines) {
    std::uint32_t last = std::numeric_limits<std::uint32_t>::max();
    for (std::size_t track = 0; track < lines.tracks.size(); ++track) {
        const std::size_t before = lines.segments.size();
        take_track({cuts.crossings.data() + cuts.begin_of[track],
                    cuts.begin_of[track + 1] - cuts.begin_of[track]},
                   static_cast<std::uint32_t>(track), row_ends, lines);
        if (lines.segments.size() > max_pulls)
            return false;
        const bool any = lines.segments.size() > before;
        lines.rows += any && lines.tracks[track].row != last ? 1 : 0;
        last = any ? lines.tracks[track].row : last;
    }
    return true;
}

} // namespace

std::vector<Segment> cut_tracks(const std::vector<PlanePolygon>& polygons,
                                const std::vector<Track>& tracks, const Turned& turned) {
    Lines lines;
    lines.tracks = tracks;
    std::optional<Cuts> cuts = cuts_of(turned_edges(polygons, turned), tracks);
    if (!cuts || !take_segments(std::move(*cuts), 0, lines))
        return {};
    return std::move(lines.segments);
}

lang::Outcome<Lines> cut_lines(const std::vector<PlanePolygon>& polygons,
                               const LayoutRequest& request, const Turned& turned) {
    const std::vector<Edge> edges = turned_edges(polygons, turned);
    if (edges.empty())
        return nothing_left(request);
    double low = edges[0].low.y;
    double high = edges[0].high.y;
    for (const Edge& edge : edges) {
        low = std::min(low, edge.low.y);
        high = std::max(high, edge.high.y);
    }
    const double first = low + request.first_offset.value_or(request.spacing / 2);
    const double count = std::ceil((high - first) / request.spacing);
    if (!(count >= 1))
        return no_pull_fits(request);
    if (count * request.passes_per_row > static_cast<double>(max_pulls))
        return too_many_pulls(request);
    Lines lines;
    lines.tracks = tracks_of(first, static_cast<std::size_t>(count), request);
    std::optional<Cuts> cuts = cuts_of(edges, lines.tracks);
    if (!cuts || !take_segments(std::move(*cuts), request.row_ends, lines))
        return too_many_pulls(request);
    if (lines.segments.empty())
        return no_pull_fits(request);
    return lines;
}

} // namespace acre::engine
