#include "cli/shared/chart/histogram.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>

#include <fmt/format.h>

#include "cli/shared/chart/axis.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

// Of all trials; an empty histogram counts one, so that its bars have no height.
double all_of(const Histogram& histogram) {
    return std::max(1.0, static_cast<double>(std::accumulate(
                             histogram.bars.begin(), histogram.bars.end(), std::uint64_t{0})));
}
double tallest(const Histogram& histogram) {
    return histogram.bars.empty() ? 0
                                  : static_cast<double>(*std::max_element(histogram.bars.begin(),
                                                                          histogram.bars.end()));
}
Extent extent_of(const Histogram& histogram) {
    const double width = histogram.width > 0 ? histogram.width : 1;
    return {histogram.from, histogram.from + width * static_cast<double>(histogram.bars.size())};
}

} // namespace

std::string histogram_text(const Histogram& histogram) {
    constexpr std::size_t height = 8;
    constexpr std::size_t indent = 16;
    const std::size_t width = histogram.bars.size();
    const double top = std::max(1.0, tallest(histogram));
    std::string out = "  " + wrap(lang::terminal_text(histogram.title), page_width - 2, 2) + "\n";
    for (std::size_t row = 0; row < height; ++row) {
        std::string line = row == 0 ? fmt::format("{:>13.1f} % |", 100 * top / all_of(histogram))
                                    : std::string(indent - 1, ' ') + "|";
        for (const std::uint64_t bar : histogram.bars) {
            // In halves of a row, so that a low bar is seen.
            const double rows =
                static_cast<double>(bar) / top * height - static_cast<double>(height - 1 - row);
            line += rows >= 0.75 ? '#' : rows >= 0.25 || (row == height - 1 && bar > 0) ? '.' : ' ';
        }
        while (line.back() == ' ')
            line.pop_back();
        out += line + "\n";
    }
    out += axis_text(extent_of(histogram), histogram.name, histogram.unit, indent, width);
    std::string signs(width, ' ');
    const Extent extent = extent_of(histogram);
    for (std::size_t m = 0; m < histogram.marks.size(); ++m) {
        const double share = extent.share(histogram.marks[m].x);
        if (share >= 0 && share <= 1)
            signs[static_cast<std::size_t>(
                std::min(share * static_cast<double>(width), static_cast<double>(width - 1)))] =
                static_cast<char>('1' + m);
    }
    signs.erase(signs.find_last_not_of(' ') + 1);
    if (!signs.empty())
        out += std::string(indent, ' ') + signs + "\n";
    for (std::size_t m = 0; m < histogram.marks.size(); ++m)
        out += fmt::format("{:>16} {}\n", m + 1, lang::terminal_text(histogram.marks[m].text));
    return out;
}

std::string histograms_svg(const std::string& title, const std::vector<Histogram>& histograms) {
    constexpr double width = 720;
    constexpr double plot_height = 190;
    double height = 40;
    for (const Histogram& histogram : histograms)
        height += 28 + plot_height + 56 + 20 * static_cast<double>(histogram.marks.size()) + 14;
    std::string out = svg_paper(title, width, height, 60);
    const auto put = [&]<class... Args>(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out), format, std::forward<Args>(args)...);
    };
    double y = 40;
    for (const Histogram& histogram : histograms) {
        const Plot plot{60, width - 40, y + 28, y + 28 + plot_height};
        const Extent extent = extent_of(histogram);
        const double most = tallest(histogram) / all_of(histogram) * 100;
        out += svg_text(plot.left, y + 14, Anchor::Start, histogram.title);
        const Extent heights{0, std::max(most * 1.04, 1e-9)};
        out += svg_y_axis(heights, "%", plot);
        for (std::size_t k = 0; k < histogram.bars.size(); ++k) {
            if (histogram.bars[k] == 0)
                continue;
            const double share = static_cast<double>(histogram.bars[k]) / all_of(histogram) * 100;
            const double left =
                plot.x(static_cast<double>(k) / static_cast<double>(histogram.bars.size()));
            const double right =
                plot.x(static_cast<double>(k + 1) / static_cast<double>(histogram.bars.size()));
            const double top = plot.y(heights.share(share));
            put("<rect x=\"{:.1f}\" y=\"{:.2f}\" width=\"{:.1f}\" height=\"{:.2f}\" "
                "fill=\"#cbb68c\" stroke=\"#6b4f2a\" "
                "stroke-width=\".6\"/>\n",
                left, top, right - left, plot.bottom - top);
        }
        out += svg_x_axis(extent, histogram.name, histogram.unit, plot);
        double key = plot.bottom + 62;
        for (std::size_t m = 0; m < histogram.marks.size(); ++m, key += 20) {
            const double share = extent.share(histogram.marks[m].x);
            if (share >= 0 && share <= 1)
                put("<path d=\"M{:.1f} {:.1f}V{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\" "
                    "stroke-dasharray=\"{}\"/>\n",
                    plot.x(share), plot.top, plot.bottom, ink(m + 1), dashes(m));
            put("<path d=\"M{} {:.1f}h34\" stroke=\"{}\" stroke-width=\"2\" "
                "stroke-dasharray=\"{}\"/>\n",
                plot.left, key - 4, ink(m + 1), dashes(m));
            out += svg_text(plot.left + 44, key, Anchor::Start, histogram.marks[m].text);
        }
        y = key + 8;
    }
    return out + "</svg>\n";
}

} // namespace acre::cli
