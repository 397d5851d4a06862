// Ground that the shank stays off: so far from a line, a point or a piece of ground of the boundary
// file as its property `keep_off` says.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "engine/field/plane.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/span.h"

namespace acre::engine {

inline constexpr std::size_t most_keep_off_points = 5'000;

// "25 ft" in metres; empty: no length with its unit from 0 ft to 1,000 ft.
std::optional<double> meters_to_keep_off(std::string_view text);
// B905: what a feature says instead.
lang::Diagnostic no_distance(std::string_view text, lang::Span span);

// Takes it off the ground. False: nothing is left (B909), or it is too ragged (B907).
bool keep_off(const Boundary& boundary, PlaneField& field, lang::FileId file,
              lang::Diagnostics& diagnostics);

// What is kept off near this ground: a file may have that of blocks that are not laid out.
std::vector<const BoundaryMark*> kept_off_near(const Boundary& boundary, const PlaneField& field);

} // namespace acre::engine
