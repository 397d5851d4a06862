// Actual against quote for a terminal, and the proposal for the season.
#pragma once

#include <string>

#include "engine/questions/variance.h"

namespace acre::cli {

struct VarianceNames {
    std::string quote, job;
};
std::string variance_text(const engine::Variance& variance, const VarianceNames& names, bool color);

// A season file with what the job taught. Nobody reads it until a person has: it is a proposal.
std::string season_proposal(const engine::Variance& variance, const VarianceNames& names);

} // namespace acre::cli
