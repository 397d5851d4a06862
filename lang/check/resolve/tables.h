// Tables of break points.
#pragma once

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// The rows are plain numbers in the units of the head. Reports U309.
Table read_table(Resolution& r, const ast::Module& module, const ast::Table& ast, Span span);

} // namespace acre::lang::resolving
