// Strips that lie over each other as no layout makes them, clipped by another library: what at
// least two of them cover.
#include <doctest/doctest.h>

#include <bit>

#include "engine/field/doubled_strips.h"
#include "engine/field/ripped_area.h"
#include "tests/engine/field/checker.h"

namespace doubled_strips_test {

using namespace acre;
using namespace acre::engine;
using namespace field_checker;

namespace {

double measured(const std::vector<PlanePolygon>& ground, const std::vector<Track>& tracks,
                const std::vector<Segment>& segments, const Turned& turned) {
    const Strips doubled = doubled_strips(tracks, segments);
    return ripped_area(ground, doubled.tracks, doubled.segments, turned);
}

BoostPolygon rectangle(const Track& track, const Segment& segment, const Turned& turned) {
    BoostPolygon out;
    for (const Point& p : {Point{segment.begin, track.low}, Point{segment.end, track.low},
                           Point{segment.end, track.high}, Point{segment.begin, track.high}}) {
        const Point at = turned.out(p);
        out.outer().push_back({at.x, at.y});
    }
    bg::correct(out);
    return out;
}

} // namespace

TEST_CASE("strips side by side are doubled nowhere, strips that lap by what they lap") {
    const std::vector<PlanePolygon> square{{{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, {}}};
    const Turned east(90);
    const std::vector<Segment> both{{0, 0, 0, 100}, {1, 0, 0, 100}};
    CHECK(measured(square, {{10, 5, 15, 0}, {20, 15, 25, 1}}, both, east) == 0);
    CHECK(measured(square, {{10, 5, 17, 0}, {20, 15, 25, 1}}, both, east) ==
          doctest::Approx(2 * 100));
    // Half outside; and two pulls of one track that lap by 30 m.
    CHECK(measured(square, {{0, -5, 5, 0}, {1, -4, 6, 1}}, both, east) == doctest::Approx(5 * 100));
    CHECK(measured(square, {{10, 5, 15, 0}}, {{0, 0, 0, 60}, {0, 0, 30, 100}}, east) ==
          doctest::Approx(10 * 30));
}

TEST_CASE("what two strips cover, on random ground, as another library clips it") {
    std::mt19937_64 random(41);
    double most = 0;
    for (int round = 0; round < 80; ++round) {
        CAPTURE(round);
        std::vector<PlanePolygon> ground(1);
        ground[0].outer = star(random, {0, 0}, 12, 60);
        const Turned turned(dice(random, 0, 180));
        std::vector<Track> tracks;
        std::vector<Segment> segments;
        double y = -50;
        for (std::uint32_t i = 0; i < 7; ++i) {
            y += dice(random, 2, 14);
            tracks.push_back({y, y - dice(random, 1, 9), y + dice(random, 1, 9), i});
            const double begin = dice(random, -60, 0);
            segments.push_back({i, 0, begin, begin + dice(random, 20, 90)});
        }
        // Of every set of strips what all of them share, by inclusion and exclusion.
        double expected = 0;
        for (std::uint32_t set = 0; set < 1U << tracks.size(); ++set) {
            const int count = std::popcount(set);
            Track both{0, -1e9, 1e9, 0};
            Segment along{0, 0, -1e9, 1e9};
            for (std::size_t i = 0; i < tracks.size(); ++i)
                if ((set >> i & 1U) != 0) {
                    both.low = std::max(both.low, tracks[i].low);
                    both.high = std::min(both.high, tracks[i].high);
                    along.begin = std::max(along.begin, segments[i].begin);
                    along.end = std::min(along.end, segments[i].end);
                }
            if (count < 2 || both.low >= both.high || along.begin >= along.end)
                continue;
            BoostPolygons shared;
            bg::intersection(in_boost(ground), rectangle(both, along, turned), shared);
            expected += (count % 2 == 0 ? 1 : -1) * (count - 1) * bg::area(shared);
        }
        most = std::max(most, expected);
        CHECK(measured(ground, tracks, segments, turned) ==
              doctest::Approx(expected).epsilon(1e-6));
    }
    CHECK(most > 500); // of strips that do lap
}

} // namespace doubled_strips_test
