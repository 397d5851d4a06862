// The messages about a `set` whose name is there and cannot be set, or not so.
#pragma once

#include "lang/check/resolve/resolution.h"
#include "lang/syntax/ast.h"

namespace acre::lang::resolving {

void report_computed(Resolution& r, const ast::Word& name, LineId line); // I606
// One value for the whole job, set in an entry. I601.
void report_not_of_entry(Resolution& r, const ast::Word& name, LineId line);
// `west.area` where area is one for each block and there is no block west: true, and I607.
bool report_no_such_entry(Resolution& r, const ast::Word& name);

} // namespace acre::lang::resolving
