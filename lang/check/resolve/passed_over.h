// What a job sets of its ground although its boundary gives it.
#pragma once

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// L831. `layout`: the value of the boundary, which is in force.
void report_passed_over(Resolution& r, LineId line, const Setting& of_the_job, NodeId layout);

} // namespace acre::lang::resolving
