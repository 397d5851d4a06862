// What moves a line: its slope by every given, what the swings do to it, the steps and kinks
// nearby, and the givens that do not act alone.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/priced_job.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/refusal.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

// A place near the job's value, on one side of it, at which the line jumps (a step) or bends (a
// kink).
struct Nearby {
    bool step = false;
    double at = 0;       // the last value of the given before it, seen from the job
    double distance = 0; // at less the job's value: negative below it
    double before = 0,
           after = 0; // of a step: the line on this side and beyond; of a kink: its slopes
    lang::LineId line =
        lang::none; // whose formula decides there; none: a condition or another line's bound
};

struct Effect {
    Axis axis;
    double slope = 0;       // d(line)/d(given); NaN where it has none
    std::string slope_unit; // "$/ac per $/gal"; as the two lines are written
    double elasticity =
        0; // per cent of the line for one per cent of the given; NaN where either is zero
    bool reached = false; // the line rests on this given at all
    std::optional<double> at_low,
        at_high;                   // the line at the ends of the swing; NaN: no answer there
    std::vector<double> at_option; // of a choice: the line at every option
    std::string swing_trouble;     // why the swing was not used; empty: it was, or there is none
    std::vector<Nearby>
        nearby; // steps and kinks, nearest first; at most one of each on either side

    // By how much the line moves over the swing or the options, from its least to its greatest; 0
    // when neither is known.
    double width(double base) const;
};

// Two givens that do not act alone: what the corner of their swings adds to the sum of their own
// effects.
struct Interaction {
    std::size_t first = 0, second = 0;            // into Sensitivity::effects
    bool first_high = false, second_high = false; // which corner: the one where it is greatest
    double amount = 0; // f(both) - f(first) - f(second) + f(neither), in the unit of the line
};

struct Sensitivity {
    lang::LineId line = 0;
    double value = 0;
    std::string unit;
    std::vector<Effect> effects; // those with a swing by what it does, then the rest by elasticity
    std::vector<Interaction>
        interactions; // greatest first; those of less than a thousandth of the line are left out
    std::size_t looked_near =
        0; // of the effects, from the first: for so many steps and kinks were looked for
    std::size_t looked_together = 0; // and so many of those with a swing were tried two by two
    std::vector<lang::LineId>
        computed; // givens that this job computes from others: they have no slope of their own
};

struct SensitivityLimits {
    std::size_t interactions = 10; // at most so many are kept
};

// Pairs are tried among so many givens at most, those whose swings do most.
inline constexpr std::size_t max_paired = 200;

// `line` empty: the price per unit. Refuses a line that does not exist or has no value, more than
// max_moved givens that swing or choose, and a line of so many steps that their swings alone take
// more than max_effort. Steps, kinks and pairs are looked for from the givens that do most down, as
// far as max_effort goes.
std::optional<Sensitivity> sensitivity(const PricedJob& job, std::string_view line,
                                       Refusal& refusal, SensitivityLimits limits = {});

} // namespace acre::engine
