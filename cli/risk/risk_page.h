// What a job risks: the page, the picture and the JSON of one answer.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cli/shared/chart/histogram.h"
#include "cli/shared/reply.h"
#include "engine/questions/risk/risk.h"

namespace acre::cli {

inline constexpr std::uint32_t max_threads = 256;

// The first line, and the profit where there is a price.
std::vector<Histogram> risk_histograms(const engine::RiskAnswer& risk);

std::string risk_text(const engine::RiskAnswer& risk, bool color);
std::string risk_svg(const engine::RiskAnswer& risk);
Document risk_json(const engine::RiskAnswer& risk);

} // namespace acre::cli
