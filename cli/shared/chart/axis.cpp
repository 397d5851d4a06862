#include "cli/shared/chart/axis.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/shared/text/page.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t y_figures = 5;

// As many places as there is room for their figures side by side.
std::vector<double> x_places(Extent extent, std::string_view unit, const Plot& plot) {
    for (std::size_t count = 7; count > 1; --count) {
        const std::vector<double> places = axis_places(extent.low, extent.high, count);
        double width = 0;
        for (const double at : places)
            width = std::max(width, drawn_width(lang::quantity_text(at, unit)) + 14);
        if (places.size() < 2 ||
            plot.x(extent.share(places[1])) - plot.x(extent.share(places[0])) >= width)
            return places;
    }
    return axis_places(extent.low, extent.high, 1);
}

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
    const std::string low = lang::terminal_text(lang::quantity_text(extent.low, unit));
    const std::string high = lang::terminal_text(lang::quantity_text(extent.high, unit));
    const std::string shown = lang::terminal_text(name);
    const std::string before(indent, ' ');
    const std::string line = std::string(indent - 1, ' ') + "+" + std::string(width, '-') + "\n";
    const auto apart = [](std::size_t columns) { return std::string(columns, ' '); };
    const std::size_t ends = lang::text_columns(low + high);
    const std::size_t taken = ends + (shown.empty() ? 0 : lang::text_columns(shown));
    if (taken + 4 <= width) {
        const std::size_t rest = width - taken;
        return line + before + low + apart(rest / 2) + shown + apart(rest - rest / 2) + high + "\n";
    }
    if (ends + 2 <= width)
        return line + before + low + apart(width - ends) + high + "\n" + paragraph(shown, before);
    return line + paragraph(low + " to " + high + ", " + shown, before);
}

double draw_x_axis(Paper& paper, Extent extent, std::string_view name, std::string_view unit,
                   const Plot& plot) {
    paper.path(fmt::format("M{:.1f} {:.1f}H{:.1f}", plot.left, plot.bottom, plot.right), Ink::Ink);
    double taken = 0; // the right end of the last figure
    for (const double at : x_places(extent, unit, plot)) {
        const double x = plot.x(extent.share(at));
        paper.path(fmt::format("M{:.1f} {:.1f}v5", x, plot.bottom), Ink::Ink);
        const std::string figure = lang::quantity_text(at, unit);
        const double half = drawn_width(figure) / 2;
        const double middle = std::clamp(
            x, paper_edge + half, std::max(paper_edge + half, paper_width - paper_edge - half));
        if (middle - half < taken)
            continue;
        paper.text(middle, plot.bottom + line_height, figure, Anchor::Middle);
        taken = middle + half + 6;
    }
    return paper.lines(paper_edge, plot.bottom + 2 * line_height + 2, paper_width - 2 * paper_edge,
                       name, Ink::Soft);
}

void draw_y_axis(Paper& paper, Extent extent, std::string_view unit, const Plot& plot) {
    for (const double at : axis_places(extent.low, extent.high, y_figures)) {
        const double y = plot.y(extent.share(at));
        paper.path(fmt::format("M{:.1f} {:.1f}H{:.1f}", plot.left, y, plot.right), Ink::Rule);
        paper.text(plot.left - 7, y + 5, lang::quantity_text(at, unit), Anchor::End);
    }
    paper.path(fmt::format("M{:.1f} {:.1f}V{:.1f}", plot.left, plot.top, plot.bottom), Ink::Ink);
}

double y_figures_width(Extent extent, std::string_view unit) {
    double widest = 0;
    for (const double y : axis_places(extent.low, extent.high, y_figures))
        widest = std::max(widest, drawn_width(lang::quantity_text(y, unit)));
    return widest + paper_edge + 8;
}

} // namespace acre::cli
