// Units that somebody may have meant who wrote a word that is none.
#pragma once

#include <string_view>
#include <vector>

#include "lang/units/catalog.h"

namespace acre::lang {

struct NearUnit {
    std::string_view unit; // as it is written here: "acer" is near to acre, which is ac
    bool slip = false;     // the same letters; with another, or one more, a short word is another
                           // word: `man` is not `min`
};

// The nearest first.
std::vector<NearUnit> near_units(std::string_view word, const UnitCatalog& catalog);

} // namespace acre::lang
