// The compiled plan as a table, and as JSON: schema acrewright.plan/1, field by field in
// cli/README.md.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/plan_listing.h"

namespace acre::cli {

std::string plan_text(const engine::PlanListing& listing, bool color);
Document plan_json(const engine::PlanListing& listing);

} // namespace acre::cli
