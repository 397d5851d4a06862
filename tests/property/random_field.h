// Random fields in metres and as GeoJSON: rectangles that share a fence or overlap along it, stars,
// combs and notches, with holes; maps of soils that lie over them. One throw of dice, one field.
#pragma once

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/dice.h"

namespace acre::tests {

class RandomField {
  public:
    using Ring = std::vector<std::pair<double, double>>; // degrees of longitude and latitude
    struct Feature {
        std::string name;
        std::vector<std::vector<Ring>> polygons; // the first ring is the outer one
    };

    explicit RandomField(Dice dice) : dice_(dice) {}
    Dice& dice() { return dice_; }

    std::vector<Feature> blocks() {
        std::vector<Feature> features;
        const std::size_t count = 1 + dice_.below(4);
        for (std::size_t i = 0; i < count; ++i) {
            Feature& feature = features.emplace_back();
            feature.name = "block " + std::to_string(i);
            feature.polygons.push_back(piece(static_cast<double>(cell_++), 0));
            if (dice_.below(6) == 1)
                feature.polygons.push_back(piece(static_cast<double>(cell_++), 0));
        }
        return features;
    }

    // Over the ground of the blocks, perhaps beyond it.
    std::vector<Feature> soils() {
        std::vector<Feature> features;
        const std::size_t count = 1 + dice_.below(4);
        for (std::size_t i = 0; i < count; ++i) {
            Feature& feature = features.emplace_back();
            feature.name = pick({"fine", "medium", "coarse"});
            const double cell = dice_.real(-0.5, static_cast<double>(cell_));
            feature.polygons.push_back(piece(cell, 10));
        }
        return features;
    }

    // `property`: the features say their name so.
    static std::string text(const std::vector<Feature>& features, const std::string& property) {
        std::string text = R"({"type":"FeatureCollection","features":[)";
        for (const Feature& feature : features) {
            text += text.back() == '[' ? "" : ",";
            text += R"({"type":"Feature","properties":{")" + property + R"(":")" + feature.name +
                    R"("},"geometry":{"type":"MultiPolygon","coordinates":[)";
            for (const auto& polygon : feature.polygons) {
                text += text.back() == '[' ? "[" : ",[";
                for (const Ring& ring : polygon)
                    add_ring(ring, text);
                text += "]";
            }
            text += "]}}";
        }
        return text + "]}";
    }

  private:
    static constexpr double wide = 80; // m of a cell
    Dice dice_;
    std::size_t cell_ = 0;

    const char* pick(std::initializer_list<const char*> from) {
        return from.begin()[dice_.below(from.size())];
    }

    static void add_ring(const Ring& ring, std::string& text) {
        text += text.back() == '[' ? "[" : ",[";
        for (std::size_t i = 0; i <= ring.size(); ++i) {
            char point[80];
            std::snprintf(point, sizeof point, "%s[%.9f,%.9f]", i == 0 ? "" : ",",
                          ring[i % ring.size()].first, ring[i % ring.size()].second);
            text += point;
        }
        text += "]";
    }

    // About metres; the figures of the text are what counts.
    static std::pair<double, double> degrees(double x, double y) {
        const auto rounded = [](double value) { return std::round(value * 1e9) / 1e9; };
        return {rounded(-119.7 + x / 89'400), rounded(36.6 + y / 110'970)};
    }

    Ring star(double x, double y, double radius, std::size_t points) {
        Ring ring;
        for (std::size_t i = 0; i < points; ++i) {
            const double angle =
                2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(points);
            const double r = radius * (0.25 + 0.75 * static_cast<double>(dice_.below(9)) / 8);
            ring.push_back(degrees(x + r * std::cos(angle), y + r * std::sin(angle)));
        }
        return ring;
    }

    Ring comb(double x, double y, double half) {
        Ring ring{degrees(x - half, y - half), degrees(x + half, y - half)};
        const std::size_t teeth = 1 + dice_.below(4);
        const double step = 2 * half / static_cast<double>(2 * teeth + 1);
        for (std::size_t i = 0; i <= 2 * teeth; ++i) {
            const double right = x + half - step * static_cast<double>(i);
            const double top =
                i % 2 == 0 ? y + half : y - half * static_cast<double>(dice_.below(9)) / 9;
            ring.push_back(degrees(right, top));
            ring.push_back(degrees(right - step, top));
        }
        return ring;
    }

    std::vector<Ring> piece(double cell, double wider) {
        const double x = cell * wide;
        const double y = wider == 0 ? 0 : dice_.real(-30, 30);
        const double half = wide / 2 + wider;
        std::vector<Ring> rings;
        switch (dice_.below(4)) {
        case 0: { // to the fence, over it or short of it
            const double over = std::vector{0.0, 0.4, -3.0}[dice_.below(3)];
            const double high = half * (0.3 + 0.1 * static_cast<double>(dice_.below(8)));
            const double slant = static_cast<double>(dice_.below(5)) * 4;
            rings.push_back({degrees(x - half, y - high), degrees(x + half + over, y - high),
                             degrees(x + half + over, y + high + slant),
                             degrees(x - half, y + high)});
            break;
        }
        case 1:
            rings.push_back(comb(x, y, half * 0.9));
            break;
        default:
            rings.push_back(star(x, y, half * 0.95, 3 + dice_.below(12)));
        }
        if (wider == 0 && dice_.below(3) == 1)
            rings.push_back(star(x + dice_.real(-8, 8), y, 9, 3 + dice_.below(4)));
        return rings;
    }
};

} // namespace acre::tests
