// The shortest way from the end of one pull to the beginning of another for a machine that cannot
// turn tighter than its circle.
#pragma once

#include <array>
#include <vector>

#include "engine/field/plane.h"

namespace acre::engine {

struct Pose { // where the machine is and which way it faces
    Point at;
    double angle = 0; // radians, counter-clockwise from east
};

// Two arcs with a straight or a third arc between them (Dubins 1957, American Journal of
// Mathematics 79: 497-516: one of these is the shortest way forward under a bound on curvature; its
// six words as Shkel and Lumelsky 2001, Robotics and Autonomous Systems 34: 179-202, write them).
struct Turn {
    enum class Bend { Left, Straight, Right };
    struct Stretch {
        Bend bend = Bend::Straight;
        double length = 0; // m
    };
    Pose from;
    double radius = 0; // m, of every arc
    std::array<Stretch, 3> stretches;

    double length() const;
    // A loop: both arcs bend the same way with one the other way between them, as where the next
    // pull is nearer than the circle is wide.
    bool is_loop() const { return stretches[1].bend != Bend::Straight; }
};

// `diameter` of the turning circle, m, above 0.
Turn shortest_turn(const Pose& from, const Pose& to, double diameter);

// Length of the way from pose to pose in m: of the turn, or straight for a diameter of 0.
double turn_length(const Pose& from, const Pose& to, double diameter);

// Points along the turn, `step` metres apart at most; the first where it begins, the last where it
// ends.
std::vector<Point> turn_points(const Turn& turn, double step);

} // namespace acre::engine
