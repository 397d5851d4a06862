// What a job risks: the page, the picture and the JSON of one answer.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/chart/histogram.h"
#include "cli/shared/job.h"
#include "engine/questions/risk/risk.h"

namespace acre::cli {

inline constexpr std::uint32_t max_threads = 256;

struct RiskPage {
    const engine::PricedJob* job = nullptr;
    engine::Risk risk;
    // Of the line whose spread is divided, to set slope and swing beside the shares; empty when it
    // has none.
    std::optional<SensitivityPage> sensitivity;
    bool lump = false; // paid whatever the quantities
    bool names = false, color = false;

    const lang::Sheet& sheet() const { return job->sheet(); }
    std::string name_of(const engine::Measured& measured) const;
    std::string name_of(const engine::Factor& factor) const;
};

// Which given matters most, by three measures, and why they differ where they do.
struct Agreement {
    std::string by_slope, by_swing, by_share; // safe; empty: none has any
    bool agree = false;
    std::vector<std::string> why; // sentences; only when they differ
};
Agreement agreement(const RiskPage& page);

// The first line, and the profit where there is a price.
std::vector<Histogram> risk_histograms(const RiskPage& page);

std::string risk_text(const RiskPage& page);
std::string risk_svg(const RiskPage& page);
std::string risk_json(const RiskPage& page);

// "a requirement is not met", by what stopped the trial.
const char* fault_words(engine::LaneFault fault);

} // namespace acre::cli
