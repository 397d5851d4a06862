// A field laid out, in the forms people and machines take it: words, a picture, lines for guidance
// equipment.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/field.h"

namespace acre::cli {

std::string field_text(const engine::FieldAnswer& field, bool color);
// Schema acrewright.field/1. Field by field in cli/README.md.
Document field_json(const engine::FieldAnswer& field);
// One picture, readable when printed: boundary, pulls, headland, north, scale, acres.
std::string field_svg(const engine::FieldAnswer& field);
// The pulls as GeoJSON lines (RFC 7946) in driving order, each with its number, row and length.
std::string field_lines(const engine::FieldAnswer& field);

} // namespace acre::cli
