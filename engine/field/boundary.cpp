#include "engine/field/boundary.h"

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "engine/field/degrees.h"
#include "engine/field/keep_off.h"
#include "engine/field/other_formats.h"
#include "engine/field/placed_json.h"
#include "engine/field/properties_json.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::Code;
using Json = nlohmann::json;

class Reader {
  public:
    Reader(const lang::SourceMap& sources, lang::FileId file, lang::Diagnostics& diagnostics)
        : json_(sources.file(file).text(), file),
          diagnostics_(diagnostics) {}

    std::optional<Boundary> read() {
        Json root;
        if (!parse(root))
            return std::nullopt;
        geometry(root, 0);
        if (!failed_ && boundary_.polygons.empty())
            error(Code::B902, "no polygon in this file", json_.whole(), "",
                  "a field boundary is a Polygon or MultiPolygon, on its own or in a Feature or "
                  "FeatureCollection");
        if (failed_)
            return std::nullopt;
        return std::move(boundary_);
    }

  private:
    PlacedJson json_;
    lang::Diagnostics& diagnostics_;
    Boundary boundary_;
    std::size_t vertices_ = 0;
    bool failed_ = false;
    std::optional<std::uint32_t> block_; // polygons belong to; none yet
    std::string feature_;                // its name
    std::optional<double> keep_off_;     // m that it says; then its polygons are no ground

    // Always false, for those who go on only where nothing is wrong.
    bool error(Code code, std::string title, lang::Span span, std::string label, std::string note) {
        return is_good(
            boundary_fault(code, std::move(title), span, std::move(label), std::move(note)));
    }
    bool is_good(std::optional<lang::Diagnostic> fault) {
        if (!fault)
            return true;
        failed_ = true;
        diagnostics_.add(std::move(*fault));
        return false;
    }

    bool parse(Json& root) {
        ReadJson json = json_.read(max_boundary_depth);
        root = std::move(json.root);
        if (json.fault == JsonFault::TooDeep)
            error(Code::B901,
                  fmt::format("the boundary is nested deeper than {} levels", max_boundary_depth),
                  json_.at(json.stopped_at), "", "");
        else if (const std::string other = other_format(json_.text());
                 json.fault == JsonFault::NotJson && !other.empty())
            error(Code::B901, fmt::format("this is no GeoJSON, but {}", other), json_.whole(), "",
                  "export the boundary as GeoJSON: WGS 84 longitude and latitude (RFC 7946)");
        else if (json.fault == JsonFault::NotJson)
            error(Code::B901, "the boundary is not valid JSON", json_.at(json.stopped_at),
                  "reading stops here",
                  "JSON has no NaN, no comments, no comma before a closing bracket, and numbers "
                  "below 1.8e308");
        return json.fault == JsonFault::None;
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
            error(Code::B902, "geometries are nested too deep", json_.whole(), "",
                  "at most 8 levels of collections and features");
            return;
        }
        if (!object.is_object()) {
            error(Code::B902, "a GeoJSON object is missing", json_.whole(), "",
                  "the file should start with {\"type\": …");
            return;
        }
        if (const Json* crs = member(object, "crs");
            crs != nullptr && !crs->is_null() && crs->dump().find("CRS84") == std::string::npos &&
            crs->dump().find("4326") == std::string::npos) {
            error(Code::B903, "the boundary uses another coordinate system", json_.whole(), "",
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
                error(Code::B902, fmt::format("a {} without coordinates", type), json_.whole(), "",
                      "");
            } else {
                json_.find_coordinates();
                if (type == "Polygon")
                    polygon(*coordinates);
                else
                    multi_polygon(*coordinates);
            }
        } else if (type.empty()) {
            error(Code::B902, "a GeoJSON object has no type", json_.whole(), "",
                  "expected \"type\": \"Polygon\" or a Feature that holds one");
        } else if (const Json* coordinates = member(object, "coordinates");
                   coordinates != nullptr) {
            json_.find_coordinates(); // points and lines are no ground: they are told if they lie
                                      // on it
            marks(*coordinates, type.ends_with("Point"));
        }
    }

    void each(const Json& object, const char* list_name, int depth) {
        const Json* list = member(object, list_name);
        if (list == nullptr || !list->is_array()) {
            error(Code::B902, fmt::format("a {} without {}", type_of(object), list_name),
                  json_.whole(), "", "");
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
        const std::string around = std::exchange(feature_, feature_name(object));
        const std::optional<double> kept = std::exchange(keep_off_, std::nullopt);
        if (!take_keep_off(object))
            return;
        const std::size_t before = boundary_.polygons.size();
        if (!begin_block({feature_, feature_properties(object), 0, {}}))
            return;
        const std::size_t own = boundary_.blocks.size();
        geometry(*inner, depth + 1);
        if (boundary_.polygons.size() == before && boundary_.blocks.size() == own)
            boundary_.blocks.pop_back();
        else if (boundary_.name.empty())
            boundary_.name = boundary_.blocks[own - 1].name;
        block_ = outside;
        feature_ = around;
        keep_off_ = kept;
    }
    bool take_keep_off(const Json& object) {
        for (const BoundaryProperty& property : feature_properties(object)) {
            if (property.name != "keep_off")
                continue;
            keep_off_ = meters_to_keep_off(property.value);
            if (!keep_off_)
                return is_good(no_distance(property.value, json_.whole()));
        }
        return true;
    }
    bool begin_block(BoundaryBlock block) {
        if (boundary_.blocks.size() == most_boundary_blocks)
            return error(Code::B907, fmt::format("more than {} features", most_boundary_blocks),
                         json_.whole(), "", "");
        block_ = static_cast<std::uint32_t>(boundary_.blocks.size());
        block.number = boundary_.blocks.size() + 1;
        boundary_.blocks.push_back(std::move(block));
        return true;
    }

    // Of a point, a line, or several of them.
    void marks(const Json& list, bool apart) {
        if (failed_ || !list.is_array() || list.empty())
            return;
        if (list[0].is_number()) {
            mark(Json::array({list}));
        } else if (!apart && list[0].is_array() && !list[0].empty() && list[0][0].is_number()) {
            json_.enter_array();
            mark(list);
        } else {
            json_.enter_array();
            for (const Json& inner : list)
                marks(inner, apart);
        }
    }
    void mark(const Json& positions) {
        BoundaryMark mark{feature_, {}, json_.next_array(), false, keep_off_};
        for (const Json& position : positions)
            if (!point(position, mark.points))
                return;
        if (is_within_limit(mark.points.size(), mark.at))
            boundary_.marks.push_back(std::move(mark));
    }
    void multi_polygon(const Json& list) {
        json_.enter_array();
        for (const Json& inner : list) {
            if (failed_)
                return;
            if (!inner.is_array()) {
                error(Code::B902, "a MultiPolygon holds something that is not a list of rings",
                      json_.whole(), "", "");
                return;
            }
            polygon(inner);
        }
    }
    void polygon(const Json& rings) {
        const lang::Span span = json_.enter_array();
        if (rings.empty()) {
            error(Code::B905, "a polygon without a ring", span, "empty", "");
            return;
        }
        if (!keep_off_ && !block_ && !begin_block({}))
            return;
        BoundaryPolygon polygon;
        bool first = true;
        for (const Json& inner : rings) {
            LonLatRing points;
            if (!ring(inner, points, first))
                return;
            (first ? polygon.outer : polygon.holes.emplace_back()) = std::move(points);
            first = false;
        }
        if (keep_off_) { // an island in a pond is not ripped either
            boundary_.marks.push_back({feature_, std::move(polygon.outer), span, true, keep_off_});
            return;
        }
        polygon.block = *block_;
        boundary_.polygons.push_back(std::move(polygon));
    }

    bool ring(const Json& list, LonLatRing& points, bool outer) {
        const lang::Span span = list.is_array() ? json_.enter_array() : json_.whole();
        if (!list.is_array())
            return error(Code::B905, "a ring is not a list of points", span, "", "");
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
        if (points.size() < 3)
            return error(Code::B905, "a ring needs at least three different points", span,
                         fmt::format("{} here", points.size()), "");
        return is_within_limit(points.size(), span) && turn(points, outer, span);
    }
    bool is_within_limit(std::size_t points, lang::Span span) {
        vertices_ += points;
        return vertices_ <= max_boundary_vertices ||
               error(Code::B907,
                     fmt::format("the boundary has more than {} points",
                                 lang::number_text(static_cast<double>(max_boundary_vertices))),
                     span, "", "thin the boundary out: a point every few feet is enough");
    }

    bool point(const Json& position, LonLatRing& points) {
        const lang::Span span = position.is_array() ? json_.enter_array() : json_.whole();
        if (!position.is_array() || position.size() < 2 || !position[0].is_number() ||
            !position[1].is_number())
            return error(Code::B905, "a point is not a pair of numbers", span,
                         "longitude, latitude", "");
        const LonLat at{position[0].get<double>(), position[1].get<double>()};
        if (!is_good(fault_of(at, span)))
            return false;
        points.push_back(at);
        return true;
    }

    bool turn(LonLatRing& points, bool outer, lang::Span span) {
        if (!is_good(fault_of(points, span)))
            return false;
        if (is_counter_clockwise(points) != outer) {
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
