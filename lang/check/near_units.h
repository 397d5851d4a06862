// Units that somebody may have meant who wrote a word that is none.
#pragma once

#include <string_view>
#include <vector>

#include "lang/units/catalog.h"

namespace acre::lang {

// The nearest first, each as it is written here: "acer" is near to acre, which is ac.
std::vector<std::string_view> near_units(std::string_view word, const UnitCatalog& catalog);

} // namespace acre::lang
