// Schema acrewright.price/1: the price of a job for other programs. Field by field in
// cli/README.md.
#pragma once

#include <string>

#include "engine/plan/compile_plan.h"
#include "engine/questions/estimate.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::cli {

std::string price_json(const lang::CheckedSheet& sheet, const engine::Compiled& compiled,
                       const engine::Values& values, const engine::Estimate& estimate,
                       const lang::SourceMap& sources);

} // namespace acre::cli
