// What a value is: a number with a unit, a condition, or one of a choice.
#pragma once

#include <cstdint>

#include "lang/units/unit.h"

namespace acre::lang {

using ChoiceId = std::uint32_t;

struct Type {
    enum class Kind : std::uint8_t {
        Number,
        Truth,
        Choice,
        Poison
    } kind = Kind::Number; // Poison: reported already, stay silent
    ChoiceId choice = 0;   // of a Choice
    Unit unit;             // of a Number
};

} // namespace acre::lang
