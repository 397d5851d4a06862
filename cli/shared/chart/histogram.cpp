#include "cli/shared/chart/histogram.h"

#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "cli/shared/chart/axis.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
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
    std::string out = paragraph(lang::terminal_text(histogram.title));
    for (std::size_t row = 0; row < height; ++row) {
        std::string line =
            right_aligned(row == 0 ? percent_text(top / all_of(histogram)) + " |" : "|", indent);
        for (const std::uint64_t bar : histogram.bars) {
            // In halves of a row, so that a low bar is seen.
            const double rows =
                static_cast<double>(bar) / top * height - static_cast<double>(height - 1 - row);
            line += rows >= 0.75 ? '#' : rows >= 0.25 || (row == height - 1 && bar > 0) ? '.' : ' ';
        }
        line.erase(line.find_last_not_of(' ') + 1);
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
        out += paragraph(lang::terminal_text(histogram.marks[m].text),
                         right_aligned(std::to_string(m + 1), indent) + " ");
    return out;
}

namespace {

Series series_of(MarkKind kind) {
    switch (kind) {
    case MarkKind::Job:
        return {Ink::Ink, ""};
    case MarkKind::Middle:
        return {Ink::Water, "7 4"};
    case MarkKind::Edge:
        return {Ink::Plum, "2 3"};
    case MarkKind::Nothing:
        return {Ink::Fault, "9 3 2 3"};
    }
    return {};
}

// One histogram from `y` down. The place of what comes after it.
double draw(Paper& paper, const Histogram& histogram, double y) {
    constexpr double plot_height = 190;
    const double all = all_of(histogram);
    const Extent heights{0, std::max(tallest(histogram) / all * 104, 1e-9)};
    const Extent extent = extent_of(histogram);
    y = paper.lines(paper_edge, y, paper_width - 2 * paper_edge, histogram.title) - 8;
    const Plot plot{y_figures_width(heights, "%"), paper_width - paper_edge - 8, y,
                    y + plot_height};
    draw_y_axis(paper, heights, "%", plot);
    const auto count = static_cast<double>(histogram.bars.size());
    for (std::size_t k = 0; k < histogram.bars.size(); ++k) {
        if (histogram.bars[k] == 0)
            continue;
        const double left = plot.x(static_cast<double>(k) / count);
        const double right = plot.x(static_cast<double>(k + 1) / count);
        const double top =
            plot.y(heights.share(static_cast<double>(histogram.bars[k]) / all * 100));
        const double middle = extent.low + (static_cast<double>(k) + 0.5) * histogram.width;
        const bool loss = histogram.loss_below_zero && middle < 0;
        paper.box(left, top, right - left, plot.bottom - top, loss ? Ink::Fault : Ink::Tint,
                  Ink::Ground);
    }
    y = draw_x_axis(paper, extent, histogram.name, histogram.unit, plot) + 4;
    for (const HistogramMark& mark : histogram.marks) {
        const double share = extent.share(mark.x);
        const auto [ink, dashes] = series_of(mark.kind);
        if (share >= 0 && share <= 1)
            paper.path(fmt::format("M{:.1f} {:.1f}V{:.1f}", plot.x(share), plot.top, plot.bottom),
                       ink, 2, dashes);
        y = paper.key(y, {ink, dashes}, mark.text);
    }
    return y + 10;
}

} // namespace

std::string histograms_svg(const std::string& title, const std::vector<Histogram>& histograms) {
    Paper paper(title);
    double y = paper.below_title() + 4;
    for (const Histogram& histogram : histograms)
        y = draw(paper, histogram, y);
    return std::move(paper).finish(y - 8);
}

} // namespace acre::cli
