// The unit in which a value is shown where nobody wrote one: a name, never a factor beside a name.
#pragma once

#include <string>

#include "lang/units/catalog.h"

namespace acre::lang {

struct NamedUnit {
    std::string text; // names the unit exactly
    Unit unit;
};

// The unit itself, or where no names make its scale (`5 % * 40 ac`) the usual one of its kind; a
// plain number or a share of any scale is "1" or "%".
NamedUnit named_unit(const UnitCatalog& units, const Unit& unit);

} // namespace acre::lang
