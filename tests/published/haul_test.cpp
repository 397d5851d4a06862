// Escorts by width and the cost of a move.
#include "tests/published/formulas.h"

namespace haul_test {

using namespace acre::tests;

TEST_CASE("escorts and a move") {
    check_all({
        // Summaries of pilot car associations, seen: California one over 12 ft on its easiest
        // routes until 15 ft; front and rear over 85 ft long; Colorado over 13 and 15 ft.
        {"pilots_by_law(california, 13 ft, 80 ft)", "1", 1, 0},
        {"pilots_by_law(california, 14.5 ft, 80 ft)", "1", 1, 0},
        {"pilots_by_law(california, 15.5 ft, 80 ft)", "1", 2, 0},
        {"pilots_by_law(california, 8.5 ft, 120 ft)", "1", 2, 0},
        {"pilots_by_law(california, 8.5 ft, 85 ft)", "1", 0, 0},
        {"pilots_by_law(colorado, 13 ft, 80 ft)", "1", 0, 0},
        {"pilots_by_law(colorado, 15.5 ft, 80 ft)", "1", 2, 0},
        // Directories of pilot cars, seen: Washington two over 11 ft on two lanes, one over 105 ft;
        // Oregon's green routes one over 12 ft, two over 14 ft; one over 105 ft, two over 120 ft.
        {"pilots_by_law(washington, 11.5 ft, 80 ft)", "1", 2, 0},
        {"pilots_by_law(washington, 10 ft, 110 ft)", "1", 1, 0},
        {"pilots_by_law(oregon, 12.5 ft, 80 ft)", "1", 1, 0},
        {"pilots_by_law(oregon, 8.5 ft, 121 ft)", "1", 2, 0},
        {"pilots_by_law(arizona, 8.5 ft, 120 ft)", "1", 0, 0},
        // A state that is not in the table: at least as many as in any that is.
        {"pilots_by_law(another, 11.5 ft, 86 ft)", "1", 2, 0},
        // ours, on assumed figures
        {"move_amount(6 h, $185/h, 2, 6 h, $95/h, $140, 4 h, $165/h)", "$", 3050, 1e-9},
        {"2 * move_amount(6 h, $185/h, 2, 6 h, $95/h, $140, 4 h, $165/h)", "$", 6100, 1e-9},
    });
}

} // namespace haul_test
