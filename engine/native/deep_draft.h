// Draft of one deep shank in layered ground. Above a critical depth the soil breaks forward and
// sideways in a crescent; below it the shank only pushes soil aside in a slot. The critical depth
// is the one that takes the least draft.
//
// Crescent: two-dimensional passive wedge with the side crescents as extra width (McKyes 1985;
// Godwin and Spoor 1977, J. agric. Engng Res. 22:213; Godwin and O'Dogherty 2007, J. Terramechanics
// 44:1). Slot: Meyerhof's deep strip footing turned on its side (Godwin and Spoor 1977), recalled.
// Layers are summed: friction and unit weight by thickness, cohesion over the failing width.
//
// Units: any one system in which force = stress × length². The signature in
// models/library/deep-draft.rate uses ft and lbf.
#pragma once

#include <array>
#include <cstddef>
#include <span>

#include "engine/native/native.h"

namespace acre::engine {

inline constexpr std::size_t most_draft_layers = 8;

// Arguments in this order: depth, width, rake, then for each of one to eight layers from the top
// its thickness, unit weight, cohesion, adhesion, friction angle and steel friction angle. Angles
// in degrees. A layer of no thickness is not there; the last one goes on for ever, whatever its
// thickness.
inline constexpr std::size_t draft_args(std::size_t layers) {
    return 3 + 6 * layers;
}
// What texts of earlier versions call: four layers, the last without its thickness.
inline constexpr std::size_t old_draft_args = 3 + 6 * 4 - 1;

// N-factors of the passive wedge, with the failure angle that makes the weight factor least.
struct WedgeFactors {
    double beta = 0; // degrees
    double weight = 0, cohesion = 0, adhesion = 0, surcharge = 0;
};
WedgeFactors wedge_factors(double rake, double steel_friction, double friction);

// Factors of the slot: cohesion 2 + 2 pi without friction. Friction above 45 degrees counts as 45.
struct SlotFactors {
    double cohesion = 0, overburden = 0;
};
SlotFactors slot_factors(double friction);

struct ShankDraft {
    double draft = 0;          // crescent and slot
    double crescent = 0;       // horizontal force of the crescent
    double slot = 0;           // horizontal force of the slot
    double critical_depth = 0; // where one ends and the other begins
    double down_force = 0;     // the soil presses the shank down with this; negative: lifts it
};
// NaN in every field where there is no answer. The least draft over critical depths depth × i / 400
// and the boundaries of layers.
ShankDraft shank_draft(std::span<const double> args);
// The same at a critical depth given, not sought.
ShankDraft shank_draft_at(std::span<const double> args, double critical_depth);

// shank_draft, shank_critical_depth, shank_slot_draft, shank_down_force, each of the arguments
// above, and each as earlier versions had it.
std::span<const NativeFunction> deep_draft_functions();

} // namespace acre::engine
