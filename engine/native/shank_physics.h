// The formulas of one deep shank, once for plain numbers, for numbers with slopes and for many
// grounds side by side. Only deep_draft.cpp and the search for the critical depth include this.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <span>

#include "engine/native/deep_draft.h"
#include "engine/native/dual.h"

namespace acre::engine::shank {

inline constexpr double radians = std::numbers::pi / 180;
inline constexpr double least_friction =
    0.01; // degrees: below it the closed form divides by nothing
inline constexpr double most_slot_friction = 45;
inline constexpr double endless = std::numeric_limits<double>::infinity(); // thick

inline double least(double a, double b) {
    return b < a ? b : a;
}
template <std::size_t N> Dual<N> least(const Dual<N>& a, const Dual<N>& b) {
    return b.value < a.value ? b : a;
}
inline double most(double a, double b) {
    return b > a ? b : a;
}
template <std::size_t N> Dual<N> most(const Dual<N>& a, const Dual<N>& b) {
    return b.value > a.value ? b : a;
}

// Slot factors by friction in degrees.
template <class T> struct Slot {
    T cohesion, overburden; // overburden: earth pressure at rest times Nq'
};
template <class T> Slot<T> slot(const T& friction) {
    using std::exp, std::sin, std::tan;
    const T phi = least(friction, T(most_slot_friction)) * radians;
    const T s = sin(phi), t = tan(phi);
    const T nq = (1.0 + s) / (1.0 - s) * exp(2 * std::numbers::pi * t);
    return {(nq - 1.0) / t, (1.0 - s) * nq};
}

// The shank: width, rake, and how wide the side crescents are for each depth.
template <class T> struct Tool { T width, sin_rake, cos_rake, cot_rake, spread, over_sin; };
// Forward rupture distance over depth, a quartic in the rake (degrees) from course worksheets on
// the narrow-tine papers; a third of the part beyond the tool's own reach does not count.
template <class T> Tool<T> tool(const T& width, const T& rake) {
    using std::cos, std::sin;
    const T m =
        4.0704 + rake * (-0.0940983 + rake * (1.49667e-3 + rake * (-1.21924e-5 + rake * 3.963e-8)));
    const T s = sin(rake * radians), c = cos(rake * radians);
    return {width, s, c, c / s, m - (m - 1.0) / 3.0, 1.0 / s};
}

// The wedge down to a depth, by sums of thickness × tangent of what lies above it: no iteration, no
// angle function, one root and two divisions. All by the depth and never over it: factors come out
// as N over the length, directions times the length of (depth, steel), so only products of one with
// the other mean something.
template <class T> struct Wedge {
    T weight, cohesion, adhesion; // N-factors
    T forward, down;              // sine and cosine of rake + steel friction
    T cot_plane;                  // of beta + friction
};
template <class T>
[[gnu::always_inline]] inline Wedge<T> wedge(const Tool<T>& k, const T& depth, const T& friction,
                                             const T& steel) {
    using std::sqrt;
    const T down = k.cos_rake * depth - k.sin_rake * steel;
    const T forward = k.sin_rake * depth + k.cos_rake * steel;
    // cot(beta + friction) that makes the weight factor least: the root of a quadratic
    const T p =
        down * friction * friction - depth * (forward * friction + steel * depth * k.over_sin);
    const T q = forward * friction * (k.cot_rake * depth + friction);
    const T x = -p / (q + sqrt(q * q - forward * (depth - k.cot_rake * friction) * friction * p));
    const T across = depth - x * friction; // cot(beta) is along over across
    const T along = x * depth + friction;
    const T over = 1.0 / (across * (down + forward * x));
    return {(k.cot_rake * across + along) * 0.5 * over,
            depth * (1.0 + x * x) * over,
            (1.0 - k.cot_rake * x) * across * over,
            forward,
            down,
            x};
}

template <class T> struct Layer {
    T thickness, weight, cohesion, adhesion, tan_friction, tan_steel;
    Slot<T> slot;
};

// What the layers above a depth add up to.
template <class T> struct Above {
    T top{0.0};        // the depth itself
    T friction{0.0};   // sum of thickness × tangent
    T steel{0.0};      // the same for steel
    T overburden{0.0}; // sum of thickness × unit weight
    T cohesion{0.0};   // sum of thickness × cohesion
    T moment{0.0};     // sum of thickness × cohesion × (top + bottom)
    T adhesion{0.0};   // sum of thickness × adhesion
};
template <class T>
[[gnu::always_inline]] inline Above<T> below(const Above<T>& s, const Layer<T>& l, const T& t) {
    const T bottom = s.top + t;
    return {bottom,
            s.friction + t * l.tan_friction,
            s.steel + t * l.tan_steel,
            s.overburden + t * l.weight,
            s.cohesion + t * l.cohesion,
            s.moment + t * l.cohesion * (s.top + bottom),
            s.adhesion + t * l.adhesion};
}

template <class T> struct Force { T forward, down; };
// Wedge down to x inside layer l, s being what lies above the layer.
template <class T>
[[gnu::always_inline]] inline Wedge<T> wedge_down_to(const Tool<T>& k, const Above<T>& s,
                                                     const Layer<T>& l, const T& x) {
    const T t = x - s.top;
    return wedge(k, x, s.friction + l.tan_friction * t, s.steel + l.tan_steel * t);
}
// Crescent down to x with that wedge.
template <class T>
[[gnu::always_inline]] inline Force<T> crescent(const Tool<T>& k, const Above<T>& s,
                                                const Layer<T>& l, const T& x, const Wedge<T>& n) {
    const T t = x - s.top;
    const T width = k.width + k.spread * x;
    const T cohesion = s.cohesion + l.cohesion * t;
    const T side = 2.0 * x * s.cohesion - s.moment + l.cohesion * t * t;
    const T force = n.weight * (s.overburden + l.weight * t) * x * width +
                    n.cohesion * (k.width * cohesion + k.spread * side) +
                    n.adhesion * k.width * (s.adhesion + l.adhesion * t);
    return {force * n.forward, force * n.down};
}

// Slot from x to bottom inside one layer, overburden given at x.
template <class T>
[[gnu::always_inline]] inline T slot_draft(const Tool<T>& k, const Layer<T>& l, const T& overburden,
                                           const T& x, const T& bottom) {
    const T t = bottom - x;
    return k.width * t *
           (l.cohesion * l.slot.cohesion + l.slot.overburden * (overburden + l.weight * t * 0.5));
}

template <class T> struct Ground {
    T depth;
    Tool<T> tool;
    std::array<Layer<T>, most_draft_layers> layer;
    std::size_t count = 0;

    std::span<const Layer<T>> layers() const { return {layer.data(), count}; }
};

// How many layers so many arguments say.
inline std::size_t layers_of(std::size_t args) {
    return args == old_draft_args ? 4 : (args - 3) / 6;
}
// Where the unit weight of a layer stands, its other figures behind it. Earlier versions gave the
// last layer no thickness.
inline std::size_t weight_of(std::size_t args, std::size_t layer) {
    const bool without = args == old_draft_args && layer + 1 == layers_of(args);
    return 3 + 6 * layer + (without ? 0 : 1);
}

// What the angles of a layer come to.
template <class T> struct Angles {
    T tan_friction, tan_steel;
    Slot<T> slot;
};
template <class T> Angles<T> angles(const T& friction, const T& steel) {
    using std::tan;
    const T phi = most(friction, T(least_friction));
    return {tan(phi * radians), tan(steel * radians), slot(phi)};
}

// Of so many arguments. `at(i)`: argument i; `turned(friction, steel, j)`: the angles of layer j;
// `lowest`: the thickness of the last one.
template <class T, class At, class Turned>
Ground<T> ground(std::size_t args, const Tool<T>& tool, At at, Turned turned, const T& lowest) {
    Ground<T> g{at(0), tool, {}, layers_of(args)};
    for (std::size_t j = 0; j < g.count; ++j) {
        const bool last = j + 1 == g.count;
        const std::size_t i = weight_of(args, j);
        const Angles<T> a = turned(at(i + 3), at(i + 4), j);
        g.layer[j] = {last ? lowest : at(i - 1),
                      at(i),
                      at(i + 1),
                      at(i + 2),
                      a.tan_friction,
                      a.tan_steel,
                      a.slot};
    }
    return g;
}

} // namespace acre::engine::shank
