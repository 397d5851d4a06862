// What all charts share: how far an axis goes and where its labels stand, the paper, the inks.
#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

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

// The line below a chart of a terminal and its ends, for a plot that begins at column `indent`.
std::string axis_text(Extent extent, std::string_view name, std::string_view unit,
                      std::size_t indent, std::size_t width);

// Told apart by dash as well as by ink, so a black-and-white print reads. Both repeat after 8.
std::string_view ink(std::size_t i);
std::string_view dashes(std::size_t i);

// Pieces of an SVG picture. Words of the user are made safe here and nowhere else.
struct Plot { // where the values are drawn, in units of the picture
    double left = 0, right = 0, top = 0, bottom = 0;
    double x(double share) const { return left + (right - left) * share; }
    double y(double share) const { return bottom - (bottom - top) * share; }
};
enum class Anchor { Start, Middle, End };

// Opens the picture and writes its title; the caller closes it with "</svg>\n".
std::string svg_paper(std::string_view title, double width, double height, double left);
// `more`: further attributes, as they stand.
std::string svg_text(double x, double y, Anchor anchor, std::string_view text,
                     std::string_view more = {});
std::string svg_x_axis(Extent extent, std::string_view name, std::string_view unit,
                       const Plot& plot);
std::string svg_y_axis(Extent extent, std::string_view unit, const Plot& plot);
// About how wide a text is drawn.
double svg_width(std::string_view text);
// The left margin that the labels of svg_y_axis need.
double svg_y_labels_width(Extent extent, std::string_view unit);

} // namespace acre::cli
