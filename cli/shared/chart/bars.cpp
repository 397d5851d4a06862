#include "cli/shared/chart/bars.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "cli/shared/chart/axis.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

Extent extent_of(const Bars& bars) {
    Extent extent;
    extent.take(bars.base);
    for (const Bar& bar : bars.bars) {
        extent.take(bar.low);
        extent.take(bar.high);
    }
    return extent;
}

} // namespace

std::string bars_text(const Bars& bars) {
    constexpr std::size_t names = 30;
    constexpr std::size_t width = 34;
    const Extent extent = extent_of(bars);
    const auto column = [&](double value) {
        return static_cast<std::size_t>(std::lround(extent.share(value) * (width - 1)));
    };
    const std::size_t base = column(bars.base);
    const std::string low = lang::quantity_text(extent.low, bars.unit);
    const std::string high = lang::quantity_text(extent.high, bars.unit);
    const std::size_t rest =
        width > low.size() + high.size() ? width - low.size() - high.size() : 1;
    std::string out = std::string(2 + names + 1, ' ') + low + std::string(rest, ' ') + high + "\n";
    for (const Bar& bar : bars.bars) {
        std::string row(width, ' ');
        const auto fill = [&](double to, char sign) {
            if (std::isfinite(to))
                for (std::size_t c = std::min(base, column(to)); c <= std::max(base, column(to));
                     ++c)
                    row[c] = sign;
        };
        // Ends on the same side: the nearer one lies over the other.
        const bool low_is_nearer = std::abs(bar.low - bars.base) < std::abs(bar.high - bars.base);
        fill(low_is_nearer ? bar.high : bar.low, low_is_nearer ? '+' : '-');
        fill(low_is_nearer ? bar.low : bar.high, low_is_nearer ? '-' : '+');
        row[base] = '|';
        out += "  " + padded(shortened(lang::terminal_text(bar.name), names), names) + " " + row +
               " " + right_aligned(lang::terminal_text(bar.width), page_width - names - width - 4) +
               "\n";
    }
    return out;
}

std::string bars_svg(const Bars& bars) {
    constexpr double width = 760;
    constexpr double row = 26;
    const Extent extent = extent_of(bars).with_room();
    double names = 120;
    double ends = 30;
    for (const Bar& bar : bars.bars) {
        names = std::max(names, svg_width(shortened(bar.name, 44)));
        ends = std::max({ends, svg_width(bar.at_low), svg_width(bar.at_high)});
    }
    const double top = 60;
    const Plot plot{names + 24 + std::min(ends, 110.0), width - 20 - std::min(ends, 110.0), top,
                    top + row * static_cast<double>(bars.bars.size()) + 6};
    std::string out = svg_paper(bars.title, width, plot.bottom + 78, 16);
    const double base = plot.x(extent.share(bars.base));
    const auto put = [&](const Bar& bar, bool high, double y) {
        const double value = high ? bar.high : bar.low;
        if (!std::isfinite(value) || value == bars.base)
            return;
        const double end = plot.x(extent.share(value));
        fmt::format_to(std::back_inserter(out),
                       "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"15\" fill=\"{}\" "
                       "stroke=\"{}\"/>\n",
                       std::min(base, end), y, std::abs(end - base), high ? "#6b4f2a" : "#efe3c8",
                       "#6b4f2a");
    };
    for (std::size_t i = 0; i < bars.bars.size(); ++i) {
        const Bar& bar = bars.bars[i];
        const double y = plot.top + row * static_cast<double>(i) + 6;
        out += svg_text(16, y + 12, Anchor::Start, shortened(bar.name, 44));
        const bool low_is_nearer = std::abs(bar.low - bars.base) < std::abs(bar.high - bars.base);
        put(bar, low_is_nearer, y);
        put(bar, !low_is_nearer, y);
        // Where both ends lie on one side, the nearer end has its name on the other side of the
        // line.
        for (const bool high : {false, true}) {
            const double value = high ? bar.high : bar.low;
            const double other = high ? bar.low : bar.high;
            if (!std::isfinite(value) || value == bars.base)
                continue;
            const bool right = value > bars.base;
            const bool shares =
                std::isfinite(other) && other != bars.base && (other > bars.base) == right;
            const bool nearer = std::abs(value - bars.base) < std::abs(other - bars.base);
            const bool on_right = shares && nearer ? !right : right;
            const double end = shares && nearer ? base : plot.x(extent.share(value));
            out += svg_text(on_right ? end + 5 : end - 5, y + 12,
                            on_right ? Anchor::Start : Anchor::End, high ? bar.at_high : bar.at_low,
                            "font-size=\"12\" fill=\"#57503f\"");
        }
    }
    fmt::format_to(std::back_inserter(out),
                   "<path d=\"M{:.1f} {}V{}\" stroke=\"#1d1b17\" stroke-width=\"1.5\"/>\n", base,
                   plot.top - 4, plot.bottom);
    out += svg_text(base, plot.top - 9, Anchor::Middle, lang::quantity_text(bars.base, bars.unit));
    out += svg_x_axis(extent, bars.name, bars.unit, plot);
    fmt::format_to(std::back_inserter(out),
                   "<rect x=\"16\" y=\"{0:.1f}\" width=\"22\" height=\"11\" fill=\"#efe3c8\" "
                   "stroke=\"#6b4f2a\"/>\n"
                   "<rect x=\"156\" y=\"{0:.1f}\" width=\"22\" height=\"11\" fill=\"#6b4f2a\" "
                   "stroke=\"#6b4f2a\"/>\n",
                   plot.bottom + 55);
    out += svg_text(44, plot.bottom + 65, Anchor::Start, "at its low end");
    out += svg_text(184, plot.bottom + 65, Anchor::Start, "at its high end");
    return out + "</svg>\n";
}

} // namespace acre::cli
