// The critical depths of shanks in many grounds at once: where, of the depths `depth × i / 400` and
// the bottoms of layers, the draft of each is least.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "engine/native/native.h"
#include "engine/native/shank_physics.h"

namespace acre::engine::shank {

inline constexpr double grid_steps = 400;
inline constexpr double grid_step = 1 / grid_steps;

// Which layers are there, and which of them go on in the ground of the one before, as bits by
// layer. A layer of no thickness is not there.
struct Pattern {
    std::uint8_t there = 0, goes_on = 0;
    friend auto operator<=>(const Pattern&, const Pattern&) = default;
};
static_assert(most_draft_layers <= 8);

// By lane. NaN where there is no answer.
struct LeastRows {
    double* draft;
    double* critical_depth;
    double* slot;       // its part of the draft
    double* down_force; // of the crescent
    double* crescent;   // its part of the draft
    double* grid;       // depth × grid / 400; -1: the bottom of a layer
};

// Of these lanes of the columns; `pattern` holds in all of them, and their depths are above zero.
// bits: of the widest vectors that may be used, all of which give the same answers.
void least_drafts(const Ground<NativeColumn>& ground, Pattern pattern,
                  std::span<const std::uint16_t> lanes, std::uint32_t bits, const LeastRows& out);

} // namespace acre::engine::shank
