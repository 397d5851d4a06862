// Where a line reaches a value as one given moves: every crossing in a range, jumps over the value
// as jumps, or what the line does instead.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/range.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct BreakEvenQuestion {
    std::string given; // what moves
    std::string line;  // empty: the price per unit
    double wanted = 0; // in the unit of the line; left out against another job
    // In the unit of the given; left out: its allowed range, else its swing.
    std::optional<Range> between;
    bool names = false; // line and given are called by their names
    // $: the line and the value are left out. Asks where the direct cost and the overhead as quoted
    // reach this price, so that it leaves no profit.
    std::optional<double> price = {};
};

enum class CrossingKind : std::uint8_t {
    Root,  // the line is the value at `x`
    Jump,  // the line passes the value without ever being it: between `x` and `x_after`, which are
           // neighbors
    Touch, // the line comes up to the value at `x` and turns back
    Level, // the line is the value from `x` to `x_after`
};

struct Crossing {
    CrossingKind kind = CrossingKind::Root;
    double x = 0, x_after = 0;
    double before = 0, after = 0; // of a jump: the line on either side
    bool rising = false;          // of a root or jump: seen towards greater x
    std::string line;             // of a jump: whose formula decides; empty: none's
};

struct BreakEvenAnswer {
    std::string title;
    std::string against; // title of the other job; empty: against a value
    Subject given, line;
    double value = 0; // of the given, as the job has it
    Range range;
    double wanted = 0;
    std::optional<double> price; // as asked: `wanted` is what it leaves for direct cost
    double overhead = 0;         // $, as quoted; of a price
    double now = 0; // the line as the job has it (against another job: its lead over it)
    std::optional<double> charged;   // the same as `price` shows it, where that is another figure
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

// The line of a word for money where no line has that name: margin, profit, contribution, overhead,
// cost, price.
std::string line_of_word(const PricedJob& job, const std::string& word);

// Q001 and Q002: names that do not exist, choices, computed givens, a line on which the given has
// no say; Q003: a range that is empty or leaves the allowed one; Q004; what stands in the way of
// the job's price. Between neighboring points that decide alike the line is taken to be smooth: a
// pair of crossings closer than a four-thousandth of the range that no decision and no dent between
// the points gives away is not seen.
lang::Outcome<BreakEvenAnswer> ask(const PricedJob& job, const BreakEvenQuestion& question);

// The same against the same line of another job (or option): where this one less the other is zero.
// Every y of the answer is that difference. Q009: the two measure it in unlike units.
lang::Outcome<BreakEvenAnswer> ask(const PricedJob& job, const PricedJob& other,
                                   const BreakEvenQuestion& question);

} // namespace acre::engine
