#include "engine/field/soils.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "engine/field/clipping.h"
#include "engine/field/cut_lines.h"
#include "engine/field/features.h"
#include "engine/field/ripped_area.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr double least_piece = 1; // m²

struct Soil {
    std::string name;
    std::size_t feature; // its first
    std::vector<BoundaryProperty> properties;
    std::vector<PlanePolygon> ground;
};

std::string soil_of(const BoundaryBlock& feature) {
    for (const BoundaryProperty& property : feature.properties)
        if (property.name == "soil")
            return property.value;
    return feature.name;
}

bool near(const PlanePolygon& polygon, Point low, Point high) {
    Point least = polygon.outer[0];
    Point most = least;
    for (const Point& p : polygon.outer) {
        least = {std::min(least.x, p.x), std::min(least.y, p.y)};
        most = {std::max(most.x, p.x), std::max(most.y, p.y)};
    }
    return least.x < high.x && low.x < most.x && least.y < high.y && low.y < most.y;
}

// By name, in the order of the map; what is nowhere near the field is left out, and yet the place
// of a soil is that of its first feature.
std::vector<Soil> soils_of(const Boundary& map, const LaidField& field) {
    Point low = field.plane.polygons[0].outer[0];
    Point high = low;
    for (const PlanePolygon& polygon : field.plane.polygons)
        for (const Point& p : polygon.outer) {
            low = {std::min(low.x, p.x), std::min(low.y, p.y)};
            high = {std::max(high.x, p.x), std::max(high.y, p.y)};
        }
    std::vector<Soil> soils;
    std::map<std::string, std::size_t> by_name;
    for (PlanePolygon& polygon : flat_polygons(map, field.plane.middle)) {
        const BoundaryBlock& feature = map.blocks[polygon.block];
        const auto [soil, added] = by_name.try_emplace(soil_of(feature), soils.size());
        if (added)
            soils.push_back({soil->first, feature.number, feature.properties, {}});
        if (near(polygon, low, high))
            soils[soil->second].ground.push_back(std::move(polygon));
    }
    std::erase_if(soils, [](const Soil& soil) { return soil.ground.empty(); });
    return soils;
}

// How much of the segments `a` lies on `b`; both by track, then x.
double shared_length(const std::vector<Segment>& a, const std::vector<Segment>& b) {
    double sum = 0;
    for (std::size_t i = 0, k = 0; i < a.size() && k < b.size();) {
        if (a[i].track != b[k].track) {
            ++(a[i].track < b[k].track ? i : k);
            continue;
        }
        sum += std::max(0.0, std::min(a[i].end, b[k].end) - std::max(a[i].begin, b[k].begin));
        ++(a[i].end < b[k].end ? i : k);
    }
    return sum;
}

// One block, with its lines.
class SoiledBlock {
  public:
    SoiledBlock(const LaidField& field, const Lines& lines, std::uint32_t number)
        : field_(field),
          tracks_(lines.tracks),
          turned_(field.request.heading),
          number_(number),
          scale_(field.plane.area / plane_area(field.plane.polygons)) {
        for (const PlanePolygon& polygon : field.layout.worked)
            if (polygon.block == number)
                left_.push_back(polygon);
        for (const Segment& segment : lines.segments)
            if (segment.block == number)
                segments_.push_back(segment);
    }

    std::size_t points() const { return points_of(left_); }

    // Takes the ground of the soil away from what is left; nullptr: takes the rest.
    void take(const Soil* soil, std::vector<SoilGround>& result) {
        const std::vector<PlanePolygon> piece =
            soil != nullptr ? common_ground(left_, soil->ground, number_) : left_;
        const double ground = scale_ * plane_area(piece);
        if (ground < least_piece)
            return;
        SoilGround& is = result.emplace_back();
        is.block = number_;
        if (soil != nullptr) {
            is.soil = soil->name;
            is.feature = soil->feature;
            is.properties = soil->properties;
            left_ = ground_without(left_, soil->ground, number_);
        }
        is.ground = ground;
        is.ripped_area = scale_ * ripped_area(piece, tracks_, segments_, turned_);
        is.travel = shared_length(segments_, cut_tracks(piece, tracks_, turned_));
        const BlockLayout& whole = field_.layout.blocks[number_];
        if (whole.travel > 0)
            is.pulls = static_cast<double>(whole.pulls) * is.travel / whole.travel;
    }

  private:
    const LaidField& field_;
    const std::vector<Track>& tracks_;
    Turned turned_;
    std::uint32_t number_;
    double scale_;
    std::vector<PlanePolygon> left_;
    std::vector<Segment> segments_;
};

std::nullopt_t refuse(std::string title, lang::FileId file, lang::Diagnostics& diagnostics) {
    diagnostics.add({lang::Code::B907, std::move(title), {{file, 0, 1}, ""}, {}, {}, {}});
    return std::nullopt;
}

std::optional<std::vector<SoilGround>> lay_map(const LaidField& field, const Boundary& map,
                                               lang::FileId file, lang::Diagnostics& diagnostics) {
    const std::vector<Soil> soils = soils_of(map, field);
    if (soils.size() > most_soils)
        return refuse(fmt::format("more than {} soils touch the field", most_soils), file,
                      diagnostics);
    const lang::Outcome<Lines> lines =
        cut_lines(field.layout.worked, field.request, Turned(field.request.heading));
    if (!lines) // it was laid out by these
        return refuse("the field cannot be laid out", file, diagnostics);
    std::vector<SoilGround> result;
    std::size_t clipped = 0;
    for (std::uint32_t number = 0; number < field.layout.blocks.size(); ++number) {
        SoiledBlock block(field, *lines, number);
        for (const Soil& soil : soils) {
            clipped += block.points() + points_of(soil.ground);
            if (block.points() + points_of(soil.ground) > most_clipped_points ||
                clipped > 50 * most_clipped_points)
                return refuse("the map of soils has too many points to lay over the field", file,
                              diagnostics);
            block.take(&soil, result);
        }
        block.take(nullptr, result);
    }
    return result;
}

template <class Is>
std::optional<SoilGround> sum_of(const std::vector<SoilGround>& soils, const Is& is) {
    std::optional<SoilGround> sum;
    for (const SoilGround& one : soils) {
        if (one.feature == 0 || !is(one))
            continue;
        if (!sum) {
            sum = one;
            continue;
        }
        sum->ground += one.ground;
        sum->ripped_area += one.ripped_area;
        sum->travel += one.travel;
        sum->pulls += one.pulls;
    }
    return sum;
}

lang::Diagnostic no_ground_within(const std::vector<SoilGround>& soils, std::string_view soil,
                                  lang::FileId map) {
    constexpr std::size_t most_listed = 12;
    std::vector<std::string> names;
    for (const SoilGround& one : soils)
        if (one.feature != 0 && std::find(names.begin(), names.end(), one.soil) == names.end())
            names.push_back(one.soil);
    std::string list;
    for (std::size_t i = 0; i < std::min(names.size(), most_listed); ++i)
        list += fmt::format("{}`{}`", i == 0 ? "" : ", ", names[i]);
    return {
        lang::Code::B902,
        fmt::format("the field has no ground within `{}`", soil),
        {{map, 0, 1}, ""},
        {},
        {},
        {{list.empty() ? "nothing on this map lies over the field" : "what lies over it: " + list,
          {}}}};
}

} // namespace

std::optional<std::vector<SoilGround>> lay_soils(const LaidField& field, BoundaryText map,
                                                 lang::SourceMap& sources,
                                                 lang::Diagnostics& diagnostics) {
    const std::string feature = map.feature;
    KnownBoundaries none;
    const KnownBoundaries::Known* is = none.read(std::move(map), sources, diagnostics);
    if (is == nullptr)
        return std::nullopt;
    Boundary boundary = is->boundary;
    if (!feature.empty() && !take_feature(boundary, feature, is->file, diagnostics))
        return std::nullopt;
    return lay_map(field, boundary, is->file, diagnostics);
}

std::optional<SoilGround> ground_within(const LaidField& field, BoundaryText map,
                                        lang::SourceMap& sources, lang::Diagnostics& diagnostics,
                                        KnownBoundaries& known) {
    const std::string feature = map.feature;
    const KnownBoundaries::Known* is = known.read(std::move(map), sources, diagnostics);
    if (is == nullptr)
        return std::nullopt;
    const std::optional<std::vector<SoilGround>> soils =
        lay_map(field, is->boundary, is->file, diagnostics);
    if (!soils)
        return std::nullopt;
    if (auto named =
            sum_of(*soils, [&](const SoilGround& one) { return same_letters(one.soil, feature); }))
        return named;
    const std::size_t number = feature_number(feature);
    if (auto numbered =
            sum_of(*soils, [&](const SoilGround& one) { return one.feature == number; }))
        return numbered;
    diagnostics.add(no_ground_within(*soils, feature, is->file));
    return std::nullopt;
}

} // namespace acre::engine
