// A quote binds, so no warning goes with it unless whoever issues it says so, by its code.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "lang/diag/outcome.h"

namespace acre::cli {

// Whether a quote waits for it; not for what touches risk alone.
bool must_be_accepted(const lang::Diagnostic& warning);

// What was said of a job and of each other option that is offered with it. R007: a warning that is
// not accepted. C003: something accepted that nobody warned of, so that a list of codes handed on
// from quote to quote accepts nothing unseen.
std::optional<lang::Diagnostic> not_accepted(const std::vector<lang::Said>& said,
                                             const std::vector<std::string>& accepted);
// Whether a quote waits for none of these warnings.
bool all_accepted(const lang::Said& said, const std::vector<std::string>& accepted);

} // namespace acre::cli
