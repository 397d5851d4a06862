// What an editor shows of the word under the cursor, in plain text.
#pragma once

#include <optional>
#include <string>

#include "cli/editor/workspace.h"

namespace acre::cli {

struct Hover {
    std::string text; // lines; safe to show
    std::uint32_t begin = 0, end = 0;
};

// A name: label, value now, unit, who set it, where and why, its formula or source. A word of the
// notation: what it is for. A unit: what it is.
std::optional<Hover> hover_at(const TextView& view, const std::string& file, std::string_view text,
                              std::uint32_t offset);

// A function as it is called: "fuel_by_pamphlet (power : hp, …) : gal/h".
std::string signature_of(const engine::Symbol& symbol);

} // namespace acre::cli
