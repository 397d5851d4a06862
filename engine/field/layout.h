// Pulls laid over a field: straight parallel lines at one heading, in the order they are driven.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/field/plane.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_pulls = 200'000;

struct LayoutRequest {
    double spacing = 0;  // m between neighboring pulls or rows; what a row counts as ripped
    double heading = 0;  // degrees clockwise from true north; 0 and 180 are the same lines
    double headland = 0; // m left unworked along every edge
    double row_ends = 0; // m left unworked at both ends of each pull
    std::optional<double> first_offset; // m from the edge of the worked ground to the first pull;
                                        // half a spacing if not said
    double passes_per_row = 1;          // each line is driven so often
    double speed = 0;     // m/s while ripping and while moving between pulls; 0: no times
    double turn_time = 0; // s for each turn, on top of the way between the pulls
    double turn_diameter =
        0; // m the machine needs to turn; wider than the spacing: rows are skipped
};

struct Pull {
    Point from, to;
    std::uint32_t row = 0;  // counted from the first line
    std::uint32_t cell = 0; // of the ground, swept back and forth by itself (engine/field/sweep.h)
    bool point_row = false; // shorter than half the mean, and an end runs out against a slanting
                            // edge (below 45 degrees)
    double length() const;
};

// m² of the field, holes not counted, that no pull reaches: the headland; what is left at the ends
// of the rows; where half a spacing beside the pulls does not reach.
struct Unripped {
    double headland = 0, row_ends = 0, gaps = 0;
};

struct Layout {
    double ripped_area = 0; // m², within half a spacing of a pull; with `unripped` the whole field
    Unripped unripped;
    std::vector<Pull> pulls;          // in driving order, with direction
    std::vector<PlanePolygon> worked; // the field without holes and headland
    std::size_t cells = 0;
    std::size_t rows = 0;  // lines that have at least one pull
    std::size_t turns = 0; // from one run of pulls to another
    std::size_t lifts = 0; // within a run, over a hole or out of the field and in again
    std::size_t point_rows = 0;
    std::uint32_t skip = 1;                     // the next row driven is this many rows away
    double travel = 0;                          // m with the shank in the ground, all passes
    double between = 0;                         // m from pull to pull, shank up
    double shortest = 0, mean = 0, longest = 0; // m, of the pulls
    // s; turning: in the cells, with the way from row to row; between: the way from cell to cell.
    double ripping_time = 0, turning_time = 0, between_time = 0;
    double time() const { return ripping_time + turning_time + between_time; }
};

// B909: no pull fits, or the headland leaves nothing. B910: a request that cannot be, or too many
// pulls. What is said points nowhere: a field in the plane has no text.
lang::Outcome<Layout> lay_out(const PlaneField& field, const LayoutRequest& request);

struct HeadingTime {
    double heading = 0; // degrees
    double time = 0;    // s: ripping, turning and the way between pulls
    double travel = 0;  // m
    std::size_t turns = 0;
};

// Every whole degree from 0 to 179 and the directions of the field's longest edges, fastest first.
// Needs speed > 0.
std::vector<HeadingTime> rank_headings(const PlaneField& field, const LayoutRequest& request);

} // namespace acre::engine
