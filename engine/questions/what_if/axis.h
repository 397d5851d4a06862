// What can be varied: a given of the job, with its allowed and its plausible range as numbers.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/questions/what_if/range.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct Axis {
    std::uint32_t given = 0; // into Sheet::givens
    std::uint32_t input = 0; // into Plan::inputs
    lang::LineId line = 0;
    double value = 0;            // as the job has it, in the unit of the line
    std::uint32_t options = 0;   // of a choice: how many; 0: a number
    std::optional<Range> within; // allowed; where a bound is a formula, at the job's values
    std::optional<Range> swing;  // plausible, or to choose from
    bool chosen = false;         // the latter: settled before work starts
    // Of a computed given that swings by shares of it: `value` is 1, `swing` shares, and the line
    // is `unit` times them. Otherwise 1.
    bool is_share = false;
    double unit = 1;
    lang::ast::SwingShape shape = lang::ast::SwingShape::Unstated;
};

// Every given that is a number or choice of its own, in the order of the sheet.
std::vector<Axis> all_axes(const PricedJob& job);

// Q001: a name that does not exist (with near names in its help); Q002: a line, and a given that is
// computed from others.
lang::Outcome<Axis> find_axis(const PricedJob& job, std::string_view name);

// I620 at the swing, when it is empty, has no answer, or leaves the allowed range. Nothing: it can
// be used. The axis must have one.
std::optional<lang::Diagnostic> swing_trouble(const PricedJob& job, const Axis& axis);

} // namespace acre::engine
