// Columns side by side at each place: hours or money by month. An SVG picture that reads in black
// and white.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/shared/chart/paper.h"

namespace acre::cli {

struct ColumnSeries {
    std::string name; // safe text is made of it here
    Ink fill = Ink::Ground;
    std::optional<Ink> edge;
    std::vector<double> value; // by place; from zero up
};
struct ColumnChart {
    std::string title, unit;
    std::vector<std::string> places; // "Jun"; from left to right
    std::vector<std::string> below;  // by place, a line further down: the year where it begins
    std::vector<ColumnSeries> series;
};

std::string columns_svg(const ColumnChart& chart);

} // namespace acre::cli
