#include "engine/field/doubled_strips.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

namespace acre::engine {
namespace {

constexpr double thinnest = 1e-6; // m

struct Used { // a track with its segments
    double low, high;
    std::span<const Segment> segments;
};

std::vector<Used> used_tracks(const std::vector<Track>& tracks, std::span<const Segment> segments) {
    std::vector<Used> used;
    for (std::size_t begin = 0, end = 0; begin < segments.size(); begin = end) {
        while (end < segments.size() && segments[end].track == segments[begin].track)
            ++end;
        const Track& track = tracks[segments[begin].track];
        used.push_back({track.low, track.high, segments.subspan(begin, end - begin)});
    }
    std::sort(used.begin(), used.end(), [](const Used& a, const Used& b) { return a.low < b.low; });
    return used;
}

// Between two heights at which strips begin or end, all that are there are intervals of x.
void take_band(double low, double high, const std::vector<Used>& there, Strips& doubled) {
    std::vector<Segment> all;
    for (const Used& one : there)
        all.insert(all.end(), one.segments.begin(), one.segments.end());
    std::sort(all.begin(), all.end(),
              [](const Segment& a, const Segment& b) { return a.begin < b.begin; });
    const std::size_t before = doubled.segments.size();
    const auto track = static_cast<std::uint32_t>(doubled.tracks.size());
    double covered = all.front().begin; // as far as one strip goes
    double twice = covered;             // as far as two go
    for (const Segment& one : all) {
        const double begin = std::max(one.begin, twice);
        const double end = std::min(one.end, covered);
        if (end - begin > thinnest) {
            doubled.segments.push_back({track, one.block, begin, end, false});
            twice = end;
        }
        covered = std::max(covered, one.end);
    }
    if (doubled.segments.size() > before)
        doubled.tracks.push_back({(low + high) / 2, low, high, track});
}

} // namespace

Strips doubled_strips(const std::vector<Track>& tracks, std::span<const Segment> segments) {
    const std::vector<Used> used = used_tracks(tracks, segments);
    std::vector<double> heights;
    for (const Used& one : used)
        heights.insert(heights.end(), {one.low, one.high});
    std::sort(heights.begin(), heights.end());
    Strips doubled;
    std::vector<Used> there;
    auto next = used.begin();
    for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
        for (; next != used.end() && next->low <= heights[i]; ++next)
            there.push_back(*next);
        std::erase_if(there, [&](const Used& one) { return one.high <= heights[i]; });
        if (!there.empty() && heights[i + 1] - heights[i] > thinnest)
            take_band(heights[i], heights[i + 1], there, doubled);
    }
    return doubled;
}

} // namespace acre::engine
