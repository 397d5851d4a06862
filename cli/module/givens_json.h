// Schema acrewright.givens/1: what may be changed in a job. Field by field in cli/README.md.
#pragma once

#include "cli/shared/reply.h"
#include "engine/questions/givens.h"

namespace acre::cli {

Document givens_json(const engine::GivensAnswer& answer);

} // namespace acre::cli
