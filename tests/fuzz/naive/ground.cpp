#include "tests/fuzz/naive/ground.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace acre::fuzz::naive {
namespace {

struct Edge {
    Spot low, high;
    std::size_t shape;

    double at(double y) const { return low.x + (high.x - low.x) * (y - low.y) / (high.y - low.y); }
    bool upright() const { return low.x == high.x; }
};

template <class Visit> void visit_edges(const Shape& shape, Visit&& visit) {
    for (const Loop& loop : shape)
        for (std::size_t i = 0; i < loop.size(); ++i)
            visit(loop[i], loop[(i + 1) % loop.size()]);
}

std::vector<Edge> rising_edges(std::span<const Shape> shapes) {
    std::vector<Edge> edges;
    for (std::size_t i = 0; i < shapes.size(); ++i)
        visit_edges(shapes[i], [&](Spot a, Spot b) {
            if (a.y != b.y)
                edges.push_back(a.y < b.y ? Edge{a, b, i} : Edge{b, a, i});
        });
    return edges;
}

// Where edges of the band meet, and its ends.
std::vector<double> levels(std::span<const Edge> active, double low, double high) {
    std::vector<double> ys{low, high};
    for (std::size_t i = 0; i < active.size(); ++i)
        for (std::size_t k = i + 1; k < active.size(); ++k) {
            if (active[i].upright() && active[k].upright())
                continue;
            const double before = active[i].at(low) - active[k].at(low);
            const double after = active[i].at(high) - active[k].at(high);
            if ((before < 0) != (after < 0) && before != after)
                ys.push_back(low + (high - low) * before / (before - after));
        }
    std::sort(ys.begin(), ys.end());
    return ys;
}

} // namespace

std::vector<Cut> cuts_at(const Shape& shape, double y) {
    std::vector<Cut> cuts;
    for (const Edge& edge : rising_edges({&shape, 1}))
        if (edge.low.y <= y && y < edge.high.y) {
            const double run = std::abs(edge.high.x - edge.low.x);
            const double rise = edge.high.y - edge.low.y;
            cuts.push_back({edge.at(y), run > rise, std::abs(run - rise) < 1e-6 * rise});
        }
    std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) { return a.x < b.x; });
    return cuts;
}

bool has(const Shape& shape, Spot spot) {
    bool inside = false;
    for (const Cut& cut : cuts_at(shape, spot.y))
        inside = inside != (cut.x > spot.x);
    return inside;
}

double way_to_edge(const Shape& shape, Spot spot) {
    double least = std::numeric_limits<double>::infinity();
    visit_edges(shape, [&](Spot a, Spot b) {
        const double square = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
        const double along =
            square > 0 ? ((spot.x - a.x) * (b.x - a.x) + (spot.y - a.y) * (b.y - a.y)) / square : 0;
        const double t = std::clamp(along, 0.0, 1.0);
        least = std::min(
            least, std::hypot(spot.x - a.x - t * (b.x - a.x), spot.y - a.y - t * (b.y - a.y)));
    });
    return least;
}

double length_of_edges(const Shape& shape) {
    double sum = 0;
    visit_edges(shape, [&](Spot a, Spot b) { sum += std::hypot(b.x - a.x, b.y - a.y); });
    return sum;
}

std::vector<double> areas_by(std::span<const Shape> shapes, std::size_t kinds,
                             const std::function<int(const std::vector<char>&)>& kind) {
    std::vector<double> areas(kinds, 0.0);
    const std::vector<Edge> edges = rising_edges(shapes);
    std::vector<double> heights;
    for (const Edge& edge : edges) {
        heights.push_back(edge.low.y);
        heights.push_back(edge.high.y);
    }
    std::sort(heights.begin(), heights.end());
    std::vector<char> inside(shapes.size(), 0);
    std::vector<Edge> active;
    std::vector<std::pair<double, std::size_t>> across;
    for (std::size_t band = 0; band + 1 < heights.size(); ++band) {
        if (!(heights[band + 1] > heights[band]))
            continue;
        active.clear();
        for (const Edge& edge : edges)
            if (edge.low.y <= heights[band] && edge.high.y >= heights[band + 1])
                active.push_back(edge);
        const std::vector<double> ys = levels(active, heights[band], heights[band + 1]);
        for (std::size_t i = 0; i + 1 < ys.size(); ++i) {
            const double middle = (ys[i] + ys[i + 1]) / 2;
            across.clear();
            for (const Edge& edge : active)
                across.emplace_back(edge.at(middle), edge.shape);
            std::sort(across.begin(), across.end());
            for (std::size_t k = 0; k + 1 < across.size(); ++k) {
                inside[across[k].second] ^= 1;
                if (const int of = kind(inside); of >= 0)
                    areas[static_cast<std::size_t>(of)] +=
                        (across[k + 1].first - across[k].first) * (ys[i + 1] - ys[i]);
            }
            if (!across.empty())
                inside[across.back().second] ^= 1;
        }
    }
    return areas;
}

double area_of(const Shape& shape) {
    return areas_by(
        {&shape, 1}, 1, [](const std::vector<char>& in) { return in[0] ? 0 : -1; })[0];
}

} // namespace acre::fuzz::naive
