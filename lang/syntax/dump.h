// The syntax tree as text, without places: two texts that mean the same have the same dump. For
// tests and for whoever wants to see how a text was read.
#pragma once

#include <string>

#include "lang/syntax/ast.h"

namespace acre::lang {

// One statement a line, inner lines indented. Formulas are fully bracketed: (a + (b * 2[ac])).
std::string dump(const ast::Module& module);
std::string dump(const ast::Module& module, ast::ExprId expr);

} // namespace acre::lang
