#include "engine/native/native_bounds.h"

#include <algorithm>

#include "engine/native/shank_physics.h"

namespace acre::engine {
namespace {

// The soil presses a shank down while rake and friction on steel come to less than a right angle
// and the crescent pushes at all.
//
// With a = rake + mean steel friction < 90 degrees and the wedge's own quadratic
//   f(x) = S φ (1 - k φ) x² + 2 S φ (k + φ) x + C φ² - S φ - s / sin(rake),   k = cot(rake),
// where φ and s are the mean tangents of friction, S = sin(rake) + s cos(rake) and
// C = cos(rake) - s sin(rake), both above zero:
//   f(1 / φ) = (1 + φ²) (S / φ + C) > 0
//   f(-C / S) = -φ (C² + S²) sin(rake + 2 × steel) / (S sin(rake)) - φ² C (k C / S + 1)
//               - s / sin(rake) < 0
// so its one root between them is the x of wedge() (there f grows), `across` and
// `down + forward x` are above zero, and N of weight, (S φ (1 - k φ) x + S φ (k + φ)) over them, is
// a root over them. Only N of adhesion, with 1 - k x, may be below zero: not where
//   f(tan(rake)) = S φ (1 / cos² + φ tan(rake)) + C φ² - s / sin(rake) > 0,
// which holds from 45 degrees up where φ >= s; nor does it count where nothing sticks.
Bounds down_force(std::span<const Bounds> args) {
    constexpr double nearly_right = 89; // degrees: what is left is more than rounding
    constexpr double a_pound = 1;       // the same, of forces of ten thousands of them
    const Bounds rake = args[2];
    bool pressed = rake.high < nearly_right;
    bool grips = rake.low >= 45, sticks = false;
    for (std::size_t j = 0; j < shank::layers_of(args.size()); ++j) {
        const std::size_t at = shank::weight_of(args.size(), j);
        const Bounds adhesion = args[at + 2], friction = args[at + 3], steel = args[at + 4];
        pressed = pressed && rake.high + steel.high <= nearly_right;
        grips = grips && friction.low >= steel.high;
        sticks = sticks || !(adhesion.high <= 0);
    }
    return pressed && (grips || !sticks) ? Bounds{-a_pound, anything.high} : anything;
}

} // namespace

Bounds native_bounds(std::uint32_t function, std::span<const Bounds> args) {
    return native_functions()[function].name == "shank_down_force" ? down_force(args) : anything;
}

} // namespace acre::engine
