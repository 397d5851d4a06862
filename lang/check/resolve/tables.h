// Tables of break points.
#pragma once

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// The rows in the units of the head, each converted once from what is written. Reports U304, U309, S106, S112, S113.
Table read_table(Resolution& r, const ast::Module& module, const ast::Table& ast, Span span);

} // namespace acre::lang::resolving
