// The formulas compiled into the program, as the language itself reads them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "lang/diag/diagnostic.h"

namespace acre::cli {

struct WorkedExample {
    std::string call;     // as written
    std::string expected; // as written, with its tolerance
    double value = 0;     // what the engine gives
    std::string text;     // the same as shown
};

struct LibraryEntry {
    std::string name, library; // "field_capacity", "library/field-work"
    std::string label;         // what it gives, in a few words
    std::string signature;     // with units: "field_capacity (speed : mi/h, …) : ac/h"
    std::string unit;
    std::string written; // the whole define
    std::string known;   // how sure its source is, in words
    bool native = false;
    std::vector<std::string> sources, notes;
    std::vector<std::string> tested, limits; // "speed 0.5 mi/h .. 10 mi/h"
    std::vector<WorkedExample> examples;     // evaluated for a named formula only
};

// All formulas, in the order of the library's texts; or the one called `name`, with its examples
// evaluated by the engine. Diagnostics are those of the library itself: none, as its tests prove.
std::vector<LibraryEntry> library_entries(std::string_view name, lang::Diagnostics& diagnostics);

} // namespace acre::cli
