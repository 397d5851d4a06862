// Curves over one quantity: for a terminal, and as an SVG picture that reads in black and white.
#pragma once

#include <string>
#include <vector>

namespace acre::cli {

struct Curve {
    std::string name;      // safe text is made of it here
    std::vector<double> y; // at each x; NaN: nothing there
};
struct CurveMark {
    double x = 0, y = 0;
    std::string text; // "same price at 41.2 ac"
};
struct Curves {
    std::string title, x_name, x_unit, y_unit;
    std::vector<double> x;     // rising
    std::vector<Curve> curves; // at most 8
    std::vector<CurveMark> marks;
};

// 80 columns wide, letters for points: a, b, c …
std::string curves_text(const Curves& curves);
std::string curves_svg(const Curves& curves);

} // namespace acre::cli
