// The built-in units for people: what each measures, what it is so many of, and how else it may be
// written.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace acre::lang {

struct Measure {
    std::string_view name; // "ac"; of a word that means a unit made of others, that unit: "mi/h"
    std::string_view kind; // "area"
    std::string is;        // "43,560 ft^2"; empty: a base
    std::vector<std::string_view> spellings; // "acre", "acres"
};

// In the order of the catalog; then the words for units made of others.
std::vector<Measure> measures();

} // namespace acre::lang
