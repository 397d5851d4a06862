// What is ripped and what is not, block by block.
#pragma once

#include <vector>

#include "engine/field/layout.h"
#include "engine/field/plane.h"

namespace acre::engine {

// Sets the areas of the layout and of its blocks. `worked`: the field without its headland.
void take_areas(const PlaneField& field, const std::vector<PlanePolygon>& worked,
                const LayoutRequest& request, Layout& layout);

} // namespace acre::engine
