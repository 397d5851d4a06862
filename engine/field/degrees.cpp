#include "engine/field/degrees.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include <fmt/format.h>

namespace acre::engine {
namespace {

// Nobody farms beyond these latitudes, and the longitudes of the United States all lie beyond them:
// a pair that is turned round is told there.
constexpr double southmost = -56, northmost = 72;
constexpr const char* first_longitude =
    "longitude comes first, then latitude (RFC 7946, section 3.1.1)";

} // namespace

lang::Diagnostic boundary_fault(lang::Code code, std::string title, lang::Span span,
                                std::string label, std::string note) {
    lang::Diagnostic diagnostic{code, std::move(title), {span, std::move(label)}, {}, {}, {}};
    if (!note.empty())
        diagnostic.notes.push_back(std::move(note));
    return diagnostic;
}

std::optional<lang::Diagnostic> fault_of(LonLat at, lang::Span span) {
    if (!std::isfinite(at.lon) || !std::isfinite(at.lat) || std::abs(at.lon) > 180 ||
        std::abs(at.lat) > 90) {
        const bool swapped = std::abs(at.lon) <= 90 && std::abs(at.lat) <= 180;
        return boundary_fault(
            lang::Code::B903, "a point is not longitude and latitude in degrees", span,
            fmt::format("{:.12g}, {:.12g}", at.lon, at.lat),
            swapped ? first_longitude
                    : "these look like projected coordinates: export the boundary as WGS "
                      "84 longitude and latitude");
    }
    const bool is_farmed = at.lat >= southmost && at.lat <= northmost;
    const bool would_be = at.lon >= southmost && at.lon <= northmost;
    if (std::abs(at.lat) > 85)
        return boundary_fault(lang::Code::B906, "a field this close to a pole cannot be laid out",
                              span, fmt::format("latitude {:.6g}", at.lat),
                              would_be ? first_longitude : "");
    if (!is_farmed && would_be)
        return boundary_fault(lang::Code::B903,
                              "a point is nowhere near farm ground: latitude comes first in it",
                              span, fmt::format("latitude {:.6g}", at.lat), first_longitude);
    return std::nullopt;
}

std::optional<lang::Diagnostic> fault_of(const LonLatRing& ring, lang::Span span) {
    const auto [west, east] = std::minmax_element(ring.begin(), ring.end(),
                                                  [](LonLat a, LonLat b) { return a.lon < b.lon; });
    if (east->lon - west->lon <= 180)
        return std::nullopt;
    return boundary_fault(lang::Code::B906,
                          "a ring that spans half the globe, or crosses the date line", span, "",
                          "cut the field at the date line (RFC 7946, section 3.1.9)");
}

bool is_counter_clockwise(const LonLatRing& ring) {
    double twice = 0;
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const LonLat a = ring[i];
        const LonLat b = ring[(i + 1) % n];
        twice += (a.lon - ring[0].lon) * (b.lat - ring[0].lat) -
                 (b.lon - ring[0].lon) * (a.lat - ring[0].lat);
    }
    return twice > 0;
}

} // namespace acre::engine
