// What the sheet knows of each operation: the rows of lang/syntax/operations.def.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "lang/check/sheet.h"

namespace acre::lang {

// What an operation makes of the units of its values; ops.cpp says each.
enum class UnitRule : std::uint8_t {
    Same,     // one number, and its unit stays
    Alike,    // numbers of one dimension, in the unit of the first
    Steps,    // one plain number, or a number and a step of its dimension
    Product,  // the units multiplied
    Quotient, // the units divided
    Power,    // a whole power as written of the unit, or plain numbers
    Root,     // half of every exponent
    Plain,    // a plain number, and gives one
    OfAngle,  // an angle, and gives a plain number
    ToAngle,  // a plain number, and gives an angle
    Order,    // numbers of one dimension, and gives a truth
    Equality, // the same, or choices of one list
    Truths,   // truths, and gives one
    Other,    // no operation of values: a name, a call, a choice between branches
};

struct OperationRow {
    std::string_view text;  // the sign, or the name of the function
    std::string_view shown; // the sign as the program writes it; empty for a function
    int strength;           // how tightly it binds; strongest of all for a function
    UnitRule units;
};

inline constexpr int strongest = 9;

inline constexpr auto operation_rows = std::to_array<OperationRow>({
#define ACRE_PREFIX(op, sign, strength, units, ...) {sign, sign, strength, UnitRule::units},
#define ACRE_BINARY(op, sign, shown, strength, units, ...) {sign, shown, strength, UnitRule::units},
#define ACRE_FUNCTION(op, name, least, most, form, units, ...)                                     \
    {name, {}, strongest, UnitRule::units},
#include "lang/syntax/operations.def"
    {"when", {}, 0, UnitRule::Other},
});

constexpr OperationRow row_of(Op op) {
    const auto at = static_cast<std::size_t>(op);
    return at < operation_rows.size() ? operation_rows[at]
                                      : OperationRow{{}, {}, strongest, UnitRule::Other};
}

} // namespace acre::lang
