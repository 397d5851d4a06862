// The table of built-in units, worked out once. For this folder only.
#pragma once

#include <string_view>
#include <unordered_map>
#include <vector>

#include "lang/units/unit.h"

namespace acre::lang {

struct BuiltinUnit {
    std::string_view name;
    Unit unit;
    bool shown;            // may stand in a text the program writes
    std::string_view kind; // what it measures: "length"
    std::string_view of;   // the unit that it is so many of: "ft"; empty: a base
    double times;
};

const std::vector<BuiltinUnit>& builtin_units();      // in the order of catalog.def
const Unit* find_builtin_unit(std::string_view name); // none: nullptr
Unit base_unit(std::size_t base);

} // namespace acre::lang
