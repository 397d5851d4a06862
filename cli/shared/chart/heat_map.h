// A line over two givens as shaded cells, one map below the other for the places of a third: an SVG
// picture whose shades run from light to dark, so a black-and-white print reads.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace acre::cli {

struct HeatMap {
    std::string title, unit; // of the line
    std::string x_name, y_name;
    std::vector<std::string> x, y; // the places, as shown; words of the user are made safe here
    struct Map {
        std::string name;          // empty: there is only one
        std::vector<double> value; // y by y, x within; NaN: no answer
    };
    std::vector<Map> maps;
};

inline constexpr std::size_t max_heat_cells = 20'000; // of all maps of one picture

std::string heat_map_svg(const HeatMap& map);

} // namespace acre::cli
