// How often a value fell where: columns for a terminal, and as an SVG picture that reads in black
// and white.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace acre::cli {

enum class MarkKind : std::uint8_t { Job, Middle, Edge, Nothing };
struct HistogramMark {
    double x = 0;
    std::string text; // "median: $840.00/ac"
    MarkKind kind =
        MarkKind::Job; // Middle and Edge of the trials; Nothing: neither loss nor profit
};
struct Histogram {
    std::string title, name, unit;
    double from = 0, width = 0; // bar k covers from + k width
    std::vector<std::uint64_t> bars;
    std::vector<HistogramMark> marks; // at most 9: 1 … 9 on a terminal
    bool loss_below_zero = false;
};

// 80 columns wide.
std::string histogram_text(const Histogram& histogram);
// One below the other in one picture.
std::string histograms_svg(const std::string& title, const std::vector<Histogram>& histograms);

} // namespace acre::cli
