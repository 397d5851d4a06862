#include "lang/units/convert.h"

#include <optional>

#include "lang/units/catalog.h"

namespace acre::lang {
namespace {

Unit unit_of(std::string_view text) {
    static const UnitCatalog units;
    UnitError error{};
    return *read_unit(text, units, error);
}

} // namespace

double convert(double value, std::string_view from, std::string_view to) {
    return conversion(unit_of(from), unit_of(to)).apply(value);
}

} // namespace acre::lang
