// What each operation makes of its operands' types: the unit rules alone, with no idea of names,
// places or messages.
#pragma once

#include <cstdint>
#include <optional>

#include "lang/check/sheet.h"
#include "lang/check/type.h"

namespace acre::lang {

// Why an operation cannot be. `Poisoned` is no reason: an operand was reported already.
enum class Mismatch : std::uint8_t {
    None,
    Poisoned,
    UnlikeUnits,   // two sides of unlike dimensions
    UnlikeKinds,   // a number and a choice, or a truth and a number, side by side
    UnlikeChoices, // choices of different lists
    WantsNumber,
    WantsTruth,
    WantsPlain, // a number without a unit
    WantsAngle,
    NotAPower, // this exponent is only for plain numbers
    OddRoot,
    TooLarge, // the unit does not fit
};

// What the operation gives, and the unit each operand is converted to first (its own where nothing
// is converted).
struct Applied {
    Mismatch mismatch = Mismatch::None;
    int operand = 0; // 0 or 1: which one is at fault, for WantsNumber … WantsAngle
    Type type;       // Poison when there is a mismatch
    Unit first, second;

    bool good() const { return mismatch == Mismatch::None; }
};

// An operation of one value, by its UnitRule (operations.h).
Applied apply(Op op, const Type& a);
// Of two; a function of many values: of what it makes of the values so far, and the next.
// `exponent`: the right side of a Power where it is a whole number as written.
Applied apply(Op op, const Type& a, const Type& b, std::optional<int> exponent = {});
// When, of its two branches: the second takes the unit of the first.
Applied apply_when(const Type& then, const Type& otherwise);
// Whether a value of type `given` can stand where `wanted` is declared; numbers of one dimension
// can (UnlikeUnits, WantsNumber, WantsTruth, UnlikeKinds, UnlikeChoices).
Mismatch fit(const Type& given, const Type& wanted);

} // namespace acre::lang
