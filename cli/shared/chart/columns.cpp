#include "cli/shared/chart/columns.h"

#include <algorithm>

#include "cli/shared/chart/axis.h"

namespace acre::cli {
namespace {

class ColumnsPicture {
  public:
    explicit ColumnsPicture(const ColumnChart& chart) : chart_(chart), paper_(chart.title) {
        extent_.take(0);
        for (const ColumnSeries& series : chart.series)
            for (const double value : series.value)
                extent_.take(value);
        extent_.high = extent_.high > 0 ? extent_.high * 1.05 : 1;
        plot_ = {y_figures_width(extent_, chart.unit), paper_width - paper_edge,
                 paper_.below_title() + 8, paper_.below_title() + 8 + height};
        group_ = (plot_.right - plot_.left) /
                 static_cast<double>(std::max<std::size_t>(1, chart.places.size()));
    }

    std::string draw() {
        draw_y_axis(paper_, extent_, chart_.unit, plot_);
        for (std::size_t place = 0; place < chart_.places.size(); ++place)
            columns(place);
        paper_.path("M" + std::to_string(plot_.left) + " " + std::to_string(plot_.bottom) + "H" +
                        std::to_string(plot_.right),
                    Ink::Ink);
        places();
        double y = plot_.bottom + 2 * line_height + 24;
        for (const ColumnSeries& series : chart_.series) {
            paper_.box(paper_edge, y - 12, 24, 13, series.fill, series.edge);
            y = paper_.lines(paper_edge + 32, y, paper_width - 2 * paper_edge - 32, series.name);
        }
        return std::move(paper_).finish(y);
    }

  private:
    static constexpr double height = 200;
    const ColumnChart& chart_;
    Paper paper_;
    Extent extent_;
    Plot plot_;
    double group_ = 0;

    double middle(std::size_t place) const {
        return plot_.left + group_ * (static_cast<double>(place) + 0.5);
    }
    void columns(std::size_t place) {
        const auto count = static_cast<double>(chart_.series.size());
        const double width = std::min(32.0, group_ * 0.8 / count);
        double x = middle(place) - width * count / 2;
        for (const ColumnSeries& series : chart_.series) {
            const double top = plot_.y(extent_.share(series.value[place]));
            if (series.value[place] > 0)
                paper_.box(x, top, width * 0.9, plot_.bottom - top, series.fill, series.edge);
            x += width;
        }
    }
    // As many names as do not touch.
    void places() {
        double taken = 0;
        for (std::size_t place = 0; place < chart_.places.size(); ++place) {
            const std::string& name = chart_.places[place];
            const double half = drawn_width(name) / 2;
            if (middle(place) - half >= taken) {
                paper_.text(middle(place), plot_.bottom + line_height, name, Anchor::Middle);
                taken = middle(place) + half + 5;
            }
        }
        taken = 0;
        for (std::size_t place = 0; place < chart_.below.size(); ++place) {
            const double half = drawn_width(chart_.below[place]) / 2;
            if (chart_.below[place].empty() || middle(place) - half < taken)
                continue;
            paper_.text(middle(place), plot_.bottom + 2 * line_height, chart_.below[place],
                        Anchor::Middle, Ink::Soft);
            taken = middle(place) + half + 5;
        }
    }
};

} // namespace

std::string columns_svg(const ColumnChart& chart) {
    return ColumnsPicture(chart).draw();
}

} // namespace acre::cli
