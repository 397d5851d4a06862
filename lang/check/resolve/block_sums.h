// What is added up over the blocks of a job, and so belongs to each of them.
#pragma once

#include <optional>
#include <vector>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// By line: for a given that some `sum` adds up over several blocks, and for the givens of the same
// kind of unit that its own formula reads (`gross` for `area`), where that `sum` is written. Empty
// for a job of one piece of ground.
std::vector<std::optional<Span>> sums_over_blocks(Resolution& r);

// I610: `name` is set for all blocks at once, and `sum` counts it once for each.
void report_set_for_all(Resolution& r, const ast::Word& name, Span sum);
// The same of a boundary of the whole job, which would set what is added up.
void report_boundary_for_all(Resolution& r);

// L821: other blocks say how large they are, and this one takes the model's own figure.
void warn_of_silent_blocks(Resolution& r, const std::vector<std::optional<Span>>& sums);

} // namespace acre::lang::resolving
