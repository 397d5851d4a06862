// What the charts share: how far an axis goes and where its figures are.
#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/chart/paper.h"

namespace acre::cli {

// What an axis covers.
struct Extent {
    double low = std::numeric_limits<double>::infinity(),
           high = -std::numeric_limits<double>::infinity();
    void take(double value); // what is not finite is left out
    bool empty() const { return !(low <= high); }
    double share(double value) const { return high > low ? (value - low) / (high - low) : 0.5; }
    // With a little room at both ends; 0 to 1 when it is empty.
    Extent with_room() const;
};

// Round places for an axis from low to high, about `count` of them, the ends within.
std::vector<double> axis_places(double low, double high, std::size_t count);

// The line below a chart of a terminal, its ends and its name, for a plot that begins at column
// `indent`; what finds no room beside the ends stands below them.
std::string axis_text(Extent extent, std::string_view name, std::string_view unit,
                      std::size_t indent, std::size_t width);

struct Plot { // where the values are drawn, in units of the picture
    double left = 0, right = 0, top = 0, bottom = 0;
    double x(double share) const { return left + (right - left) * share; }
    double y(double share) const { return bottom - (bottom - top) * share; }
};

// The axis below the plot: figures with their unit, then the name. The place of a line after it.
double draw_x_axis(Paper& paper, Extent extent, std::string_view name, std::string_view unit,
                   const Plot& plot);
// The axis left of the plot, with rules across it.
void draw_y_axis(Paper& paper, Extent extent, std::string_view unit, const Plot& plot);
// The left margin that the figures of draw_y_axis need.
double y_figures_width(Extent extent, std::string_view unit);

} // namespace acre::cli
