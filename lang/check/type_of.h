// The type of a formula by the unit rules of ops.h, told from what its lines, parameters and
// functions declare. It changes nothing and says nothing: the unit check (typing.h) applies the
// same rules and reports what does not fit.
#pragma once

#include <optional>

#include "lang/check/ops.h"
#include "lang/check/sheet.h"

namespace acre::lang {

// Poison where the check has something to report, or something it rests on is poison. `function`:
// within a define, whose parameters and lines the formula reads.
Type type_of(const Sheet& sheet, NodeId node, const Function* function = nullptr);

// The same if one line were of another type: what a formula would be then. The quantity of a cost,
// which has the type of its formula, follows.
Type type_if(const Sheet& sheet, NodeId node, LineId line, const Type& type);

// The right side of a power where it is a whole number as written, without a unit, signed or not.
std::optional<int> whole_exponent(const Sheet& sheet, NodeId node);

} // namespace acre::lang
