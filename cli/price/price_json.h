// Schema acrewright.price/1: the price of a job for other programs. Field by field in
// cli/README.md.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/priced_job.h"
#include "engine/questions/estimate.h"
#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::cli {

Document price_json(const engine::PricedJob& job, const engine::Estimate& estimate);

} // namespace acre::cli
