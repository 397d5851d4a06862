// What may stand at the cursor: names in scope, units of the kind that is wanted, words, functions
// with what they take, options of a choice, models and seasons.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cli/editor/workspace.h"

namespace acre::cli {

struct Suggestion {
    enum class Kind : std::uint8_t { Name, Function, Unit, Word, Option, File };
    Kind kind = Kind::Name;
    std::string text;   // what is written
    std::string detail; // "39.34 gal/h, fuel burn"
};

std::vector<Suggestion> suggestions_at(const Workspace& workspace, const TextView& view,
                                       const std::string& file, std::string_view text,
                                       std::uint32_t offset);

} // namespace acre::cli
