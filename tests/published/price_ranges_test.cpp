// The table of models/README.md: each example's price as the program has it, between the low end of
// what was published for 2019 and the high end brought to 2027. Sources stand in the table.
#include <cmath>
#include <sstream>

#include "tests/support/demo.h"

namespace acre::tests {
namespace {

constexpr double since_2019 = 1.3; // from memory; 1.27 until 2022 by Missouri Extension G302, 2023

std::vector<std::string> cells_of(const std::string& row) {
    std::vector<std::string> cells;
    std::istringstream in(row.substr(2));
    for (std::string cell; std::getline(in, cell, '|');) {
        const auto begin = cell.find_first_not_of(' ');
        cells.push_back(begin == std::string::npos
                            ? ""
                            : cell.substr(begin, cell.find_last_not_of(' ') - begin + 1));
    }
    return cells;
}

double number(std::string text) {
    text.erase(std::remove(text.begin(), text.end(), ','), text.end());
    return std::stod(text);
}

struct Range {
    double low = 0, high = 0;
};
Range range_of(const std::string& text) { // "300 .. 700"
    const auto dots = text.find(" .. ");
    REQUIRE(dots != std::string::npos);
    return {number(text.substr(0, dots)), number(text.substr(dots + 4))};
}

// "`ripping.rate`", or "`price.total` / `area`"; all in, as the page has it, of whole trees and
// yards
double figure_of(Demo& job, const std::string& text) {
    if (text == "`price.per_unit`")
        return job.estimate().price_per_unit;
    const auto end = text.find('`', 1), next = text.find('`', end + 1);
    const double value = job[text.substr(1, end - 1)];
    if (next == std::string::npos)
        return value;
    return value / job[text.substr(next + 1, text.rfind('`') - next - 1)];
}

TEST_CASE("prices lie where published prices lie, and the table says what they are") {
    int rows = 0;
    std::istringstream in(text_of(std::filesystem::path(ACREWRIGHT_ROOT) / "models/README.md"));
    for (std::string line; std::getline(in, line);) {
        const std::vector<std::string> cells =
            line.starts_with("| `") ? cells_of(line) : std::vector<std::string>{};
        if (cells.size() < 6)
            continue;
        CAPTURE(line);
        ++rows;
        const auto end = cells[0].find('`', 1);
        const std::string name = cells[0].substr(1, end - 1);
        if (name == "16-from-a-map") // its acres come from a boundary: a golden has its price
            continue;
        Demo job(name, end + 3 < cells[0].size() ? cells[0].substr(end + 3) : "");
        const double shown = number(cells[2]);
        CHECK(std::abs(figure_of(job, cells[1]) - shown) < 0.006);
        const Range now = range_of(cells[4]);
        CHECK(shown <= now.high);
        if (cells[3] == "-") {
            CHECK(shown >= now.low);
            continue;
        }
        const Range then = range_of(cells[3]);
        CHECK(shown >= then.low);
        CHECK(now.low == doctest::Approx(then.low * since_2019).epsilon(0.01));
        CHECK(now.high == doctest::Approx(then.high * since_2019).epsilon(0.01));
    }
    CHECK(rows >= 19);
}

} // namespace
} // namespace acre::tests
