#include "engine/field/boundary.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "engine/field/properties_json.h"
#include "engine/field/read_json.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::Code;
using Json = nlohmann::json;

class Reader {
  public:
    Reader(const lang::SourceMap& sources, lang::FileId file, lang::Diagnostics& diagnostics)
        : text_(sources.file(file).text()),
          file_(file),
          diagnostics_(diagnostics) {}

    std::optional<Boundary> read() {
        Json root;
        if (!parse(root))
            return std::nullopt;
        geometry(root, 0);
        if (!failed_ && boundary_.polygons.empty())
            error(Code::B902, "no polygon in this file", whole(), "",
                  "a field boundary is a Polygon or MultiPolygon, on its own or in a Feature or "
                  "FeatureCollection");
        if (failed_)
            return std::nullopt;
        return std::move(boundary_);
    }

  private:
    std::string_view text_;
    lang::FileId file_;
    lang::Diagnostics& diagnostics_;
    Boundary boundary_;
    std::vector<std::uint32_t> array_starts_; // byte offsets, in the order in which arrays begin
    std::size_t next_array_ = 0;
    std::size_t vertices_ = 0;
    bool failed_ = false;
    std::optional<std::uint32_t> block_; // polygons belong to; none yet

    lang::Span whole() const {
        return {file_, 0, static_cast<std::uint32_t>(std::min<std::size_t>(text_.size(), 1))};
    }
    lang::Span at(std::size_t offset) const {
        const auto begin = static_cast<std::uint32_t>(std::min(offset, text_.size()));
        return {file_, begin,
                static_cast<std::uint32_t>(std::min<std::size_t>(begin + 1, text_.size()))};
    }
    void error(Code code, std::string title, lang::Span span, std::string label, std::string note) {
        failed_ = true;
        lang::Diagnostic diagnostic{code, std::move(title), {span, std::move(label)}, {}, {}, {}};
        if (!note.empty())
            diagnostic.notes.push_back(std::move(note));
        diagnostics_.add(std::move(diagnostic));
    }

    bool parse(Json& root) {
        ReadJson json = read_json(text_, max_boundary_depth);
        switch (json.fault) {
        case JsonFault::None:
            root = std::move(json.root);
            array_starts_ = std::move(json.array_starts);
            return true;
        case JsonFault::TooDeep:
            error(Code::B901,
                  fmt::format("the boundary is nested deeper than {} levels", max_boundary_depth),
                  at(json.stopped_at), "", "");
            return false;
        case JsonFault::NotJson:
            error(Code::B901, "the boundary is not valid JSON", at(json.stopped_at),
                  "reading stops here",
                  "JSON has no NaN, no comments, no comma before a closing bracket, and numbers "
                  "below 1.8e308");
            return false;
        }
        return false;
    }

    static const Json* member(const Json& object, const char* name) {
        const auto it = object.find(name);
        return it == object.end() ? nullptr : &*it;
    }
    static std::string_view type_of(const Json& object) {
        const Json* type = member(object, "type");
        return type != nullptr && type->is_string()
                   ? std::string_view(type->get_ref<const std::string&>())
                   : std::string_view();
    }

    void geometry(const Json& object, int depth) {
        if (failed_)
            return;
        if (depth > 8) {
            error(Code::B902, "geometries are nested too deep", whole(), "",
                  "at most 8 levels of collections and features");
            return;
        }
        if (!object.is_object()) {
            error(Code::B902, "a GeoJSON object is missing", whole(), "",
                  "the file should start with {\"type\": …");
            return;
        }
        if (const Json* crs = member(object, "crs");
            crs != nullptr && !crs->is_null() && crs->dump().find("CRS84") == std::string::npos &&
            crs->dump().find("4326") == std::string::npos) {
            error(Code::B903, "the boundary uses another coordinate system", whole(), "",
                  "export it as WGS 84 longitude and latitude (RFC 7946, section 4)");
            return;
        }
        const std::string_view type = type_of(object);
        if (type == "FeatureCollection") {
            each(object, "features", depth);
        } else if (type == "GeometryCollection") {
            each(object, "geometries", depth);
        } else if (type == "Feature") {
            feature(object, depth);
        } else if (type == "Polygon" || type == "MultiPolygon") {
            const Json* coordinates = member(object, "coordinates");
            if (coordinates == nullptr || !coordinates->is_array()) {
                error(Code::B902, fmt::format("a {} without coordinates", type), whole(), "", "");
            } else {
                find_start();
                if (type == "Polygon")
                    polygon(*coordinates);
                else
                    multi_polygon(*coordinates);
            }
        } else if (type.empty()) {
            error(Code::B902, "a GeoJSON object has no type", whole(), "",
                  "expected \"type\": \"Polygon\" or a Feature that holds one");
        } else if (const Json* coordinates = member(object, "coordinates");
                   coordinates != nullptr) {
            find_start(); // points and lines of a collection are no ground: passed over
            pass_over(*coordinates);
        }
    }

    void each(const Json& object, const char* list_name, int depth) {
        const Json* list = member(object, list_name);
        if (list == nullptr || !list->is_array()) {
            error(Code::B902, fmt::format("a {} without {}", type_of(object), list_name), whole(),
                  "", "");
            return;
        }
        for (const Json& inner : *list)
            geometry(inner, depth + 1);
    }
    // A feature is a block; what is outside of features is one together.
    void feature(const Json& object, int depth) {
        const Json* inner = member(object, "geometry");
        if (inner == nullptr || inner->is_null())
            return;
        const std::optional<std::uint32_t> outside = std::exchange(block_, std::nullopt);
        const std::size_t before = boundary_.polygons.size();
        if (!begin_block({feature_name(object), feature_properties(object), 0, {}}))
            return;
        if (boundary_.name.empty())
            boundary_.name = boundary_.blocks.back().name;
        const std::size_t own = boundary_.blocks.size();
        geometry(*inner, depth + 1);
        if (boundary_.polygons.size() == before && boundary_.blocks.size() == own)
            boundary_.blocks.pop_back();
        block_ = outside;
    }
    bool begin_block(BoundaryBlock block) {
        if (boundary_.blocks.size() == most_boundary_blocks) {
            error(Code::B907, fmt::format("more than {} features", most_boundary_blocks), whole(),
                  "", "");
            return false;
        }
        block_ = static_cast<std::uint32_t>(boundary_.blocks.size());
        block.number = boundary_.blocks.size() + 1;
        boundary_.blocks.push_back(std::move(block));
        return true;
    }

    void pass_over(const Json& list) {
        if (!list.is_array())
            return;
        ++next_array_;
        for (const Json& inner : list)
            pass_over(inner);
    }
    // The next array in the text that comes after the word "coordinates" and was not read yet.
    void find_start() {
        while (next_array_ < array_starts_.size()) {
            std::size_t before = array_starts_[next_array_];
            const auto skip_back = [&](std::string_view characters) {
                while (before > 0 && characters.find(text_[before - 1]) != std::string_view::npos)
                    --before;
            };
            skip_back(" \t\r\n");
            skip_back(":");
            skip_back(" \t\r\n");
            constexpr std::string_view key = "\"coordinates\"";
            if (before >= key.size() && text_.substr(before - key.size(), key.size()) == key)
                return;
            ++next_array_;
        }
    }
    lang::Span enter_array() {
        const std::size_t index = next_array_++;
        return index < array_starts_.size() ? at(array_starts_[index]) : whole();
    }

    void multi_polygon(const Json& list) {
        enter_array();
        for (const Json& inner : list) {
            if (failed_)
                return;
            if (!inner.is_array()) {
                error(Code::B902, "a MultiPolygon holds something that is not a list of rings",
                      whole(), "", "");
                return;
            }
            polygon(inner);
        }
    }
    void polygon(const Json& rings) {
        const lang::Span span = enter_array();
        if (rings.empty()) {
            error(Code::B905, "a polygon without a ring", span, "empty", "");
            return;
        }
        if (!block_ && !begin_block({}))
            return;
        BoundaryPolygon polygon;
        polygon.block = *block_;
        bool first = true;
        for (const Json& inner : rings) {
            LonLatRing points;
            if (!ring(inner, points, first))
                return;
            (first ? polygon.outer : polygon.holes.emplace_back()) = std::move(points);
            first = false;
        }
        boundary_.polygons.push_back(std::move(polygon));
    }

    bool ring(const Json& list, LonLatRing& points, bool outer) {
        const lang::Span span = list.is_array() ? enter_array() : whole();
        if (!list.is_array()) {
            error(Code::B905, "a ring is not a list of points", span, "", "");
            return false;
        }
        points.reserve(list.size());
        for (const Json& position : list)
            if (!point(position, points))
                return false;
        if (points.size() >= 2 && points.front() == points.back())
            points.pop_back();
        else if (points.size() >= 3)
            repair("closed a ring whose last point is not its first");
        const std::size_t before = points.size();
        points.erase(std::unique(points.begin(), points.end()), points.end());
        if (points.size() != before)
            repair("left out points that repeat the one before");
        if (points.size() < 3) {
            error(Code::B905, "a ring needs at least three different points", span,
                  fmt::format("{} here", points.size()), "");
            return false;
        }
        vertices_ += points.size();
        if (vertices_ > max_boundary_vertices) {
            error(Code::B907,
                  fmt::format("the boundary has more than {} points",
                              lang::number_text(static_cast<double>(max_boundary_vertices))),
                  span, "", "thin the boundary out: a point every few feet is enough");
            return false;
        }
        return turn(points, outer, span);
    }

    bool point(const Json& position, LonLatRing& points) {
        const lang::Span span = position.is_array() ? enter_array() : whole();
        if (!position.is_array() || position.size() < 2 || !position[0].is_number() ||
            !position[1].is_number()) {
            error(Code::B905, "a point is not a pair of numbers", span, "longitude, latitude", "");
            return false;
        }
        const LonLat at{position[0].get<double>(), position[1].get<double>()};
        if (!std::isfinite(at.lon) || !std::isfinite(at.lat) || std::abs(at.lon) > 180 ||
            std::abs(at.lat) > 90) {
            const bool swapped = std::abs(at.lon) <= 90 && std::abs(at.lat) <= 180;
            error(Code::B903, "a point is not longitude and latitude in degrees", span,
                  fmt::format("{:.12g}, {:.12g}", at.lon, at.lat),
                  swapped ? "longitude comes first, then latitude (RFC 7946, section 3.1.1)"
                          : "these look like projected coordinates: export the boundary as WGS 84 "
                            "longitude and latitude");
            return false;
        }
        if (std::abs(at.lat) > 85) {
            error(Code::B906, "a field this close to a pole cannot be laid out", span,
                  fmt::format("latitude {:.6g}", at.lat), "");
            return false;
        }
        points.push_back(at);
        return true;
    }

    bool turn(LonLatRing& points, bool outer, lang::Span span) {
        const auto [west, east] = std::minmax_element(
            points.begin(), points.end(), [](LonLat a, LonLat b) { return a.lon < b.lon; });
        if (east->lon - west->lon > 180) {
            error(Code::B906, "a ring that spans half the globe, or crosses the date line", span,
                  "", "cut the field at the date line (RFC 7946, section 3.1.9)");
            return false;
        }
        double twice = 0;
        for (std::size_t i = 0, n = points.size(); i < n; ++i) {
            const LonLat a = points[i];
            const LonLat b = points[(i + 1) % n];
            twice += (a.lon - points[0].lon) * (b.lat - points[0].lat) -
                     (b.lon - points[0].lon) * (a.lat - points[0].lat);
        }
        if ((twice > 0) != outer) {
            std::reverse(points.begin(), points.end());
            repair(outer ? "turned an outer ring that ran clockwise"
                         : "turned a hole that ran counter-clockwise");
        }
        return true;
    }
    void repair(std::string_view what) {
        if (std::find(boundary_.repairs.begin(), boundary_.repairs.end(), what) ==
            boundary_.repairs.end())
            boundary_.repairs.emplace_back(what);
    }
};

} // namespace

std::optional<Boundary> read_boundary(const lang::SourceMap& sources, lang::FileId file,
                                      lang::Diagnostics& diagnostics) {
    return Reader(sources, file, diagnostics).read();
}

} // namespace acre::engine
