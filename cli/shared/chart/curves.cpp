#include "cli/shared/chart/curves.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include <fmt/format.h>

#include "cli/shared/chart/axis.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::text_columns;

Extent y_extent(const Curves& curves) {
    Extent extent;
    for (const Curve& curve : curves.curves)
        for (const double y : curve.y)
            extent.take(y);
    return extent.with_room();
}

// y at any x, linear between the points; NaN outside or where a neighbor is missing.
double at(const std::vector<double>& x, const std::vector<double>& y, double where) {
    const auto right = std::lower_bound(x.begin(), x.end(), where);
    if (right == x.end())
        return std::numeric_limits<double>::quiet_NaN();
    const auto i = static_cast<std::size_t>(right - x.begin());
    if (i == 0 || *right == where)
        return *right == where ? y[i] : std::numeric_limits<double>::quiet_NaN();
    return y[i - 1] + (y[i] - y[i - 1]) * (where - x[i - 1]) / (x[i] - x[i - 1]);
}

// The plot as lines of text: letters where one curve is, `*` where more than one.
std::vector<std::string> drawn(const Curves& curves, Extent y, std::size_t width,
                               std::size_t height) {
    const double low = curves.x.front();
    const double high = curves.x.back();
    std::vector<std::string> rows(height, std::string(width, ' '));
    for (std::size_t c = 0; c < curves.curves.size(); ++c)
        for (std::size_t column = 0; column < width; ++column) {
            const double where =
                low + (high - low) * static_cast<double>(column) / static_cast<double>(width - 1);
            const double value = at(curves.x, curves.curves[c].y, where);
            if (!std::isfinite(value))
                continue;
            const auto row = static_cast<std::size_t>(
                std::lround((1 - y.share(value)) * static_cast<double>(height - 1)));
            char& cell = rows[row][column];
            cell = cell == ' ' ? static_cast<char>('a' + c) : '*';
        }
    return rows;
}

} // namespace

std::string curves_text(const Curves& curves) {
    constexpr std::size_t height = 18;
    constexpr std::size_t least_width = 30;
    const Extent y = y_extent(curves);
    std::vector<std::string> labels(height);
    std::size_t label_width = 14;
    for (std::size_t row = 0; row < height; ++row) {
        const double value = y.high - (y.high - y.low) * static_cast<double>(row) / (height - 1);
        if (row % 4 == 0 || row == height - 1)
            labels[row] = shortened(lang::terminal_text(lang::quantity_text(value, curves.y_unit)),
                                    page_width - 4 - least_width);
        label_width = std::max(label_width, labels[row].empty() ? 0 : text_columns(labels[row]));
    }
    const std::size_t indent = label_width + 2;
    const std::size_t width = page_width - 4 - label_width; // two stay free at the right
    const std::vector<std::string> rows = drawn(curves, y, width, height);
    std::string out = paragraph(lang::terminal_text(curves.title));
    for (std::size_t row = 0; row < height; ++row) {
        std::string line = (labels[row].empty() ? std::string(label_width, ' ')
                                                : right_aligned(labels[row], label_width)) +
                           " |" + rows[row];
        line.erase(line.find_last_not_of(' ') + 1);
        out += line + "\n";
    }
    out +=
        axis_text({curves.x.front(), curves.x.back()}, curves.x_name, curves.x_unit, indent, width);
    const auto key = [&](char sign, const std::string& text) {
        out += paragraph(text, std::string(indent - 1, ' ') + sign + ' ');
    };
    for (std::size_t c = 0; c < curves.curves.size(); ++c)
        key(static_cast<char>('a' + c), lang::terminal_text(curves.curves[c].name));
    if (curves.curves.size() > 1)
        key('*', "more than one");
    for (const CurveMark& mark : curves.marks)
        out += paragraph(lang::terminal_text(mark.text));
    return out;
}

namespace {

class CurvesPicture {
  public:
    explicit CurvesPicture(const Curves& curves)
        : curves_(curves),
          x_{curves.x.front(), curves.x.back()},
          y_(y_extent(curves)),
          paper_(curves.title) {}

    std::string draw() {
        const double top = paper_.below_title() - 2;
        plot_ = {y_figures_width(y_, curves_.y_unit), paper_width - paper_edge - letter_room, top,
                 top + 280};
        draw_y_axis(paper_, y_, curves_.y_unit, plot_);
        const double below = draw_x_axis(paper_, x_, curves_.x_name, curves_.x_unit, plot_);
        for (std::size_t c = 0; c < curves_.curves.size(); ++c)
            curve(c);
        for (const CurveMark& mark : curves_.marks)
            if (std::isfinite(mark.y))
                paper_.ring(plot_.x(x_.share(mark.x)), plot_.y(y_.share(mark.y)));
        const double end = key(below + 6);
        return std::move(paper_).finish(end - 4);
    }

  private:
    static constexpr double letter_room = 16;
    const Curves& curves_;
    Extent x_, y_;
    Plot plot_;
    Paper paper_;
    std::vector<double> letters_; // where one is written already, from the top

    bool several() const { return curves_.curves.size() > 1; }
    static std::string letter(std::size_t c) { return {static_cast<char>('a' + c)}; }

    void curve(std::size_t c) {
        std::string d;
        bool down = false;
        double end = NAN;
        const std::vector<double>& y = curves_.curves[c].y;
        for (std::size_t i = 0; i < y.size(); ++i) {
            if (std::isfinite(y[i])) {
                end = plot_.y(y_.share(y[i]));
                fmt::format_to(std::back_inserter(d), "{}{:.1f} {:.1f}", down ? "L" : "M",
                               plot_.x(x_.share(curves_.x[i])), end);
            }
            down = std::isfinite(y[i]);
        }
        const auto [ink, dashes] = series(c);
        paper_.path(d, ink, 2, dashes);
        if (!several() || !down)
            return;
        const auto near = [&](double other) { return std::abs(other - end) < line_height - 4; };
        while (std::any_of(letters_.begin(), letters_.end(), near))
            end += 4;
        letters_.push_back(end);
        paper_.text(plot_.right + 5, end + 5, letter(c), Anchor::Start, ink, Weight::Bold);
    }
    double key(double y) {
        for (std::size_t c = 0; c < curves_.curves.size(); ++c)
            y = paper_.key(y, series(c),
                           (several() ? letter(c) + "  " : "") + curves_.curves[c].name);
        for (const CurveMark& mark : curves_.marks) {
            paper_.ring(paper_edge + 17, y - 5);
            y = paper_.lines(paper_edge + 42, y, paper_width - 2 * paper_edge - 42, mark.text);
        }
        return y;
    }
};

} // namespace

std::string curves_svg(const Curves& curves) {
    return CurvesPicture(curves).draw();
}

} // namespace acre::cli
