// Fields in the plane, in metres, and what is laid over them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "engine/field/layout.h"

namespace plane_shapes {

using namespace acre;
using namespace acre::engine;

// Around a middle in no particular place.
inline PlaneField plane(std::vector<PlanePolygon> polygons) {
    PlaneField field;
    field.middle = {-119.7, 36.6};
    field.polygons = std::move(polygons);
    field.area = plane_area(field.polygons);
    return field;
}
inline PlaneRing rectangle(double x, double y, double width, double height) {
    return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}
inline Layout laid(const PlaneField& field, const LayoutRequest& request) {
    lang::Outcome<Layout> layout = lay_out(field, request);
    REQUIRE(layout);
    return *layout;
}
// Code and title.
inline std::string fault_of(const PlaneField& field, const LayoutRequest& request) {
    const lang::Outcome<Layout> layout = lay_out(field, request);
    CHECK(!layout);
    REQUIRE(layout.said.diagnostics.all().size() == 1);
    const lang::Diagnostic& one = layout.said.diagnostics.all().front();
    return std::string(lang::name_of(one.code)) + " " + one.title;
}

} // namespace plane_shapes
