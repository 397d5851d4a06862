// A boundary laid out in pulls: the figures and the lines that people and machines take from it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/field/laid_field.h"
#include "engine/field/soils.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct FieldQuestion {
    std::vector<BoundaryText> boundaries; // one at least
    std::optional<BoundaryText> soils;    // a map to lay over them
    LayoutRequest request;
    std::optional<double> heading; // degrees; empty: the fastest is looked for (needs a speed)
};

inline constexpr std::size_t most_corners = 400; // of all blocks

struct FieldHeading { // one that was tried
    double heading = 0, hours = 0;
    double loss = 0; // more time than the fastest takes, a share of that
    std::size_t turns = 0;
};

struct FieldPull {
    Point from, to; // m east and north of the middle of the field
    LonLat from_place, to_place;
    std::uint32_t row = 0;  // from 1
    std::size_t block = 0;  // into FieldAnswer::blocks
    bool point_row = false; // short, against a slanting edge
    double feet = 0;
};

struct FieldBlock {
    std::string name;       // of its feature, or "block 2"
    std::string file;       // that it comes from
    std::size_t number = 0; // of the feature in that file, from 1
    std::vector<BoundaryProperty> properties;
    double net = 0, gross = 0, holes = 0; // ac; with what is not ripped they add up as the whole's
    double unripped_headland = 0, unripped_row_ends = 0, unripped_gaps = 0;
    double travel = 0, mean = 0;            // mi in the ground; ft a pull
    std::optional<double> ripping, turning; // h, without the way from another block
    std::size_t pulls = 0, turns = 0;
    std::size_t order = 0;      // of work, from 1; 0: no pull
    std::size_t first_pull = 0; // into FieldAnswer::pulls, if it has one
    Point middle;               // m east and north, inside the block's extent
};

struct FieldCorner { // of an outer edge, where it bends
    Point at;        // m east and north of the middle of the field
    LonLat place;
};

struct FieldSoil { // the ground of one soil in a block
    std::size_t block = 0;
    std::string soil;        // empty: none on the map
    std::size_t feature = 0; // its first in the map, from 1; 0: none
    std::vector<BoundaryProperty> properties;
    double ground = 0, net = 0; // ac; without headland, ripped
    double travel = 0;          // mi
    double pulls = 0;           // a share of the block's, by travel
};

struct FieldAnswer {
    std::string name, file;               // name: of the feature, or empty
    double net = 0, gross = 0, holes = 0; // ac; net: ripped, and so paid
    double doubled = 0;                   // ac of net that two pulls rip
    // ac, of the ground without holes: as of Unripped. With net and holes they add up to gross.
    double unripped_headland = 0, unripped_row_ends = 0, unripped_gaps = 0;
    double edge = 0;                                // ft, all outer edges
    LonLat middle;                                  // of the extent
    std::vector<std::string> kept_off;              // "within 25 ft of Gas line"
    double heading = 0;                             // degrees from true north
    double spacing = 0, headland = 0, row_ends = 0; // ft
    double shortest = 0, mean = 0, longest = 0;     // ft, of the pulls
    double travel = 0, moving = 0;                  // mi: in the ground; pull to pull
    double travel_per_acre = 0;                     // ft/ac, in the ground
    // h, h, h, ac/h; empty without a speed. Turning: within cells; between: from cell to cell.
    std::optional<double> ripping, turning, between, pace;
    std::size_t rows = 0, turns = 0, lifts = 0, point_rows = 0; // as of Layout
    std::size_t loops = 0, skip = 1;                            // as of Layout
    std::size_t cells = 1;                                      // swept back and forth one by one
    std::vector<FieldHeading> headings; // fastest first; empty if the heading was given
    std::vector<std::string> repairs;   // of the boundary, each to be shown
    std::vector<FieldPull> pulls;       // in driving order; one at least
    std::vector<FieldBlock> blocks;     // as the files list them; one at least
    std::vector<FieldSoil> soils;       // by block; empty without a map
    std::vector<PlanePolygon> ground, worked;
    std::vector<std::vector<FieldCorner>> corners; // of each outer edge
    std::vector<std::size_t> corners_of;           // the block of each edge
    std::size_t corners_left_out = 0;              // past most_corners

    const std::string& called() const { return name.empty() || blocks.size() > 1 ? file : name; }
};

lang::Outcome<FieldAnswer> ask(const FieldQuestion& question);

// The same of a field that a job has laid out.
FieldAnswer field_answer(const LaidField& field);

// "Nothing is ripped within 25 ft of Gas line, in Pond"; empty: nothing is kept off.
std::string not_ripped_text(const std::vector<std::string>& kept_off);

// Corners of a ring that bend it by half a metre or more.
std::vector<FieldCorner> field_corners(const PlaneField& field, const PlaneRing& ring);

} // namespace acre::engine
