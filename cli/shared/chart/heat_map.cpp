#include "cli/shared/chart/heat_map.h"

#include <algorithm>
#include <cmath>

#include "cli/shared/chart/axis.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

class HeatPicture {
  public:
    explicit HeatPicture(const HeatMap& map) : map_(map), paper_(map.title) {
        for (const HeatMap::Map& one : map.maps)
            for (const double value : one.value) {
                extent_.take(value);
                if (std::isfinite(value))
                    widest_ = std::max(widest_, drawn_width(lang::quantity_text(value, "")));
            }
        double names = 0;
        for (const std::string& text : map.y)
            names = std::max(names, drawn_width(text));
        left_ = paper_edge + std::min(names, widest_name) + (names > 0 ? 8 : 0);
        const double room = paper_width - paper_edge - left_;
        cell_w_ = std::min(room / static_cast<double>(map.x.size()), 110.0);
        cell_h_ = std::clamp(440 / static_cast<double>(map.y.size()), 2.0, 30.0);
    }

    std::string draw() {
        double y = paper_.below_title();
        y = paper_.lines(paper_edge, y, width,
                         (map_.y_name.empty() ? "" : "down: " + map_.y_name + "; ") +
                             "across: " + map_.x_name,
                         Ink::Soft);
        for (const HeatMap::Map& map : map_.maps)
            y = draw_map(map, y);
        return std::move(paper_).finish(key(y + 6));
    }

  private:
    static constexpr double width = paper_width - 2 * paper_edge, widest_name = 150;
    const HeatMap& map_;
    Paper paper_;
    Extent extent_;
    double left_ = 0, cell_w_ = 0, cell_h_ = 0, widest_ = 0;

    // Every so many places have a label, so that none lies on another.
    static std::size_t every(double room, double needed) {
        return static_cast<std::size_t>(std::max(1.0, std::ceil(needed / room)));
    }

    double draw_map(const HeatMap::Map& map, double y) {
        if (!map.name.empty())
            y = paper_.lines(paper_edge, y + 4, width, map.name, Ink::Ink, Weight::Bold);
        double label = 0;
        for (const std::string& text : map_.x)
            label = std::max(label, std::min(drawn_width(text), widest_name) + 8);
        const std::size_t x_every = every(cell_w_, label);
        for (std::size_t x = 0; x < map_.x.size(); x += x_every) {
            const std::string name = fitting(map_.x[x], widest_name);
            const double half = drawn_width(name) / 2;
            const double middle = left_ + cell_w_ * (static_cast<double>(x) + 0.5);
            paper_.text(std::min(middle, paper_width - 4 - half), y, name, Anchor::Middle);
        }
        const double cells = y + 8;
        const std::size_t y_every = every(cell_h_, line_height);
        for (std::size_t row = 0; row < map_.y.size(); ++row) {
            const double at = cells + cell_h_ * static_cast<double>(row);
            if (row % y_every == 0)
                paper_.text(left_ - 8, at + cell_h_ / 2 + 5, fitting(map_.y[row], widest_name),
                            Anchor::End);
            for (std::size_t x = 0; x < map_.x.size(); ++x)
                cell(map.value[row * map_.x.size() + x], left_ + cell_w_ * static_cast<double>(x),
                     at);
        }
        return cells + cell_h_ * static_cast<double>(map_.y.size()) + line_height + 4;
    }
    void cell(double value, double x, double y) {
        const bool known = std::isfinite(value);
        const std::size_t shade = shade_of(extent_.share(value));
        const double gap = cell_w_ > 12 && cell_h_ > 8 ? 1 : 0;
        if (known)
            paper_.shade(x, y, cell_w_ - gap, cell_h_ - gap, shade);
        if (cell_w_ < widest_ + 6 || cell_h_ < line_height)
            return;
        paper_.text(x + cell_w_ / 2, y + cell_h_ / 2 + 5,
                    known ? lang::quantity_text(value, "") : "\u2013", Anchor::Middle,
                    known && shade >= shade_turns ? Ink::Paper : Ink::Ink);
    }
    // The least and the greatest, with the shades between them. The height of the picture.
    double key(double y) {
        if (extent_.empty())
            return y;
        const std::string low = lang::quantity_text(extent_.low, map_.unit);
        const std::string high = lang::quantity_text(extent_.high, map_.unit);
        paper_.text(paper_edge, y, low);
        const double x = paper_edge + drawn_width(low) + 10;
        constexpr double step = 6;
        for (std::size_t i = 0; i < shade_count; ++i)
            paper_.shade(x + step * static_cast<double>(i), y - 13, step + 0.2, 16, i);
        paper_.text(x + step * shade_count + 10, y, high);
        return y + 16;
    }
};

} // namespace

std::string heat_map_svg(const HeatMap& map) {
    return HeatPicture(map).draw();
}

} // namespace acre::cli
