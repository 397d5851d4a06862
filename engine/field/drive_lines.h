// The lines of a field in the order they are driven, with the way and the time that takes.
#pragma once

#include <vector>

#include "engine/field/layout.h"
#include "engine/field/plane.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

bool is_good(const LayoutRequest& request);

// The field without its headland. B909: nothing is left. B910: more work than is done.
lang::Outcome<std::vector<PlanePolygon>> worked_ground(const PlaneField& field,
                                                       const LayoutRequest& request);

// A layout without its areas. The request must be good.
lang::Outcome<Layout> drive_lines(const std::vector<PlanePolygon>& worked,
                                  const LayoutRequest& request);

} // namespace acre::engine
