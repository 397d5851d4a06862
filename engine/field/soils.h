// A map of soils laid over a field with its pulls.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/field/laid_field.h"

namespace acre::engine {

inline constexpr std::size_t most_soils = 200; // different ones that touch the field

// The ground of one soil in one block.
struct SoilGround {
    std::uint32_t block = 0;
    std::string soil;                         // empty: where the map has none
    std::size_t feature = 0;                  // in the map: the soil's first, from 1; 0: none
    std::vector<BoundaryProperty> properties; // of the soil's first feature
    double ground = 0;                        // m², without headland
    double ripped_area = 0;                   // m²
    double travel = 0;                        // m with the shank in the ground
    double pulls = 0;                         // its share of the block's, by travel
};

// A feature's soil is its property `soil`, else its name; where two overlap the first counts. By
// block, then in the order of the map; pieces of less than a square metre are left out. Empty: the
// diagnostics say why.
std::optional<std::vector<SoilGround>> lay_soils(const LaidField& field, BoundaryText map,
                                                 lang::SourceMap& sources,
                                                 lang::Diagnostics& diagnostics);

// What the field has of one soil of the map, all blocks together: `map.feature`, its name in any
// case of letters or the number of its first feature. B902: the field has none of it.
std::optional<SoilGround> ground_within(const LaidField& field, BoundaryText map,
                                        lang::SourceMap& sources, lang::Diagnostics& diagnostics,
                                        KnownBoundaries& known);

} // namespace acre::engine
