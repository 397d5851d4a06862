#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "cli/shared/chart/paper.h"
#include "cli/shared/text/figures.h"
#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr double most_high = 480; // of the map

// The map, north up, and below it a scale and what the lines are.
class Picture {
  public:
    explicit Picture(const engine::FieldAnswer& field) : field_(field), paper_(field.called()) {
        low_ = high_ = field.ground[0].outer[0];
        for (const engine::PlanePolygon& polygon : field.ground)
            for (const engine::Point& point : polygon.outer) {
                low_ = {std::min(low_.x, point.x), std::min(low_.y, point.y)};
                high_ = {std::max(high_.x, point.x), std::max(high_.y, point.y)};
            }
        constexpr double width = paper_width - 2 * paper_edge - north_width;
        scale_ = std::min(width / std::max(high_.x - low_.x, 1e-9),
                          most_high / std::max(high_.y - low_.y, 1e-9));
        left_ = paper_edge + (width - (high_.x - low_.x) * scale_) / 2;
        top_ = paper_.below_title() + 4;
        y_ = top_ + (high_.y - low_.y) * scale_ + 26;
    }

    std::string draw(Corners corners) {
        ground();
        pulls();
        paper_.path(path(field_.ground), Ink::Ink, 2);
        if (corners == Corners::Numbered)
            numbers();
        names();
        start();
        north();
        scale();
        // Printed by whatever letters are there, which may be wider than those that are measured.
        const double wide =
            (corners == Corners::Numbered ? 0.86 : 1) * (paper_width - 2 * paper_edge);
        words(wide);
        if (corners == Corners::Plain && !field_.kept_off.empty()) // a map says it in its own text
            y_ = paper_.lines(paper_edge, y_, wide, engine::not_ripped_text(field_.kept_off),
                              Ink::Ink, Weight::Plain);
        return std::move(paper_).finish(y_);
    }

  private:
    static constexpr double north_width = 30;
    const engine::FieldAnswer& field_;
    Paper paper_;
    engine::Point low_, high_;
    double scale_ = 1, left_ = 0, top_ = 0, y_ = 0;

    engine::Point at(engine::Point p) const {
        return {left_ + (p.x - low_.x) * scale_, top_ + (high_.y - p.y) * scale_};
    }

    std::string path(const std::vector<engine::PlanePolygon>& polygons) const {
        std::string d;
        const auto ring = [&](const engine::PlaneRing& points) {
            // Points nearer than a third of a unit to the last drawn one do not show.
            engine::Point last{-1e9, -1e9};
            bool first = true;
            for (const engine::Point& point : points) {
                const engine::Point p = at(point);
                if (!first && std::hypot(p.x - last.x, p.y - last.y) < 0.3)
                    continue;
                fmt::format_to(std::back_inserter(d), "{}{:.1f} {:.1f}", first ? "M" : "L", p.x,
                               p.y);
                last = p;
                first = false;
            }
            d += "Z";
        };
        for (const engine::PlanePolygon& polygon : polygons) {
            ring(polygon.outer);
            for (const engine::PlaneRing& hole : polygon.holes)
                ring(hole);
        }
        return d;
    }

    void ground() {
        paper_.area(path(field_.ground), Ink::Tint);
        if (field_.headland <= 0)
            return;
        const std::string worked = path(field_.worked);
        paper_.area(worked, Ink::Paper);
        paper_.path(worked, Ink::Soft, 0.8, "5 4");
    }

    // Lines closer than two and a half units would be one dark surface: then only every second,
    // fifth, tenth … row is drawn, and the words say so.
    std::uint32_t every() const {
        const double apart = lang::convert(field_.spacing, "ft", "m") * scale_;
        for (const std::uint32_t step : {1U, 2U, 5U, 10U, 20U, 50U, 100U, 200U, 500U})
            if (apart * step >= 2.5)
                return step;
        return 1000;
    }
    std::string lines(bool point_rows) const {
        const std::uint32_t step = every();
        std::string d;
        for (const engine::FieldPull& pull : field_.pulls) {
            if ((pull.row - 1) % step != 0 || pull.point_row != point_rows)
                continue;
            const engine::Point a = at(pull.from);
            const engine::Point b = at(pull.to);
            fmt::format_to(std::back_inserter(d), "M{:.1f} {:.1f}L{:.1f} {:.1f}", a.x, a.y, b.x,
                           b.y);
        }
        return d;
    }
    void pulls() {
        if (const std::string d = lines(false); !d.empty())
            paper_.path(d, Ink::Ground, 0.9);
        if (const std::string d = lines(true); !d.empty())
            paper_.path(d, Ink::Fault, 1.2);
    }

    // Each block by name, with its place in the order of work before it.
    void names() {
        if (field_.blocks.size() < 2)
            return;
        for (const engine::FieldBlock& block : field_.blocks) {
            if (block.order == 0)
                continue;
            const engine::Point p = at(block.middle);
            const std::string words =
                fitting(fmt::format("{}  {}", block.order, block.name), paper_width / 3);
            const double wide = drawn_width(words) + 8;
            const double x = std::clamp(p.x, paper_edge + wide / 2, paper_width - wide / 2);
            paper_.box(x - wide / 2, p.y - type_size, wide, type_size + 6, Ink::Paper, Ink::Rule);
            paper_.text(x, p.y, words, Anchor::Middle);
        }
    }
    // Inside the block, a step from the corner to its middle. Where they are close the first
    // counts.
    void numbers() {
        constexpr double step = 20, apart = 17;
        std::vector<engine::Point> taken;
        std::map<std::size_t, std::size_t> number;
        for (std::size_t ring = 0; ring < field_.corners.size(); ++ring) {
            const std::size_t block = field_.corners_of[ring];
            const engine::Point middle = at(field_.blocks[block].middle);
            for (const engine::FieldCorner& corner : field_.corners[ring]) {
                engine::Point p = at(corner.at);
                const double far = std::hypot(middle.x - p.x, middle.y - p.y);
                p = {p.x + (middle.x - p.x) * step / std::max(far, step),
                     p.y + (middle.y - p.y) * step / std::max(far, step)};
                const std::string words = fmt::format("{}", ++number[block]);
                if (std::any_of(taken.begin(), taken.end(), [&](engine::Point other) {
                        return std::hypot(other.x - p.x, other.y - p.y) < apart;
                    }))
                    continue;
                taken.push_back(p);
                const double wide = drawn_width(words) + 5;
                paper_.box(p.x - wide / 2, p.y - 8, wide, 16, Ink::Paper, Ink::Paper);
                paper_.text(p.x, p.y + 5, words, Anchor::Middle);
            }
        }
    }
    void start() {
        const engine::Point p = at(field_.pulls.front().from);
        paper_.ring(p.x, p.y);
    }
    void north() {
        const double x = paper_width - paper_edge - 10;
        paper_.area(fmt::format("M{:.1f} {:.1f}l7 30l-7 -5l-7 5Z", x, top_ + 2), Ink::Ink);
        paper_.text(x, top_ + 50, "N", Anchor::Middle);
    }

    void scale() {
        // A round number of feet that takes a quarter of the width at most.
        const double widest = lang::convert(paper_width / 4 / scale_, "m", "ft");
        double bar = 1;
        for (double power = 1; power <= widest; power *= 10)
            for (const double digit : {1.0, 2.0, 5.0})
                if (digit * power <= widest)
                    bar = digit * power;
        const double length = lang::convert(bar, "ft", "m") * scale_;
        paper_.path(fmt::format("M{:.1f} {:.1f}v6h{:.1f}v-6", paper_edge, y_ - 10, length),
                    Ink::Ink, 1.4);
        paper_.text(paper_edge + length + 8, y_, lang::quantity_text(bar, "ft"));
        double x = paper_width / 2;
        paper_.ring(x, y_ - 5);
        paper_.text(x + 12, y_, "start");
        if (field_.point_rows > 0) {
            x += 70;
            paper_.path(fmt::format("M{:.1f} {:.1f}h22", x, y_ - 5), Ink::Fault, 2);
            paper_.text(x + 28, y_, "point rows");
        }
        y_ += line_height + 6;
    }
    void words(double wide) {
        const auto line = [&](const std::string& text, Weight weight) {
            y_ = paper_.lines(paper_edge, y_, wide, text, Ink::Ink, weight);
        };
        line(fixed_quantity(field_.net, 2, "ac") + " net, " +
                 fixed_quantity(field_.gross, 2, "ac") + " gross",
             Weight::Bold);
        std::string text = fmt::format("{} pulls {} apart, heading {}, mean length {}",
                                       whole_text(static_cast<double>(field_.pulls.size())),
                                       rounded_quantity(field_.spacing, 2, "ft"),
                                       fixed_quantity(field_.heading, 1, "deg"),
                                       rounded_quantity(field_.mean, 0, "ft"));
        if (const std::uint32_t step = every(); step > 1)
            text += fmt::format("; one row in {} is drawn", step);
        line(text, Weight::Plain);
    }
};

} // namespace

std::string field_svg(const engine::FieldAnswer& field, Corners corners) {
    return Picture(field).draw(corners);
}

} // namespace acre::cli
