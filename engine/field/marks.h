// Lines and points of a boundary file that lie on its ground: a road, a ditch, a well.
#pragma once

#include "engine/field/plane.h"

namespace acre::engine {

inline constexpr std::size_t most_mark_steps = 20'000'000; // points of marks times edges of ground

// Tells (L844) of those that a pull may go over, for nothing keeps it off.
void tell_of_marks(const Boundary& boundary, const PlaneField& field,
                   const lang::SourceMap& sources, lang::Diagnostics& diagnostics);

} // namespace acre::engine
