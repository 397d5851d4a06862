// A boundary laid out in pulls: the figures and the lines that people and machines take from it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/field/laid_field.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct FieldQuestion {
    std::string file, text; // how the boundary is named, and its GeoJSON
    LayoutRequest request;
    std::optional<double> heading; // degrees; empty: the fastest is looked for (needs a speed)
};

struct FieldHeading { // one that was tried
    double heading = 0, hours = 0;
    double loss = 0; // more time than the fastest takes, a share of that
    std::size_t turns = 0;
};

struct FieldPull {
    Point from, to; // m east and north of the middle of the field
    LonLat from_place, to_place;
    std::uint32_t row = 0;  // from 1
    bool point_row = false; // short, against a slanting edge
    double feet = 0;
};

struct FieldAnswer {
    std::string name, file;               // name: of the feature, or empty
    double net = 0, gross = 0, holes = 0; // ac; net: ripped, and so paid
    // ac, of the ground without holes: as of Unripped. With net and holes they add up to gross.
    double unripped_headland = 0, unripped_row_ends = 0, unripped_gaps = 0;
    double edge = 0;                                // ft, all outer edges
    double heading = 0;                             // degrees from true north
    double spacing = 0, headland = 0, row_ends = 0; // ft
    double shortest = 0, mean = 0, longest = 0;     // ft, of the pulls
    double travel = 0, moving = 0;                  // mi: in the ground; pull to pull
    double travel_per_acre = 0;                     // ft/ac, in the ground
    // h, h, h, ac/h; empty without a speed. Turning: within cells; between: from cell to cell.
    std::optional<double> ripping, turning, between, pace;
    std::size_t rows = 0, turns = 0, lifts = 0, point_rows = 0; // as of Layout
    std::uint32_t skip = 1;                                     // the next row is so many away
    std::size_t cells = 1;                                      // swept back and forth one by one
    std::vector<FieldHeading> headings; // fastest first; empty if the heading was given
    std::vector<std::string> repairs;   // of the boundary, each to be shown
    std::vector<FieldPull> pulls;       // in driving order; one at least
    std::vector<PlanePolygon> ground, worked;

    const std::string& called() const { return name.empty() ? file : name; }
};

lang::Outcome<FieldAnswer> ask(const FieldQuestion& question);

// The same of a field that a job has laid out.
FieldAnswer field_answer(const LaidField& field);

} // namespace acre::engine
