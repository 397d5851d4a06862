// A field laid out, in the forms people and machines take it: words, a picture, lines for guidance
// equipment.
#pragma once

#include <string>
#include <string_view>

#include "cli/shared/reply.h"
#include "engine/questions/field.h"

namespace acre::cli {

std::string field_text(const engine::FieldAnswer& field, bool color);
// Schema acrewright.field/2. Field by field in cli/README.md.
Document field_json(const engine::FieldAnswer& field);
// One picture, readable when printed: boundary, pulls, headland, north, scale, acres.
enum class Corners { Plain, Numbered }; // block by block, as the map's table has them
std::string field_svg(const engine::FieldAnswer& field, Corners corners = Corners::Plain);
// The pulls as GeoJSON lines (RFC 7946) in driving order, each with its number, row, heading and
// length; before them the A-B line of each block.
std::string field_lines(const engine::FieldAnswer& field);
// The same as GPX, with the corners of the blocks.
std::string field_gpx(const engine::FieldAnswer& field);
// A page to print: the picture, the order of work, the corners in degrees.
std::string field_map(const engine::FieldAnswer& field);
// Blocks of a job, one for each block of the field, or for each soil in it; `map`: how the map of
// soils is called; `file`: where they go, a file of values if it is named so. Files below its
// folder are named from there.
std::string field_blocks(const engine::FieldAnswer& field, std::string_view map,
                         std::string_view file);

} // namespace acre::cli
