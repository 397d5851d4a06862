// Prices side by side are in one money: nothing is converted.
#pragma once

#include <optional>

#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// U314 where the firm of `job` works in other money than `first`, another job's.
std::optional<lang::Diagnostic> in_other_money(const lang::Currency& first, const PricedJob& job);

} // namespace acre::engine
