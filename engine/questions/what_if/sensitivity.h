// What moves a line: its slope by every given, what the swings do to it, the steps and kinks
// nearby, and the givens that interact.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/range.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct SensitivityQuestion {
    std::string line;              // empty: the price per unit
    bool names = false;            // lines and givens are called by their names
    std::size_t interactions = 10; // at most so many are kept
    bool nearby = true;            // false: steps and kinks are not looked for
};

// A place near the job's value, on one side of it, at which the line jumps (a step) or bends (a
// kink).
struct Nearby {
    bool step = false;
    double at = 0;       // the last value of the given before it, seen from the job
    double distance = 0; // at less the job's value: negative below it
    // Of a step: the line on this side and beyond; of a kink: its slopes.
    double before = 0, after = 0;
    std::string line; // whose formula decides there; empty: a condition or another line's bound
};

struct Effect {
    Subject given; // called by its name where another given has the same label
    double value = 0;
    std::optional<Range> swing; // or a range of choice
    bool chosen = false;        // the latter
    bool reached = false;       // the line rests on this given at all
    // A boundary of the job was laid out by it: it is not moved here, for the pulls would stay.
    bool relaid = false;
    // The line at the ends of the swing; NaN: no answer there.
    std::optional<double> at_low, at_high;
    std::vector<double> at_option; // of a choice: the line at every option
    std::string swing_trouble;     // why the swing was not used; empty: it was, or there is none

    // Of the line that slopes are of: see SensitivityAnswer.
    double slope = 0;       // NaN where it has none
    std::string slope_unit; // "$/ac per $/gal"; as the two lines are written
    // Percent of the line for one percent of the given; NaN where either is zero.
    double elasticity = 0;
    std::vector<Nearby> nearby; // nearest first; at most one of each kind on either side

    // By how much the line moves over the swing or the options, from its least to its greatest; 0
    // when neither is known.
    double width(double base) const;
    // The options at which the line is least and greatest.
    std::size_t least_option() const;
    std::size_t greatest_option() const;
};

// Two givens that interact: what the corner of their swings adds to the sum of their own effects.
struct Interaction {
    std::size_t first = 0, second = 0;            // into SensitivityAnswer::effects
    bool first_high = false, second_high = false; // which corner: the one where it is greatest
    double amount = 0; // f(both) - f(first) - f(second) + f(neither), in the unit of the line
};

// What the givens of one block do; the givens of the whole job are in none.
struct BlockSwings {
    std::string name, label;
    std::size_t givens = 0; // that move the line over their swings or choices
    double widths = 0;      // of these, added up: each moved alone
    std::size_t most = 0;   // into SensitivityAnswer::effects, the one that does most
};

struct SensitivityAnswer {
    std::string title; // of the job
    Subject line;
    double value = 0;
    std::optional<double> charged; // as `price` shows it, where that is another figure
    // A rounded price does not move between its steps, so its slopes say nothing: then slopes,
    // steps and kinks are those of the cost before rounding.
    Subject slopes_of;
    double slopes_value = 0;
    bool rounded = false;

    std::vector<Effect> effects;       // those with a swing by what it does, then by elasticity
    std::vector<std::size_t> by_swing; // of these, those that move the line over swing or options
    std::vector<std::size_t> by_slope; // those with a slope, greatest elasticity first
    // Greatest first; those of less than a thousandth of the line are left out.
    std::vector<Interaction> interactions;
    std::size_t looked_near = 0;       // for so many givens steps and kinks were looked for
    std::size_t looked_together = 0;   // and so many of those with a swing were tried two by two
    std::vector<BlockSwings> blocks;   // as the job lists them; those that move the line
    std::vector<std::string> computed; // givens that this job computes from others
};

// Pairs are tried among so many givens at most, those whose swings do most.
inline constexpr std::size_t max_paired = 200;

// Q001, Q002: a line that does not exist or has no value; Q006: more than max_moved givens that
// swing or choose; Q004: a line of so many steps that their swings alone take more than max_effort;
// what stands in the way of the line as the job has it. Steps, kinks and pairs are looked for from
// the givens that do most down, as far as max_effort goes.
lang::Outcome<SensitivityAnswer> ask(const PricedJob& job, const SensitivityQuestion& question);

} // namespace acre::engine
