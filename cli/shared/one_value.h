// A value that is set on a command line or by a page's link is one value: such a link may come from
// a stranger, and must not write a statement.
#pragma once

#include <optional>
#include <string>

#include "lang/diag/diagnostic.h"

namespace acre::cli {

// C003: NAME=VALUE has more than a value. What cannot be read at all is told when it is compiled.
std::optional<lang::Diagnostic> more_than_a_value(const std::string& name,
                                                  const std::string& value);

} // namespace acre::cli
