// A field laid out, in the forms people and machines take it: words, a picture, lines for guidance
// equipment.
#pragma once

#include <string>
#include <vector>

#include "engine/field/laid_field.h"

namespace acre::cli {

using engine::LaidField;

std::string field_text(const LaidField& field, bool color);
// Schema acrewright.field/1. Field by field in cli/README.md.
std::string field_json(const LaidField& field);
// One picture, readable when printed: boundary, pulls, headland, north, scale, acres.
std::string field_svg(const LaidField& field);
// The pulls as GeoJSON lines (RFC 7946) in driving order, each with its number, row and length.
std::string field_lines(const LaidField& field);

} // namespace acre::cli
