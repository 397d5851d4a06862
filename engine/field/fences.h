// Blocks drawn over each other along a fence.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "engine/field/plane.h"

namespace acre::engine {

inline constexpr double widest_fence_overlap = 1;       // m; wider is ground that was drawn twice
inline constexpr std::size_t most_block_pairs = 20'000; // of blocks whose upright boxes meet

struct Fences {
    double given = 0; // m² taken from a block because an earlier one has it too
    // Two blocks that share more than a strip along a fence: by number.
    struct Doubled {
        std::uint32_t first, second;
        bool inside = false; // the second is all within the first, and not the same
    };
    std::optional<Doubled> doubled;
    bool too_many = false; // blocks that meet, or points of theirs
};

// m; of a strip, half its edge by its width is its area.
double widest_strip(const std::vector<PlanePolygon>& strips);

// Takes from each block what earlier blocks have of it.
Fences part_blocks(std::vector<PlanePolygon>& polygons);

} // namespace acre::engine
