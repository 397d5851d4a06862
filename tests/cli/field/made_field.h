// A field made by hand: rectangles of ground and the pulls that are given.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/field/report.h"

namespace made_field {

using namespace acre;

// `east` and `north`: meters from edge to edge, the middle at 0, 0.
inline engine::PlanePolygon rectangle(double east, double north) {
    engine::PlanePolygon polygon;
    polygon.outer = {{-east / 2, -north / 2},
                     {east / 2, -north / 2},
                     {east / 2, north / 2},
                     {-east / 2, north / 2}};
    return polygon;
}

inline engine::FieldPull pull_of(std::uint32_t row, engine::Point from, engine::Point to,
                                 double feet = 100, std::size_t block = 0) {
    engine::FieldPull pull;
    pull.from = from;
    pull.to = to;
    pull.from_place = {-120 + from.x / 1000, 36 + from.y / 1000};
    pull.to_place = {-120 + to.x / 1000, 36 + to.y / 1000};
    pull.row = row;
    pull.feet = feet;
    pull.block = block;
    return pull;
}

inline engine::FieldBlock block_of(const std::string& name, std::size_t number = 1,
                                   std::size_t order = 1, engine::Point middle = {}) {
    engine::FieldBlock block;
    block.name = name;
    block.file = "fields/home.geojson";
    block.number = number;
    block.pulls = order == 0 ? 0 : 1;
    block.order = order;
    block.middle = middle;
    block.mean = 250;
    return block;
}

// Of one block, with one pull from south to north.
inline engine::FieldAnswer made(double east, double north) {
    engine::FieldAnswer field;
    field.name = "Home";
    field.file = "fields/home.geojson";
    field.spacing = 10;
    field.ground = {rectangle(east, north)};
    field.blocks = {block_of("Home")};
    field.pulls = {pull_of(1, {0, -north / 2}, {0, north / 2})};
    return field;
}

} // namespace made_field
