#include "engine/field/turn.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace acre::engine {
namespace {

using Bend = Turn::Bend;
constexpr double whole_turn = 2 * std::numbers::pi;

// An angle brought to 0 .. 2 pi; one that rounding leaves just below a whole turn is none.
double positive(double angle) {
    angle = std::fmod(angle, whole_turn);
    if (angle < 0)
        angle += whole_turn;
    return angle > whole_turn - 1e-9 ? 0 : angle;
}

struct Word { // lengths in radii
    std::array<Bend, 3> bends;
    double first = 0, middle = std::numeric_limits<double>::infinity(), last = 0;
    double length() const { return first + middle + last; }
};

// Both poses seen from the line between them: `far` apart in radii, facing `a` and `b` to it.
struct Seen {
    double far, a, b;
    double sin_a = std::sin(a), cos_a = std::cos(a), sin_b = std::sin(b), cos_b = std::cos(b);
    double cos_ab = std::cos(a - b);
};

void take(Word& best, const Word& word) {
    if (word.length() < best.length())
        best = word;
}

// Outer tangents: both arcs the same way.
void same_way(const Seen& s, Word& best) {
    const double base = 2 + s.far * s.far - 2 * s.cos_ab;
    const double difference = 2 * s.far * (s.sin_a - s.sin_b);
    if (const double square = base + difference; square >= 0) {
        const double way = std::atan2(s.cos_b - s.cos_a, s.far + s.sin_a - s.sin_b);
        take(best, {{Bend::Left, Bend::Straight, Bend::Left},
                    positive(way - s.a),
                    std::sqrt(square),
                    positive(s.b - way)});
    }
    if (const double square = base - difference; square >= 0) {
        const double way = std::atan2(s.cos_a - s.cos_b, s.far - s.sin_a + s.sin_b);
        take(best, {{Bend::Right, Bend::Straight, Bend::Right},
                    positive(s.a - way),
                    std::sqrt(square),
                    positive(way - s.b)});
    }
}

// Inner tangents: one arc each way.
void other_way(const Seen& s, Word& best) {
    const double base = s.far * s.far - 2 + 2 * s.cos_ab;
    const double sum = 2 * s.far * (s.sin_a + s.sin_b);
    if (const double square = base + sum; square >= 0) {
        const double straight = std::sqrt(square);
        const double way =
            std::atan2(-s.cos_a - s.cos_b, s.far + s.sin_a + s.sin_b) - std::atan2(-2.0, straight);
        take(best, {{Bend::Left, Bend::Straight, Bend::Right},
                    positive(way - s.a),
                    straight,
                    positive(way - s.b)});
    }
    if (const double square = base - sum; square >= 0) {
        const double straight = std::sqrt(square);
        const double way =
            std::atan2(s.cos_a + s.cos_b, s.far - s.sin_a - s.sin_b) - std::atan2(2.0, straight);
        take(best, {{Bend::Right, Bend::Straight, Bend::Left},
                    positive(s.a - way),
                    straight,
                    positive(s.b - way)});
    }
}

// Three arcs in a row, the middle one longer than half a circle.
void loops(const Seen& s, Word& best) {
    const double base = 6 - s.far * s.far + 2 * s.cos_ab;
    const double difference = 2 * s.far * (s.sin_a - s.sin_b);
    if (const double cosine = (base + difference) / 8; std::abs(cosine) <= 1) {
        const double middle = positive(whole_turn - std::acos(cosine));
        const double way = std::atan2(s.cos_a - s.cos_b, s.far - s.sin_a + s.sin_b);
        const double first = positive(s.a - way + middle / 2);
        take(best, {{Bend::Right, Bend::Left, Bend::Right},
                    first,
                    middle,
                    positive(s.a - s.b - first + middle)});
    }
    if (const double cosine = (base - difference) / 8; std::abs(cosine) <= 1) {
        const double middle = positive(whole_turn - std::acos(cosine));
        const double way = std::atan2(s.cos_b - s.cos_a, s.far + s.sin_a - s.sin_b);
        const double first = positive(way - s.a + middle / 2);
        take(best, {{Bend::Left, Bend::Right, Bend::Left},
                    first,
                    middle,
                    positive(s.b - s.a - first + middle)});
    }
}

// A pose `length` further along a stretch.
Pose along(const Pose& from, const Turn::Stretch& stretch, double radius, double length) {
    if (stretch.bend == Bend::Straight)
        return {
            {from.at.x + length * std::cos(from.angle), from.at.y + length * std::sin(from.angle)},
            from.angle};
    const double sign = stretch.bend == Bend::Left ? 1 : -1;
    const double angle = from.angle + sign * length / radius;
    return {{from.at.x + sign * radius * (std::sin(angle) - std::sin(from.angle)),
             from.at.y - sign * radius * (std::cos(angle) - std::cos(from.angle))},
            angle};
}

} // namespace

double Turn::length() const {
    return stretches[0].length + stretches[1].length + stretches[2].length;
}

Turn shortest_turn(const Pose& from, const Pose& to, double diameter) {
    constexpr double same_place = 1e-6; // m; rounding behind the machine is no circle to drive
    const double radius = diameter / 2;
    const bool there = std::hypot(to.at.x - from.at.x, to.at.y - from.at.y) < same_place;
    const double x = there ? 0 : to.at.x - from.at.x;
    const double y = there ? 0 : to.at.y - from.at.y;
    const double bearing = x == 0 && y == 0 ? from.angle : std::atan2(y, x);
    const Seen seen{std::hypot(x, y) / radius, from.angle - bearing, to.angle - bearing};
    Word best;
    same_way(seen, best);
    other_way(seen, best);
    loops(seen, best);
    return {from,
            radius,
            {{{best.bends[0], best.first * radius},
              {best.bends[1], best.middle * radius},
              {best.bends[2], best.last * radius}}}};
}

double turn_length(const Pose& from, const Pose& to, double diameter) {
    return diameter > 0 ? shortest_turn(from, to, diameter).length()
                        : std::hypot(to.at.x - from.at.x, to.at.y - from.at.y);
}

std::vector<Point> turn_points(const Turn& turn, double step) {
    std::vector<Point> points{turn.from.at};
    Pose at = turn.from;
    for (const Turn::Stretch& stretch : turn.stretches) {
        if (stretch.length <= 0)
            continue;
        const double parts = std::ceil(stretch.length / step);
        for (double part = 1; part <= parts; ++part)
            points.push_back(along(at, stretch, turn.radius, stretch.length * part / parts).at);
        at = along(at, stretch, turn.radius, stretch.length);
    }
    return points;
}

} // namespace acre::engine
