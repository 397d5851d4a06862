#include "lang/units/named_unit.h"

#include <utility>

namespace acre::lang {

NamedUnit named_unit(const UnitCatalog& units, const Unit& unit) {
    UnitError error;
    std::string text = units.text(unit);
    if (read_unit(text, units, error) == unit)
        return {std::move(text), unit};
    text = units.usual_text(unit.dim);
    const Unit usual = read_unit(text, units, error).value_or(one);
    return {std::move(text), usual};
}

} // namespace acre::lang
