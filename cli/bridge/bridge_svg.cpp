#include "cli/bridge/bridge_svg.h"
#include "cli/shared/text/figures.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/bridge/bridge_text.h"
#include "cli/shared/chart/axis.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

double dollars(std::int64_t cents) {
    return static_cast<double>(cents) / 100;
}

// A line of words, and below it the bar: from the old price over every step to the new one.
class Picture {
  public:
    explicit Picture(const engine::BridgeAnswer& bridge)
        : bridge_(bridge),
          paper_("From one price to the other, in " + bridge.unit) {
        Extent steps;
        std::int64_t at = bridge.before.cents;
        steps.take(dollars(at));
        for (const engine::BridgeRow& row : bridge.rows)
            steps.take(dollars(at += row.cents));
        extent_ = steps.with_room();
        double figures = drawn_width(lang::cents_text(bridge.after.cents), Weight::Bold);
        figures =
            std::max(figures, drawn_width(lang::cents_text(bridge.before.cents), Weight::Bold));
        for (const engine::BridgeRow& row : bridge.rows)
            figures = std::max(figures, drawn_width(money_change(row.cents)));
        plot_ = {paper_edge, paper_width - paper_edge - figures - 8, 0, 0};
        y_ = paper_.below_title() + 8;
    }

    std::string draw() {
        end(bridge_.before);
        std::int64_t at = bridge_.before.cents;
        for (const engine::BridgeRow& row : bridge_.rows) {
            step(row, dollars(at), dollars(at + row.cents));
            at += row.cents;
        }
        end(bridge_.after);
        plot_.bottom = y_ + 2;
        double y = draw_x_axis(paper_, extent_, "price; the axis does not start at zero",
                               bridge_.unit, plot_) +
                   4;
        paper_.box(paper_edge, y - 12, 24, 13, Ink::Ink);
        paper_.text(paper_edge + 32, y, "+ more");
        paper_.box(paper_edge + 120, y - 12, 24, 13, Ink::Paper, Ink::Ink);
        paper_.text(paper_edge + 152, y, "- less");
        return std::move(paper_).finish(y + 14);
    }

  private:
    static constexpr double bar = 16, gap = 12;
    const engine::BridgeAnswer& bridge_;
    Paper paper_;
    Extent extent_;
    Plot plot_;
    double y_ = 0;

    double x(double value) const { return plot_.x(extent_.share(value)); }

    void end(const engine::BridgeSide& side) {
        y_ = paper_.lines(paper_edge, y_ + 14, paper_width - 2 * paper_edge, side.label, Ink::Ink,
                          Weight::Bold) -
             12;
        const double value = x(dollars(side.cents));
        paper_.box(plot_.left, y_, value - plot_.left, bar, Ink::Ground);
        paper_.text(value + 6, y_ + 13, lang::cents_text(side.cents), Anchor::Start, Ink::Ink,
                    Weight::Bold);
        y_ += bar + gap;
    }

    void step(const engine::BridgeRow& row, double from, double to) {
        const double top = y_ - gap;
        y_ =
            paper_.lines(paper_edge, y_ + 14, paper_width - 2 * paper_edge, bridge_row_words(row)) -
            12;
        paper_.path(fmt::format("M{:.1f} {:.1f}V{:.1f}", x(from), top, y_), Ink::Soft, 1, "3 3");
        const double left = std::min(x(from), x(to));
        const double width = std::max(1.5, std::abs(x(to) - x(from)));
        paper_.box(left, y_, width, bar, row.cents > 0 ? Ink::Ink : Ink::Paper, Ink::Ink);
        paper_.text(left + width + 6, y_ + 13, money_change(row.cents));
        y_ += bar + gap;
    }
};

} // namespace

std::string bridge_svg(const engine::BridgeAnswer& bridge) {
    return Picture(bridge).draw();
}

} // namespace acre::cli
