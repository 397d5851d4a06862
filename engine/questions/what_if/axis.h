// What can be varied: a given of the job, with its lawful and its plausible range as numbers.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/priced_job.h"
#include "engine/questions/what_if/refusal.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

struct Range {
    double low = 0, high = 0;
    bool contains(double x) const { return low <= x && x <= high; }
    double width() const { return high - low; }
};

struct Axis {
    std::uint32_t given = 0; // into Sheet::givens
    std::uint32_t input = 0; // into Plan::inputs
    lang::LineId line = 0;
    double value = 0;            // as the job has it, in the unit of the line
    std::uint32_t options = 0;   // of a choice: how many; 0: a number
    std::optional<Range> within; // lawful; where a bound is a formula, at the job's values
    std::optional<Range> swing;  // plausible
    lang::ast::SwingShape shape = lang::ast::SwingShape::Unstated;
};

// Every given that is a number or choice of its own, in the order of the sheet.
std::vector<Axis> all_axes(const PricedJob& job);

// Refuses a name that does not exist (with near names), a line, and a given that is computed from
// others.
std::optional<Axis> axis_named(const PricedJob& job, std::string_view name, Refusal& refusal);

// Refuses a swing that is empty, has no answer, or leaves the lawful range.
bool swing_is_sound(const lang::Sheet& sheet, const Axis& axis, Refusal& refusal);

// A line by name that is a number, or the line a job is about when `name` is empty: the price per
// unit, the price, or refused.
std::optional<lang::LineId> line_named(const lang::Sheet& sheet, const Compiled& compiled,
                                       std::string_view name, Refusal& refusal);

} // namespace acre::engine
