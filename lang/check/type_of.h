// The type of a formula by the unit rules of ops.h, told from what its lines, parameters and
// functions declare. It changes nothing and says nothing: the unit check (typing.h) applies the
// same rules and reports what does not fit.
#pragma once

#include <cstddef>
#include <optional>

#include "lang/check/ops.h"
#include "lang/check/sheet.h"

namespace acre::lang {

// Poison where the check has something to report, or something it rests on is poison. `function`:
// within a define, whose parameters and lines the formula reads.
Type type_of(const Sheet& sheet, NodeId node, const Function* function = nullptr);

// The same if one line were of another type: what a formula would be then. The quantity of a cost,
// which has the type of its formula, follows. Takes the nodes it looks at off `budget`; poison when
// that is used up.
Type type_if(const Sheet& sheet, NodeId node, LineId line, const Type& type, std::size_t& budget);

// Whether a line is what its formula is: the quantity of a cost, which may stand for another.
bool is_through(const Sheet& sheet, LineId line);
inline constexpr int most_quantities = 20; // of quantities of quantities that are followed

// The right side of a power where it is a whole number as written, without a unit, signed or not.
std::optional<int> whole_exponent(const Sheet& sheet, NodeId node);

} // namespace acre::lang
