// Which blocks of which boundary files a field is made of.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/field/boundary.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::engine {

// Leaves the blocks that have this name, in any case of letters, or the one of this number, counted
// from 1. B902: there is none.
bool take_feature(Boundary& boundary, std::string_view feature, lang::FileId file,
                  lang::Diagnostics& diagnostics);

// Blocks of several files, in order. One at least.
Boundary joined(std::vector<Boundary> boundaries);

// In any case of letters.
bool same_letters(std::string_view a, std::string_view b);

// The number that the text is; 0: it is none.
std::size_t feature_number(std::string_view text);

// How people call a block: by its name, else by its number.
std::string block_name(const Boundary& boundary, std::size_t block);

} // namespace acre::engine
