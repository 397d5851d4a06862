// What moves a line: the page, the picture and the JSON of one answer.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "cli/shared/job.h"
#include "engine/questions/what_if/sensitivity.h"

namespace acre::cli {

struct SensitivityPage {
    const engine::PricedJob* job = nullptr;
    engine::Sensitivity of; // the line asked about
    // A rounded price stands still between its steps, so its slopes say nothing: then those of the
    // cost before rounding.
    std::optional<engine::Sensitivity> of_cost;
    bool names = false, all = false, color = false;

    const engine::Sensitivity& slopes() const { return of_cost ? *of_cost : of; }
    const lang::Sheet& sheet() const { return job->sheet(); }
    std::string name_of(
        const engine::Effect& effect) const; // safe; the line's own name where two have one label

  private:
    mutable std::unordered_map<std::string_view, std::size_t>
        labels_; // how many givens have it; filled when first asked
};

// `line` empty: the price. The job must outlive the page.
std::optional<SensitivityPage> ask_sensitivity(const engine::PricedJob& job,
                                               const std::string& line, engine::Refusal& refusal);

// The effects that have an answer over a swing or over options, as `of` ranks them; and all with a
// slope, greatest elasticity first.
std::vector<const engine::Effect*> swinging(const SensitivityPage& page);
std::vector<const engine::Effect*> sloping(const SensitivityPage& page);

std::string sensitivity_text(const SensitivityPage& page);
std::string sensitivity_svg(const SensitivityPage& page);
std::string sensitivity_json(const SensitivityPage& page);

} // namespace acre::cli
