// Questions that would take too long are refused, with what they would take.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "engine/plan/effort.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Q004 when `effort`, in steps of calculation, is more than `limit`. `question`: "the grid".
std::optional<lang::Diagnostic> beyond_effort(std::string_view question, double effort,
                                              std::uint64_t limit = max_effort);

} // namespace acre::engine
