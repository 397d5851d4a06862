// Bars to both sides of where a line stands: what each given does to it. For a terminal and as an
// SVG picture that reads in black and white.
#pragma once

#include <string>
#include <vector>

namespace acre::cli {

struct Bar {
    std::string name;         // safe text is made of it here
    double low = 0, high = 0; // the line at the low end and at the high end; NaN: no answer there
    std::string at_low, at_high; // what is at those ends: "4 ft", "7 ft"
    std::string width;           // how far apart they are, in words: "$378.00/ac"
};
struct Bars {
    std::string title, name, unit; // of the line
    double base = 0;               // the line as it stands
    std::vector<Bar> bars;
};

// 80 columns wide: `-` to the low end, `+` to the high end, `|` where the line stands.
std::string bars_text(const Bars& bars, bool color = false);
std::string bars_svg(const Bars& bars);

} // namespace acre::cli
