// Bytes throw the dice of tests/property/random_field.h: fields, what is asked of their layout, and
// a map of soils. The ground, the lines, the ways between them and what each rips are measured the
// slow way (naive/), with nothing of the engine.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/field/laid_field.h"
#include "engine/field/soils.h"
#include "tests/fuzz/driven.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/target.h"
#include "tests/property/random_field.h"

namespace layout_fuzz {

using namespace acre;
using namespace acre::fuzz::naive;
using engine::LayoutRequest;
using tests::RandomField;

namespace {

bool near(double a, double b, double off) {
    return std::fabs(a - b) <= off;
}

engine::LayoutRequest some_request(tests::Dice& dice) {
    LayoutRequest request;
    request.spacing = 4 + static_cast<double>(dice.below(60)) / 4;
    request.heading =
        dice.below(3) == 0 ? dice.real(-200, 400) : 15 * static_cast<double>(dice.below(12));
    request.headland = dice.below(3) == 1 ? static_cast<double>(dice.below(9)) : 0;
    request.row_ends = dice.below(3) == 1 ? dice.real(0, 8) : 0;
    if (dice.below(4) == 1)
        request.first_offset = static_cast<double>(dice.below(20));
    request.passes_per_row = 1 + 0.5 * static_cast<double>(dice.below(5));
    if (dice.below(4) == 1)
        request.pass_spacing = dice.real(0, request.spacing / 3);
    request.speed = dice.below(4) == 1 ? 0 : 0.7;
    request.turn_time = dice.real(0, 60);
    request.turn_diameter = dice.below(2) == 1 ? dice.real(0, 30) : 0;
    return request;
}

// The metres east and north that a map of small extent has around its middle, to the second order
// on the ellipsoid (WGS 84): within a micrometre over a few hundred metres.
Spot flat(std::pair<double, double> degrees, engine::LonLat middle) {
    constexpr double semi_major = 6'378'137, flattening = 1 / 298.257'223'563;
    constexpr double eccentric = flattening * (2 - flattening);
    constexpr double radian = std::numbers::pi / 180;
    const double s = std::sin(middle.lat * radian);
    const double c = std::cos(middle.lat * radian);
    const double w = 1 - eccentric * s * s;
    const double across = semi_major / std::sqrt(w); // radii of curvature
    const double along = semi_major * (1 - eccentric) / (w * std::sqrt(w));
    const double east = (degrees.first - middle.lon) * radian;
    const double north = (degrees.second - middle.lat) * radian;
    return {across * c * east - along * s * east * north,
            along * north + across * s * c * east * east / 2 +
                1.5 * eccentric * along * s * c / w * north * north};
}

// The outer rings, or the holes, which may reach over the edge.
Shape flat_ground(const RandomField::Feature& feature, engine::LonLat middle, bool holes = false) {
    Shape shape;
    for (const auto& polygon : feature.polygons)
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            if ((i > 0) != holes)
                continue;
            Loop& loop = shape.emplace_back();
            for (const auto& point : polygon[i])
                loop.push_back(flat(point, middle));
        }
    return shape;
}

std::vector<Shape> by_block(const std::vector<engine::PlanePolygon>& polygons, const Turned& turned,
                            std::size_t blocks) {
    std::vector<Shape> shapes;
    for (std::size_t block = 0; block < blocks; ++block)
        shapes.push_back(turned_ground(polygons, turned, static_cast<long>(block)));
    return shapes;
}

// Each block has its ground as drawn, but for what an earlier one has of it.
void hold_blocks(const std::vector<RandomField::Feature>& features, const engine::LaidField& laid) {
    const std::size_t blocks = features.size();
    std::vector<Shape> drawn;
    for (const bool holes : {false, true})
        for (const RandomField::Feature& feature : features)
            drawn.push_back(flat_ground(feature, laid.plane.middle, holes));
    const std::vector<double> areas = areas_by(drawn, blocks, [&](const std::vector<char>& in) {
        std::size_t block = 0;
        while (block < blocks && (in[block] == 0 || in[blocks + block] != 0))
            ++block;
        return block < blocks ? static_cast<int>(block) : -1;
    });
    double all = 0;
    for (std::size_t i = 0; i < blocks; ++i) {
        // What two have is told from rounding by a millimetre of its width.
        HOLDS(near(laid.layout.blocks[i].ground, areas[i], 2e-3 * length_of_edges(drawn[i])));
        all += areas[i];
    }
    HOLDS(near(laid.plane.area, all, 1e-3 * laid.plane.perimeter));
}

// No worked ground is nearer to an edge than the headland, and none is left out that is farther
// than its corners reach.
void hold_headland(const std::vector<Shape>& grounds, const std::vector<Shape>& worked,
                   double headland, tests::Dice dice) {
    for (std::size_t block = 0; block < grounds.size(); ++block)
        for (const Loop& loop : grounds[block])
            for (int i = 0; i < 12; ++i) {
                const Spot& corner = loop[dice.below(loop.size())];
                const Spot spot{corner.x + dice.real(-25, 25), corner.y + dice.real(-25, 25)};
                const double way = way_to_edge(grounds[block], spot);
                const bool inside = has(grounds[block], spot);
                if (!inside || way < headland - 0.03)
                    HOLDS(!has(worked[block], spot) || way < 1e-3);
                else if (way > 2 * headland + 0.1)
                    HOLDS(has(worked[block], spot));
            }
}

Shape in_rows(Shape shape, const Turned& turned) {
    for (Loop& loop : shape)
        for (Spot& spot : loop)
            spot = turned.in({spot.x, spot.y});
    return shape;
}

// Soils of a map, by the first feature that has each; the first counts where several lie over each
// other.
struct Soils {
    std::vector<std::string> names;
    std::vector<std::size_t> of; // by shape
    std::vector<Shape> shapes;
    double edges = 0; // m

    Soils(const std::vector<RandomField::Feature>& map, engine::LonLat middle,
          const Turned& turned) {
        for (const RandomField::Feature& feature : map) {
            shapes.push_back(in_rows(flat_ground(feature, middle), turned));
            edges += length_of_edges(shapes.back());
            of.push_back(static_cast<std::size_t>(
                std::find(names.begin(), names.end(), feature.name) - names.begin()));
            if (of.back() == names.size())
                names.push_back(feature.name);
        }
    }
    std::size_t at(const std::vector<char>& in) const { // past the names: none
        std::size_t soil = names.size();
        for (std::size_t i = 0; i < of.size(); ++i)
            soil = in[i] != 0 ? std::min(soil, of[i]) : soil;
        return soil;
    }
    std::size_t feature(std::size_t soil) const { // its first, from 1; 0: of none
        const auto first = std::find(of.begin(), of.end(), soil);
        return first == of.end() ? 0 : static_cast<std::size_t>(first - of.begin()) + 1;
    }
    std::string name(std::size_t soil) const { return soil < names.size() ? names[soil] : ""; }
};

// By soil: m² that are not ripped, then those that are.
std::vector<double> soil_areas(const Soils& soils, const Shape& worked, std::size_t block,
                               const std::vector<fuzz::Inside>& inside) {
    std::vector<Shape> shapes = soils.shapes;
    const std::size_t ground = shapes.size();
    shapes.push_back(worked);
    for (const fuzz::Inside& one : inside)
        for (const Stretch& stretch : one.stretches)
            if (stretch.block == block)
                shapes.push_back(strip_of(one.line, stretch));
    const std::size_t kinds = soils.names.size() + 1;
    return areas_by(shapes, 2 * kinds, [&](const std::vector<char>& in) {
        if (in[ground] == 0)
            return -1;
        const auto strips = in.begin() + static_cast<long>(ground) + 1;
        const bool ripped = std::find(strips, in.end(), 1) != in.end();
        return static_cast<int>(soils.at(in) + (ripped ? kinds : 0));
    });
}

// m of a stretch on each soil, `aside` of its line.
std::vector<double> soil_lengths(const Soils& soils, const fuzz::Inside& one, std::size_t block,
                                 double aside) {
    std::vector<double> lengths(soils.names.size() + 1, 0.0);
    std::vector<std::pair<double, std::size_t>> cuts;
    for (std::size_t i = 0; i < soils.shapes.size(); ++i)
        for (const Cut& cut : cuts_at(soils.shapes[i], one.line.y + aside))
            cuts.emplace_back(cut.x, i);
    std::sort(cuts.begin(), cuts.end());
    for (const Stretch& stretch : one.stretches) {
        if (stretch.block != block)
            continue;
        std::vector<char> in(soils.shapes.size(), 0);
        double from = stretch.begin;
        for (const auto& [x, shape] : cuts) {
            const double to = std::clamp(x, from, stretch.end);
            lengths[soils.at(in)] += to - from;
            from = to;
            in[shape] ^= 1;
        }
        lengths[soils.at(in)] += stretch.end - from;
    }
    return lengths;
}

// Least and most of the lines and of those a millimetre beside them, by soil: clipped ground is
// told to a tenth of one.
std::pair<std::vector<double>, std::vector<double>>
soil_travel(const Soils& soils, const std::vector<fuzz::Inside>& inside, std::size_t block) {
    std::vector<double> least(soils.names.size() + 1, 0.0);
    std::vector<double> most = least;
    for (const fuzz::Inside& one : inside) {
        const std::vector<double> at = soil_lengths(soils, one, block, 0);
        const std::vector<double> below = soil_lengths(soils, one, block, -1e-3);
        const std::vector<double> above = soil_lengths(soils, one, block, 1e-3);
        for (std::size_t i = 0; i < at.size(); ++i) {
            least[i] += std::min({at[i], below[i], above[i]}) - 0.05;
            most[i] += std::max({at[i], below[i], above[i]}) + 0.05;
        }
    }
    return {least, most};
}

// What each soil has of the worked ground, of what is ripped and of the lines.
void hold_soils(const engine::LaidField& laid, const std::vector<RandomField::Feature>& map,
                const std::vector<Shape>& worked, const std::vector<fuzz::Inside>& inside,
                const Turned& turned) {
    const Soils soils(map, laid.plane.middle, turned);
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const auto told = engine::lay_soils(laid, {"soils.geojson", RandomField::text(map, "soil"), {}},
                                        sources, diagnostics);
    HOLDS(told.has_value());
    const std::size_t kinds = soils.names.size() + 1;
    for (std::size_t block = 0; block < worked.size(); ++block) {
        const std::vector<double> areas = soil_areas(soils, worked[block], block, inside);
        const auto [least, most] = soil_travel(soils, inside, block);
        const engine::BlockLayout& whole = laid.layout.blocks[block];
        double off = 1e-3 + 3e-4 * (soils.edges + length_of_edges(worked[block]));
        for (std::size_t soil = 0; soil < kinds; ++soil) {
            const double ground = areas[soil] + areas[kinds + soil];
            const auto row = std::find_if(told->begin(), told->end(), [&](const auto& one) {
                return one.block == block && one.soil == soils.name(soil);
            });
            if (row == told->end()) {
                HOLDS(ground < 1 + off);
                off += ground; // too small to be told: others have it
                continue;
            }
            HOLDS(near(row->ground, ground, off));
            HOLDS(near(row->ripped_area, areas[kinds + soil], off));
            HOLDS(row->travel >= least[soil] && row->travel <= most[soil]);
            HOLDS(row->feature == soils.feature(soil));
            if (whole.travel > 0)
                HOLDS(near(row->pulls,
                           static_cast<double>(whole.pulls) * row->travel / whole.travel, 1e-6));
        }
    }
}

} // namespace

ACREWRIGHT_TARGET(layout, bytes) {
    RandomField maker{tests::Dice(bytes)};
    const std::vector<RandomField::Feature> blocks = maker.blocks();
    const LayoutRequest request = some_request(maker.dice());
    const std::vector<RandomField::Feature> map = maker.soils();
    const std::string text = RandomField::text(blocks, "name");
    fuzz::show(text);
    fuzz::show(RandomField::text(map, "soil"));
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const auto laid = engine::lay_texts({{"f.geojson", text, {}}}, request, request.heading,
                                        sources, diagnostics);
    fuzz::hold_diagnostics(diagnostics, sources);
    HOLDS(laid.has_value() == !diagnostics.has_errors());
    if (!laid)
        return;
    const Turned turned(request.heading);
    const std::vector<Shape> worked =
        by_block(laid->layout.worked, turned, laid->layout.blocks.size());
    hold_blocks(blocks, *laid);
    hold_headland(by_block(laid->plane.polygons, turned, worked.size()), worked, request.headland,
                  maker.dice());
    const std::vector<fuzz::Inside> inside = fuzz::hold_drive(*laid, worked, turned);
    hold_soils(*laid, map, worked, inside, turned);
    fuzz::show(std::to_string(laid->layout.pulls.size()) + " pulls");
}

} // namespace layout_fuzz
