#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <numbers>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "cli/shared/safe_text.h"
#include "lang/units/convert.h"

namespace acre::cli {
namespace {

// Drawn in a frame of 720 x 560 with a foot of 56 for words; north is up.
constexpr double frame_width = 720;
constexpr double frame_height = 560;
constexpr double margin = 26;
constexpr double foot = 60;

class Picture {
  public:
    explicit Picture(const LaidField& field) : field_(field) {
        low_ = high_ = field.plane.polygons[0].outer[0];
        for (const engine::PlanePolygon& polygon : field.plane.polygons)
            for (const engine::Point& point : polygon.outer) {
                low_ = {std::min(low_.x, point.x), std::min(low_.y, point.y)};
                high_ = {std::max(high_.x, point.x), std::max(high_.y, point.y)};
            }
        scale_ = std::min((frame_width - 2 * margin) / std::max(high_.x - low_.x, 1e-9),
                          (frame_height - 2 * margin) / std::max(high_.y - low_.y, 1e-9));
        left_ = (frame_width - (high_.x - low_.x) * scale_) / 2;
        top_ = (frame_height - (high_.y - low_.y) * scale_) / 2;
    }

    std::string draw() {
        fmt::format_to(std::back_inserter(out_),
                       "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" "
                       "font-family=\"Georgia, 'Liberation Serif', serif\" "
                       "font-size=\"15\" fill=\"#1d1b17\">\n<title>{2}</title>\n<rect "
                       "width=\"{0:.0f}\" height=\"{1:.0f}\" fill=\"#fffdf7\"/>\n",
                       frame_width, frame_height + foot, markup_text(name()));
        ground();
        pulls();
        edges();
        north();
        legend();
        out_ += "</svg>\n";
        return std::move(out_);
    }

  private:
    const LaidField& field_;
    engine::Point low_, high_;
    double scale_ = 1, left_ = 0, top_ = 0;
    std::string out_;

    std::string name() const {
        return field_.boundary.name.empty() ? field_.file : field_.boundary.name;
    }
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
        fmt::format_to(std::back_inserter(out_),
                       "<path d=\"{}\" fill=\"#e9dfc5\" fill-rule=\"evenodd\"/>\n",
                       path(field_.plane.polygons));
        if (field_.request.headland > 0)
            fmt::format_to(std::back_inserter(out_),
                           "<path d=\"{}\" fill=\"#f6f0de\" fill-rule=\"evenodd\" "
                           "stroke=\"#8a7a55\" stroke-width=\"0.8\" "
                           "stroke-dasharray=\"5 4\"/>\n",
                           path(field_.layout.worked));
    }
    // Lines closer than two units would be one dark block: then only every second, fifth, tenth …
    // row is drawn, and said.
    std::uint32_t every() const {
        const double apart = field_.request.spacing * scale_;
        for (const std::uint32_t step : {1U, 2U, 5U, 10U, 20U, 50U, 100U, 200U, 500U})
            if (apart * step >= 2.5)
                return step;
        return 1000;
    }
    void pulls() {
        const std::uint32_t step = every();
        out_ += "<g stroke=\"#6b4f2a\" stroke-width=\"0.9\" stroke-linecap=\"round\">\n";
        for (const engine::Pull& pull : field_.layout.pulls) {
            if (pull.row % step != 0)
                continue;
            const engine::Point a = at(pull.from);
            const engine::Point b = at(pull.to);
            fmt::format_to(std::back_inserter(out_),
                           "<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\"{}/>\n", a.x, a.y, b.x, b.y,
                           pull.point_row ? " stroke=\"#b2462c\"" : "");
        }
        out_ += "</g>\n";
        const engine::Point start = at(field_.layout.pulls.front().from);
        fmt::format_to(std::back_inserter(out_),
                       "<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4.5\" fill=\"#2f6b3a\"/>\n",
                       start.x, start.y);
    }
    void edges() {
        fmt::format_to(std::back_inserter(out_),
                       "<path d=\"{}\" fill=\"none\" stroke=\"#1d1b17\" stroke-width=\"2\" "
                       "stroke-linejoin=\"round\"/>\n",
                       path(field_.plane.polygons));
    }
    void north() {
        fmt::format_to(std::back_inserter(out_),
                       "<g transform=\"translate({:.0f} 40)\"><path d=\"M0 -22L7 8L0 3L-7 8Z\" "
                       "fill=\"#1d1b17\"/>"
                       "<text y=\"24\" text-anchor=\"middle\" font-size=\"14\">N</text></g>\n",
                       frame_width - 24);
    }
    void legend() {
        // A round number of feet that takes a fifth of the width at most.
        const double widest = lang::convert(frame_width / 5 / scale_, "m", "ft");
        double bar = 1;
        for (double power = 1; power <= widest; power *= 10)
            for (const double digit : {1.0, 2.0, 5.0})
                if (digit * power <= widest)
                    bar = digit * power;
        const double length = lang::convert(bar, "ft", "m") * scale_;
        const double y = frame_height + 8;
        fmt::format_to(std::back_inserter(out_),
                       "<path d=\"M{0:.1f} {1:.1f}v6h{2:.1f}v-6\" fill=\"none\" stroke=\"#1d1b17\" "
                       "stroke-width=\"1.4\"/>\n",
                       margin, y, length);
        fmt::format_to(std::back_inserter(out_),
                       "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"13\">{:.0f} ft</text>\n",
                       margin + length + 8, y + 8, bar);
        const engine::Layout& layout = field_.layout;
        fmt::format_to(std::back_inserter(out_),
                       "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"end\"><tspan "
                       "font-weight=\"bold\">{}</tspan>  {:.2f} ac net, {:.2f} "
                       "ac gross</text>\n",
                       frame_width - margin, y + 10, markup_text(name()),
                       lang::convert(layout.net_area, "m^2", "ac"),
                       lang::convert(field_.plane.outer_area, "m^2", "ac"));
        std::string words =
            fmt::format("{} pulls {:.4g} ft apart, heading {:.1f} deg, mean {:.0f} ft",
                        layout.pulls.size(), lang::convert(field_.request.spacing, "m", "ft"),
                        field_.request.heading, lang::convert(layout.mean, "m", "ft"));
        if (const std::uint32_t step = every(); step > 1)
            words += fmt::format("; every {}{} row drawn", step, step == 2 ? "nd" : "th");
        fmt::format_to(
            std::back_inserter(out_),
            "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"end\" font-size=\"13\">{}</text>\n",
            frame_width - margin, y + 30, words);
        fmt::format_to(std::back_inserter(out_),
                       "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"13\"><tspan "
                       "fill=\"#2f6b3a\">\u25cf</tspan> start"
                       "  <tspan fill=\"#b2462c\">\u2014</tspan> point rows</text>\n",
                       margin, y + 30);
    }
};

} // namespace

std::string field_svg(const LaidField& field) {
    return Picture(field).draw();
}

} // namespace acre::cli
