// Slope, swing and share of the spread answer three questions: whether they name the same given,
// and why not.
#pragma once

#include "engine/questions/risk/risk.h"
#include "engine/questions/what_if/sensitivity.h"

namespace acre::engine {

// Of the line whose spread is divided. Nothing without shares.
MattersMost matters_most(const RiskAnswer& risk, const SensitivityAnswer& sensitivity);

} // namespace acre::engine
