// Uses the notation alone: no engine is linked.
#include "lang/units/catalog.h"

int main() {
    const acre::lang::UnitCatalog catalog;
    acre::lang::UnitError error;
    return acre::lang::read_unit("$/ac", catalog, error) &&
                   !acre::lang::read_unit("$/acer", catalog, error)
               ? 0
               : 1;
}
