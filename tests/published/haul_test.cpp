// Escorts by width and the cost of a move.
#include "tests/published/formulas.h"

namespace haul_test {

using namespace acre::tests;

TEST_CASE("escorts and a move") {
    check_all({
        // Summaries of pilot car associations, seen: California one over 12 ft on its easiest
        // routes until 15 ft; front and rear over 85 ft long; Colorado over 13 and 15 ft.
        {"escort_count(13 ft, first_escort_width(california), 1, more_escorts_width(california), "
         "more_escorts(california))",
         "1", 1, 0},
        {"escort_count(14.5 ft, first_escort_width(california), 1, more_escorts_width(california), "
         "more_escorts(california))",
         "1", 1, 0},
        {"escort_count(15.5 ft, first_escort_width(california), 1, more_escorts_width(california), "
         "more_escorts(california))",
         "1", 2, 0},
        {"pilots_by_size(1, 120 ft, 85 ft, 2)", "1", 2, 0},
        {"pilots_by_size(0, 85 ft, 85 ft, 2)", "1", 0, 0},
        {"escort_count(13 ft, first_escort_width(colorado), 1, more_escorts_width(colorado), "
         "more_escorts(colorado))",
         "1", 0, 0},
        {"escort_count(15.5 ft, first_escort_width(colorado), 1, more_escorts_width(colorado), "
         "more_escorts(colorado))",
         "1", 2, 0},
        // ours, on assumed figures
        {"move_amount(6 h, $185/h, 2, 6 h, $95/h, $140, 4 h, $165/h)", "$", 3050, 1e-9},
        {"2 * move_amount(6 h, $185/h, 2, 6 h, $95/h, $140, 4 h, $165/h)", "$", 6100, 1e-9},
    });
}

} // namespace haul_test
