#include "cli/shared/chart/axis.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/shared/safe_text.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t y_labels = 6;
constexpr double char_width = 6.1; // of the serif at 13
constexpr const char* muted = "fill=\"#57503f\"";

} // namespace

void Extent::take(double value) {
    if (std::isfinite(value)) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
}

Extent Extent::with_room() const {
    if (empty())
        return {0, 1};
    const double room = high > low ? (high - low) * 0.04 : std::max(1.0, std::abs(high) * 0.05);
    return {low - room, high + room};
}

std::vector<double> axis_places(double low, double high, std::size_t count) {
    std::vector<double> places;
    if (!(high > low) || count == 0)
        return {low};
    const double raw = (high - low) / static_cast<double>(count);
    const double power = std::pow(10, std::floor(std::log10(raw)));
    double step = power * 10;
    for (const double digit : {1.0, 2.0, 2.5, 5.0})
        if (digit * power >= raw * 0.999) {
            step = digit * power;
            break;
        }
    for (double k = std::ceil(low / step - 1e-9); k * step <= high + step * 1e-9; ++k)
        places.push_back(k * step);
    return places;
}

std::string axis_text(Extent extent, std::string_view name, std::string_view unit,
                      std::size_t indent, std::size_t width) {
    const std::string low = lang::quantity_text(extent.low, unit);
    const std::string high = lang::quantity_text(extent.high, unit);
    const std::string shown = lang::terminal_text(name);
    const std::size_t taken = lang::text_columns(low + high) + lang::text_columns(shown);
    const std::size_t rest = width > taken + 2 ? width - taken : 2;
    return std::string(indent - 1, ' ') + "+" + std::string(width, '-') + "\n" +
           std::string(indent, ' ') + low + std::string(rest / 2, ' ') + shown +
           std::string(rest - rest / 2, ' ') + high + "\n";
}

std::string_view ink(std::size_t i) {
    constexpr std::array<std::string_view, 8> inks = {"#6b4f2a", "#2f6b3a", "#b2462c", "#2b5a86",
                                                      "#7a3b7a", "#8a7a1c", "#3b7a75", "#555555"};
    return inks[i % inks.size()];
}
std::string_view dashes(std::size_t i) {
    constexpr std::array<std::string_view, 8> all = {"",    "7 4",  "2 3", "9 3 2 3",
                                                     "1 4", "12 5", "5 2", "3 6"};
    return all[i % all.size()];
}

std::string svg_paper(std::string_view title, double width, double height, double left) {
    return fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" "
                       "font-family=\"Georgia, 'Liberation Serif', "
                       "serif\" font-size=\"13\" fill=\"#1d1b17\">\n<title>{2}</title>\n<rect "
                       "width=\"{0}\" height=\"{1}\" "
                       "fill=\"#fffdf7\"/>\n",
                       width, height, markup_text(title)) +
           svg_text(left, 24, Anchor::Start, title, "font-size=\"15\" font-weight=\"bold\"");
}

std::string svg_text(double x, double y, Anchor anchor, std::string_view text,
                     std::string_view more) {
    constexpr std::array<std::string_view, 3> anchors = {"", " text-anchor=\"middle\"",
                                                         " text-anchor=\"end\""};
    return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\"{}{}{}>{}</text>\n", x, y,
                       anchors[static_cast<std::size_t>(anchor)], more.empty() ? "" : " ", more,
                       markup_text(text));
}

double svg_width(std::string_view text) {
    return char_width * static_cast<double>(lang::text_columns(text));
}

std::string svg_x_axis(Extent extent, std::string_view name, std::string_view unit,
                       const Plot& plot) {
    // As many labels as stand side by side.
    const double widest = std::max(svg_width(lang::quantity_text(extent.low, unit)),
                                   svg_width(lang::quantity_text(extent.high, unit))) +
                          16;
    const auto count =
        static_cast<std::size_t>(std::clamp((plot.right - plot.left) / widest, 1.0, 7.0));
    std::string out = fmt::format("<path d=\"M{} {}H{}\" fill=\"none\" stroke=\"#1d1b17\"/>\n",
                                  plot.left, plot.bottom, plot.right);
    for (const double x : axis_places(extent.low, extent.high, count)) {
        out += fmt::format("<path d=\"M{:.1f} {}v5\" stroke=\"#1d1b17\"/>\n",
                           plot.x(extent.share(x)), plot.bottom);
        out += svg_text(plot.x(extent.share(x)), plot.bottom + 19, Anchor::Middle,
                        lang::quantity_text(x, unit));
    }
    return out +
           svg_text((plot.left + plot.right) / 2, plot.bottom + 39, Anchor::Middle, name, muted);
}

std::string svg_y_axis(Extent extent, std::string_view unit, const Plot& plot) {
    std::string out = "<g stroke=\"#ddd3bb\">\n";
    for (const double y : axis_places(extent.low, extent.high, y_labels))
        out += fmt::format("<path d=\"M{} {:.1f}H{}\"/>\n", plot.left, plot.y(extent.share(y)),
                           plot.right);
    out += "</g>\n";
    for (const double y : axis_places(extent.low, extent.high, y_labels))
        out += svg_text(plot.left - 8, plot.y(extent.share(y)) + 4, Anchor::End,
                        lang::quantity_text(y, unit));
    return out + fmt::format("<path d=\"M{} {}V{}\" fill=\"none\" stroke=\"#1d1b17\"/>\n",
                             plot.left, plot.top, plot.bottom);
}

double svg_y_labels_width(Extent extent, std::string_view unit) {
    double widest = 0;
    for (const double y : axis_places(extent.low, extent.high, y_labels))
        widest = std::max(widest, svg_width(lang::quantity_text(y, unit)));
    return widest + 22;
}

} // namespace acre::cli
