#include "cli/shared/chart/curves.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include <fmt/format.h>

#include "cli/shared/chart/axis.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

Extent y_extent(const Curves& curves) {
    Extent extent;
    for (const Curve& curve : curves.curves)
        for (const double y : curve.y)
            extent.take(y);
    return extent.with_room();
}

// y at any x, linear between the points; NaN outside or where a neighbour is missing.
double at(const std::vector<double>& x, const std::vector<double>& y, double where) {
    const auto right = std::lower_bound(x.begin(), x.end(), where);
    if (right == x.end())
        return std::numeric_limits<double>::quiet_NaN();
    const auto i = static_cast<std::size_t>(right - x.begin());
    if (i == 0 || *right == where)
        return *right == where ? y[i] : std::numeric_limits<double>::quiet_NaN();
    return y[i - 1] + (y[i] - y[i - 1]) * (where - x[i - 1]) / (x[i] - x[i - 1]);
}

} // namespace

std::string curves_text(const Curves& curves) {
    constexpr std::size_t width = 60;
    constexpr std::size_t height = 18;
    const Extent y = y_extent(curves);
    const double x_low = curves.x.front();
    const double x_high = curves.x.back();
    std::vector<std::string> rows(height, std::string(width, ' '));
    for (std::size_t c = 0; c < curves.curves.size(); ++c)
        for (std::size_t column = 0; column < width; ++column) {
            const double where =
                x_low + (x_high - x_low) * static_cast<double>(column) / (width - 1);
            const double value = at(curves.x, curves.curves[c].y, where);
            if (!std::isfinite(value))
                continue;
            const auto row =
                static_cast<std::size_t>(std::lround((1 - y.share(value)) * (height - 1)));
            char& cell = rows[row][column];
            cell = cell == ' ' ? static_cast<char>('a' + c) : '*';
        }
    std::string out = "  " + lang::terminal_text(curves.title) + "\n";
    for (std::size_t row = 0; row < height; ++row) {
        const bool labelled = row % 4 == 0 || row == height - 1;
        const double value = y.high - (y.high - y.low) * static_cast<double>(row) / (height - 1);
        std::string line = fmt::format(
            "{:>14} |{}", labelled ? lang::quantity_text(value, curves.y_unit) : "", rows[row]);
        while (line.back() == ' ')
            line.pop_back();
        out += line + "\n";
    }
    out += axis_text({x_low, x_high}, curves.x_name, curves.x_unit, 16, width);
    for (std::size_t c = 0; c < curves.curves.size(); ++c)
        out += fmt::format("{:>16} {}\n", static_cast<char>('a' + c),
                           lang::terminal_text(curves.curves[c].name));
    if (curves.curves.size() > 1)
        out += fmt::format("{:>16} more than one\n", '*');
    for (const CurveMark& mark : curves.marks)
        out += "  " + wrap(lang::terminal_text(mark.text), page_width - 2, 2) + "\n";
    return out;
}

namespace {

class Picture {
  public:
    explicit Picture(const Curves& curves)
        : curves_(curves),
          x_{curves.x.front(), curves.x.back()},
          y_(y_extent(curves)) {}

    std::string draw() {
        plot_ = {std::max(60.0, svg_y_labels_width(y_, curves_.y_unit)), width - 24, 42, 372};
        out_ = svg_paper(curves_.title, width,
                         plot_.bottom + 62 +
                             20 * static_cast<double>(curves_.curves.size() + curves_.marks.size()),
                         plot_.left);
        out_ += svg_y_axis(y_, curves_.y_unit, plot_) +
                svg_x_axis(x_, curves_.x_name, curves_.x_unit, plot_);
        for (std::size_t c = 0; c < curves_.curves.size(); ++c)
            curve(c);
        for (const CurveMark& mark : curves_.marks)
            if (std::isfinite(mark.y))
                ring(plot_.x(x_.share(mark.x)), plot_.y(y_.share(mark.y)));
        key();
        return std::move(out_) + "</svg>\n";
    }

  private:
    static constexpr double width = 720;
    const Curves& curves_;
    Extent x_, y_;
    Plot plot_;
    std::string out_;

    template <class... Args> void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }
    void curve(std::size_t c) {
        std::string d;
        bool down = false;
        const std::vector<double>& y = curves_.curves[c].y;
        for (std::size_t i = 0; i < y.size(); ++i) {
            if (std::isfinite(y[i]))
                fmt::format_to(std::back_inserter(d), "{}{:.1f} {:.1f}", down ? "L" : "M",
                               plot_.x(x_.share(curves_.x[i])), plot_.y(y_.share(y[i])));
            down = std::isfinite(y[i]);
        }
        put("<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\" stroke-dasharray=\"{}\" "
            "stroke-linejoin=\"round\"/>\n",
            d, ink(c), dashes(c));
    }
    void ring(double x, double y) {
        put("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4.5\" fill=\"#fffdf7\" stroke=\"#1d1b17\" "
            "stroke-width=\"1.6\"/>\n",
            x, y);
    }
    void key() {
        double y = plot_.bottom + 62;
        for (std::size_t c = 0; c < curves_.curves.size(); ++c, y += 20) {
            put("<path d=\"M{} {:.1f}h34\" stroke=\"{}\" stroke-width=\"2\" "
                "stroke-dasharray=\"{}\"/>\n",
                plot_.left, y - 4, ink(c), dashes(c));
            out_ += svg_text(plot_.left + 44, y, Anchor::Start, curves_.curves[c].name);
        }
        for (const CurveMark& mark : curves_.marks) {
            ring(plot_.left + 17, y - 4);
            out_ += svg_text(plot_.left + 44, y, Anchor::Start, mark.text);
            y += 20;
        }
    }
};

} // namespace

std::string curves_svg(const Curves& curves) {
    return Picture(curves).draw();
}

} // namespace acre::cli
