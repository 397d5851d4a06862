// Where a line reaches a value as one given moves: every crossing in a range, jumps over the value
// as jumps, or what the line does instead.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/priced_job.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/refusal.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

struct BreakEvenQuestion {
    std::string_view given; // what moves
    std::string_view line;  // empty: the price per unit
    double wanted = 0;      // in the unit of the line; left out against another job
    std::optional<Range>
        between; // in the unit of the given; left out: its lawful range, else its swing
};

enum class CrossingKind : std::uint8_t {
    Root,  // the line is the value at `x`
    Jump,  // the line passes the value without ever being it: between `x` and `x_after`, which are
           // neighbours
    Touch, // the line comes up to the value at `x` and turns back
    Level, // the line is the value from `x` to `x_after`
};

struct Crossing {
    CrossingKind kind = CrossingKind::Root;
    double x = 0, x_after = 0;
    double before = 0, after = 0;   // of a jump: the line on either side
    bool rising = false;            // of a root or jump: seen towards greater x
    lang::LineId line = lang::none; // of a jump: whose formula decides
};

struct BreakEven {
    Axis axis;
    lang::LineId line = 0;
    Range range;
    double wanted = 0;
    double now = 0; // the line as the job has it (against another job: its lead over it)
    std::vector<Crossing> crossings; // in order of x
    bool cut = false;                // there are more than max_crossings, or searched_to
    std::optional<double>
        searched_to; // the search took more than max_effort: beyond this nobody looked
    double least = 0, least_at = 0, greatest = 0, greatest_at = 0; // of the line over the range
    double nearest = 0, nearest_at = 0; // where it comes nearest to the value
    std::vector<Range> unanswered;      // of the given: stretches in which the job has no answer
    std::size_t looked_at = 0;          // points
};

inline constexpr std::size_t max_crossings = 1'000;

// Refuses names that do not exist, choices, computed givens, a range outside the lawful one, and a
// line on which the given has no say. Between neighbouring points that decide alike the line is
// taken to be smooth: a pair of crossings closer than a four-thousandth of the range that no
// decision and no dent between the points gives away is not seen.
std::optional<BreakEven> break_even(const PricedJob& job, const BreakEvenQuestion& question,
                                    Refusal& refusal);

// The same against the same line of another job (or option): where this one less the other is zero.
// Every y of the answer is that difference.
std::optional<BreakEven> break_even_against(const PricedJob& job, const PricedJob& other,
                                            const BreakEvenQuestion& question, Refusal& refusal);

} // namespace acre::engine
