// Which picture a grid has, and which it has none of.
#include <doctest/doctest.h>

#include <cstddef>
#include <string>
#include <vector>

#include "cli/grid/grid_page.h"

namespace grid_svg_test {

using namespace acre;

namespace {

engine::Subject quantity(const std::string& called) {
    return {called, "", called, "ft", {}};
}

// Along these many places of each given, with so many lines.
engine::GridAnswer grid(const std::vector<std::size_t>& places, std::size_t lines) {
    engine::GridAnswer grid;
    grid.cells = 1;
    for (std::size_t k = 0; k < places.size(); ++k) {
        engine::GridAnswer::Along along{quantity("given " + std::to_string(k)), {}};
        for (std::size_t i = 0; i < places[k]; ++i)
            along.at.push_back(static_cast<double>(i));
        grid.along.push_back(along);
        grid.cells *= places[k];
    }
    for (std::size_t c = 0; c < lines; ++c) {
        engine::GridAnswer::Column column;
        column.line = quantity("line " + std::to_string(c));
        column.value.assign(grid.cells, 1.5);
        grid.columns.push_back(column);
    }
    return grid;
}

std::string told(const engine::GridAnswer& grid) {
    const lang::Outcome<std::string> picture = cli::grid_svg(grid);
    return picture ? "" : picture.said.diagnostics.all().front().title;
}

std::size_t count(const std::string& text, const std::string& words) {
    std::size_t found = 0;
    for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
        ++found;
    return found;
}

} // namespace

TEST_CASE("over one given up to eight lines are curves, of one unit and from left to right") {
    CHECK(count(*cli::grid_svg(grid({3}, 8)), "stroke-width=\"2\"") == 2 * 8); // and its key
    CHECK(told(grid({3}, 9)) == "a picture shows at most eight curves");
    engine::GridAnswer back = grid({3}, 1);
    back.along[0].at = {2, 1, 0};
    CHECK(told(back) == "a curve needs values in rising order");
    engine::GridAnswer unlike = grid({3}, 2);
    unlike.columns[1].line.unit = "h";
    CHECK(told(unlike) == "a picture shows lines of one unit: `line 1` is in h, not ft");
}

TEST_CASE("one place, the options of a choice and two givens are shaded cells of one line") {
    CHECK(told(grid({3, 2}, 1)).empty());
    CHECK(told(grid({3, 2}, 2)) == "a picture over two givens shows one line: name it with `--of`");
    CHECK(count(*cli::grid_svg(grid({1}, 1)), "<path") == 0);
    engine::GridAnswer choice = grid({2}, 1);
    choice.along[0].given.options = {"one_way", "crossed"};
    choice.along[0].given.unit.clear();
    const std::string svg = *cli::grid_svg(choice);
    CHECK(count(svg, ">one way</text>") == 1);
    CHECK(count(svg, ">crossed</text>") == 1);
    CHECK(count(svg, "down: ") == 0);
    CHECK(count(svg, "<rect x=\"14.00\"") == 1); // no names beside them: they begin at the edge
    CHECK(count(*cli::grid_svg(grid({3, 2}, 1)), "down: given 0; across: given 1") == 1);
}

TEST_CASE("over three givens there is a map for each place of the first") {
    const std::string svg = *cli::grid_svg(grid({3, 2, 4}, 1));
    for (const char* name : {"given 0: 0 ft", "given 0: 1 ft", "given 0: 2 ft"})
        CHECK(count(svg, name) == 1);
    CHECK(count(svg, "down: given 1; across: given 2") == 1);
    CHECK(told(grid({2, 100, 100}, 1)).empty()); // 20,000 cells
    CHECK(told(grid({2, 100, 101}, 1)) == "a picture shows at most 20,000 cells");
}

} // namespace grid_svg_test
