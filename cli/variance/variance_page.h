// Actual against quote: for people, for programs, and as a proposal for the season.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/variance.h"

namespace acre::cli {

std::string variance_text(const engine::VarianceAnswer& variance, bool color);

// Schema acrewright.variance/2. Field by field in cli/README.md.
Document variance_json(const engine::VarianceAnswer& variance);

// A season file with what the job tells us. Nobody reads it until a person has: it is a proposal.
std::string season_proposal(const engine::VarianceAnswer& variance);

} // namespace acre::cli
