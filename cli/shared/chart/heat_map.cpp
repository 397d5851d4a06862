#include "cli/shared/chart/heat_map.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "cli/shared/chart/axis.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

// From pale sand to dark earth; lightness falls all the way.
std::string shade(double share) {
    constexpr std::array<std::array<double, 3>, 4> stops = {
        {{252, 243, 219}, {226, 187, 113}, {176, 108, 52}, {74, 40, 20}}};
    const double at = std::clamp(share, 0.0, 1.0) * (stops.size() - 1);
    const auto i = std::min(static_cast<std::size_t>(at), stops.size() - 2);
    const auto mixed = [&](std::size_t c) {
        return static_cast<int>(std::lround(stops[i][c] + (stops[i + 1][c] - stops[i][c]) *
                                                              (at - static_cast<double>(i))));
    };
    return fmt::format("#{:02x}{:02x}{:02x}", mixed(0), mixed(1), mixed(2));
}

class Picture {
  public:
    explicit Picture(const HeatMap& map) : map_(map) {
        for (const HeatMap::Map& one : map.maps)
            for (const double value : one.value) {
                extent_.take(value);
                widest_ = std::isfinite(value)
                              ? std::max(widest_, svg_width(lang::quantity_text(value, "")))
                              : widest_;
            }
        for (const std::string& text : map.y)
            left_ = std::max(left_, svg_width(text) + 26);
        cell_w_ = std::clamp(620 / static_cast<double>(map.x.size()), 2.0, 92.0);
        cell_h_ = std::clamp(420 / static_cast<double>(map.y.size()), 2.0, 30.0);
        width_ = std::max(480.0, left_ + cell_w_ * static_cast<double>(map.x.size()) + 24);
    }

    std::string draw() {
        const double one = head() + 6 + cell_h_ * static_cast<double>(map_.y.size()) + 24;
        out_ = svg_paper(map_.title, width_, 36 + one * static_cast<double>(map_.maps.size()) + 58,
                         16);
        double top = 36;
        for (const HeatMap::Map& map : map_.maps) {
            draw_map(map, top);
            top += one;
        }
        key(top + 4);
        return std::move(out_) + "</svg>\n";
    }

  private:
    const HeatMap& map_;
    Extent extent_;
    double left_ = 60, cell_w_ = 0, cell_h_ = 0, width_ = 0, widest_ = 0;
    std::string out_;

    template <class... Args> void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }
    // Every so many places have a label, so that none lies on another.
    static std::size_t every(double room, double needed) {
        return static_cast<std::size_t>(std::max(1.0, std::ceil(needed / room)));
    }

    double head() const { return map_.maps.empty() || map_.maps.front().name.empty() ? 26 : 46; }
    void draw_map(const HeatMap::Map& map, double top) {
        const double cells = top + head();
        if (!map.name.empty())
            out_ += svg_text(left_, top + 12, Anchor::Start, map.name, "font-weight=\"bold\"");
        double label = 0;
        for (const std::string& text : map_.x)
            label = std::max(label, svg_width(text) + 8);
        const std::size_t x_every = every(cell_w_, label);
        for (std::size_t x = 0; x < map_.x.size(); x += x_every)
            out_ += svg_text(left_ + cell_w_ * (static_cast<double>(x) + 0.5), cells - 8,
                             Anchor::Middle, map_.x[x]);
        const std::size_t y_every = every(cell_h_, 16);
        for (std::size_t y = 0; y < map_.y.size(); ++y) {
            const double at = cells + cell_h_ * static_cast<double>(y);
            if (y % y_every == 0)
                out_ += svg_text(left_ - 10, at + cell_h_ / 2 + 4, Anchor::End, map_.y[y]);
            for (std::size_t x = 0; x < map_.x.size(); ++x)
                cell(map.value[y * map_.x.size() + x], left_ + cell_w_ * static_cast<double>(x),
                     at);
        }
    }
    void cell(double value, double x, double y) {
        const bool known = std::isfinite(value);
        const double share = extent_.share(value);
        put("<rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\" fill=\"{}\"{}/>\n",
            x, y, cell_w_, cell_h_, known ? shade(share) : "#fffdf7",
            cell_w_ > 12 && cell_h_ > 8 ? " stroke=\"#fffdf7\"" : "");
        if (cell_w_ < widest_ + 6 || cell_h_ < 16)
            return;
        out_ += svg_text(x + cell_w_ / 2, y + cell_h_ / 2 + 4, Anchor::Middle,
                         known ? lang::quantity_text(value, "") : "\u2013",
                         known && share > 0.55 ? "fill=\"#fffdf7\"" : "");
    }
    void key(double top) {
        if (!map_.y_name.empty())
            out_ +=
                svg_text(16, top, Anchor::Start,
                         "down: " + map_.y_name + "; across: " + map_.x_name, "fill=\"#57503f\"");
        else
            out_ += svg_text(16, top, Anchor::Start, "across: " + map_.x_name, "fill=\"#57503f\"");
        if (extent_.empty())
            return;
        const std::string low = lang::quantity_text(extent_.low, map_.unit);
        out_ += svg_text(16, top + 28, Anchor::Start, low);
        const double x = 24 + svg_width(low);
        constexpr int steps = 24;
        for (int i = 0; i < steps; ++i)
            put("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"6.2\" height=\"14\" fill=\"{}\"/>\n",
                x + 6 * i, top + 16, shade((i + 0.5) / steps));
        out_ += svg_text(x + 6 * steps + 10, top + 28, Anchor::Start,
                         lang::quantity_text(extent_.high, map_.unit));
    }
};

} // namespace

std::string heat_map_svg(const HeatMap& map) {
    return Picture(map).draw();
}

} // namespace acre::cli
