#include "cli/shared/chart/bars.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/shared/chart/axis.h"
#include "cli/shared/text/table.h"
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

std::string bars_text(const Bars& bars, bool color) {
    constexpr std::size_t width = 34;
    const Extent extent = extent_of(bars);
    const auto column = [&](double value) {
        return static_cast<std::size_t>(std::lround(extent.share(value) * (width - 1)));
    };
    const std::size_t base = column(bars.base);
    const std::string low = lang::terminal_text(lang::quantity_text(extent.low, bars.unit));
    const std::string high = lang::terminal_text(lang::quantity_text(extent.high, bars.unit));
    const std::size_t ends = lang::text_columns(low) + lang::text_columns(high);
    const std::string scale =
        ends < width ? low + std::string(width - ends, ' ') + high : low + " to " + high;
    Table table({{"", Align::Left, true}, {scale, Align::Left}, {"change"}});
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
        table.row({lang::terminal_text(bar.name), row, lang::terminal_text(bar.width)});
    }
    return table.text(color);
}

namespace {

// Two lines to a bar: what it is called and how much it does; the bar between the names of its
// ends.
class BarsPicture {
  public:
    explicit BarsPicture(const Bars& bars)
        : bars_(bars),
          extent_(extent_of(bars).with_room()),
          paper_(bars.title) {
        double ends = 30;
        for (const Bar& bar : bars.bars)
            ends = std::max({ends, drawn_width(bar.at_low), drawn_width(bar.at_high)});
        const double margin = paper_edge + std::min(ends, widest_end) + 6;
        plot_ = {margin, paper_width - margin, paper_.below_title() + 20, 0};
        plot_.bottom = plot_.top + row * static_cast<double>(bars.bars.size()) + 4;
        base_ = plot_.x(extent_.share(bars.base));
    }

    std::string draw() {
        const std::string base = lang::quantity_text(bars_.base, bars_.unit);
        const double half = drawn_width(base) / 2;
        paper_.text(std::clamp(base_, paper_edge + half, paper_width - paper_edge - half),
                    plot_.top - 12, base, Anchor::Middle);
        for (std::size_t i = 0; i < bars_.bars.size(); ++i)
            bar(bars_.bars[i], plot_.top + row * static_cast<double>(i));
        double y = draw_x_axis(paper_, extent_, bars_.name, bars_.unit, plot_) + 4;
        paper_.box(paper_edge, y - 12, 24, 13, Ink::Paper, Ink::Ground);
        paper_.text(paper_edge + 32, y, "low end");
        paper_.box(paper_edge + 120, y - 12, 24, 13, Ink::Ground, Ink::Ground);
        paper_.text(paper_edge + 152, y, "high end");
        return std::move(paper_).finish(y + 14);
    }

  private:
    static constexpr double row = 44, widest_end = 96;
    const Bars& bars_;
    Extent extent_;
    Paper paper_;
    Plot plot_;
    double base_ = 0;

    void bar(const Bar& bar, double y) {
        constexpr double width = paper_width - 2 * paper_edge;
        const std::string amount = fitting(bar.width, width / 2);
        paper_.text(paper_edge, y + 14, fitting(bar.name, width - drawn_width(amount) - 12));
        paper_.text(paper_width - paper_edge, y + 14, amount, Anchor::End, Ink::Soft);
        const bool low_is_nearer = std::abs(bar.low - bars_.base) < std::abs(bar.high - bars_.base);
        put(bar, low_is_nearer, y);
        put(bar, !low_is_nearer, y);
        for (const bool high : {false, true})
            name_end(bar, high, y);
        paper_.path(fmt::format("M{:.1f} {:.1f}v19", base_, y + 19), Ink::Ink, 1.5);
    }
    void put(const Bar& bar, bool high, double y) {
        const double value = high ? bar.high : bar.low;
        if (!std::isfinite(value) || value == bars_.base)
            return;
        const double end = plot_.x(extent_.share(value));
        paper_.box(std::min(base_, end), y + 21, std::abs(end - base_), 15,
                   high ? Ink::Ground : Ink::Paper, Ink::Ground);
    }
    // Where both ends lie on one side, the nearer end has its name on the other side of the line.
    void name_end(const Bar& bar, bool high, double y) {
        const double value = high ? bar.high : bar.low;
        const double other = high ? bar.low : bar.high;
        if (!std::isfinite(value) || value == bars_.base)
            return;
        const bool right = value > bars_.base;
        const bool shares =
            std::isfinite(other) && other != bars_.base && (other > bars_.base) == right;
        const bool nearer = std::abs(value - bars_.base) < std::abs(other - bars_.base);
        const bool on_right = shares && nearer ? !right : right;
        const double end = shares && nearer ? base_ : plot_.x(extent_.share(value));
        paper_.text(on_right ? end + 5 : end - 5, y + 34,
                    fitting(high ? bar.at_high : bar.at_low, widest_end),
                    on_right ? Anchor::Start : Anchor::End, Ink::Soft);
    }
};

} // namespace

std::string bars_svg(const Bars& bars) {
    return BarsPicture(bars).draw();
}

} // namespace acre::cli
