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
    double passes_per_row = 1; // lines beside each other that rip a row; one and a half: every
                               // other row has two
    double pass_spacing = 0;   // m between them; 0: spread evenly over the spacing
    double speed = 0;          // m/s while ripping and while moving between pulls; 0: no times
    double turn_time = 0;      // s for each turn, on top of the way between the pulls
    double turn_diameter = 0; // m of the circle that the machine turns in, and none tighter; 0: the
                              // way from pull to pull is straight
};

struct Pull {
    Point from, to;
    std::uint32_t row = 0;   // counted from the first line; its passes have the same number
    std::uint32_t block = 0; // of the field
    std::uint32_t cell = 0;  // of the ground, swept back and forth by itself (engine/field/sweep.h)
    bool lifted = false;     // goes on from the pull before it, in its line
    bool point_row = false;  // shorter than half the mean, and an end runs out against a slanting
                             // edge (below 45 degrees)
    double length() const;
};

// m² of the field, holes not counted, that no pull reaches: the headland; what is left at the ends
// of the rows; where half a spacing beside the pulls does not reach.
struct Unripped {
    double headland = 0, row_ends = 0, gaps = 0;
};

// What one block of a field comes to.
struct BlockLayout {
    double gross = 0, ground = 0; // m²: inside its outer edges; without its holes
    double ripped_area = 0;       // m²
    Unripped unripped;
    std::size_t pulls = 0;
    std::size_t first_pull = 0;                // by index of Layout::pulls, if it has pulls
    std::size_t turns = 0;                     // from one of its runs to the next one driven
    double travel = 0;                         // m with the shank in the ground
    double ripping_time = 0, turning_time = 0; // s; the way from another block is not in it
};

struct Layout {
    double ripped_area = 0; // m², within half a spacing of a pull; with `unripped` the whole field
    double doubled_area = 0; // m² of it that the strips of two pulls have
    Unripped unripped;
    std::vector<Pull> pulls;          // in driving order, with direction
    std::vector<PlanePolygon> worked; // the field without holes and headland
    std::size_t cells = 0;
    std::size_t rows = 0;  // lines that have at least one pull
    std::size_t turns = 0; // from one run of pulls to another, each pass a run of its own
    std::size_t lifts = 0; // within a run, over a hole or out of the field and in again
    std::size_t loops = 0; // turns that bend out first: the next pull is nearer than the circle
    std::size_t point_rows = 0;
    std::size_t skip = 1; // the next row driven is this many rows away, where the cell is wide
    double travel = 0;    // m with the shank in the ground
    double between = 0;   // m from pull to pull, shank up
    double shortest = 0, mean = 0, longest = 0; // m, of the pulls
    // s; turning: in the cells, with the way from row to row; between: the way from cell to cell.
    double ripping_time = 0, turning_time = 0, between_time = 0;
    double time() const { return ripping_time + turning_time + between_time; }
    std::vector<BlockLayout> blocks; // by number of the block
};

// B909: no pull fits, or the headland leaves nothing. B910: a request that cannot be, or too many
// pulls. What is said points nowhere: a field in the plane has no text.
lang::Outcome<Layout> lay_out(const PlaneField& field, const LayoutRequest& request);

// The same with the ground that is worked, the field without its headland, already at hand.
lang::Outcome<Layout> lay_out(const PlaneField& field, std::vector<PlanePolygon> worked,
                              const LayoutRequest& request);

// The way from the end of a pull to the beginning of another with no turn tighter than the circle;
// m.
double way_to(const Pull& from, const Pull& to, double turn_diameter);

} // namespace acre::engine
