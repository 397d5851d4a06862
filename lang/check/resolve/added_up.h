// What is added up over the entries of a list, and so belongs to each of them.
#pragma once

#include <vector>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// By line: for a given that some `sum` adds up over several entries, and for the givens of the same
// kind of unit that its own formula reads (`gross` for `area`), over which lists and where that
// `sum` is written. Empty for a job whose lists have one entry each.
std::vector<AddedUp> added_up_lines(Resolution& r);

// I610: `name` is set for all entries of `list` at once, and `sum` counts it once for each.
void report_set_for_all(Resolution& r, const ast::Word& name, std::uint32_t list, Span sum);
// The same of a boundary of the whole job, which would set what is added up.
void report_boundary_for_all(Resolution& r);

// L821: other entries say how large they are, and this one takes the model's own figure.
void warn_of_silent_entries(Resolution& r);

} // namespace acre::lang::resolving
