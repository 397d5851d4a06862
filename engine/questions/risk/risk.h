// What a job risks: its givens drawn from their swings many times over, its events as they fall,
// and what that does to the price, the cost and the profit at the price quoted; and which given
// answers for how much of the spread.
//
// One seed gives one answer, whatever the number of threads. Memory does not grow with the number
// of trials.
#pragma once

#include <atomic>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/priced_job.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/job_lanes.h"
#include "engine/questions/what_if/refusal.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

inline constexpr std::uint64_t min_trials = 256;
inline constexpr std::uint64_t max_trials = 10'000'000'000;
inline constexpr unsigned scrambles =
    16; // independent repetitions of the points: their scatter is the error of the estimates

struct RiskQuestion {
    std::vector<std::string_view>
        lines; // beside cost, profit and margin; empty: the price per unit
    std::uint64_t trials = 1 << 20;
    // Fewer trials, and none for the shares, where so many come to more than max_effort
    // (engine/plan/effort.h): of a model that nobody has measured. False: as many as are asked for,
    // however long that takes; only the shares keep to ten times max_effort.
    bool within_effort = false;
    std::uint64_t seed = 1;
    unsigned threads = 1;
    // What is paid: each item by its rate for the quantity that comes about, a lump as quoted.
    // `total`: another price than the job's own. `lump`: the price is paid whatever the quantities.
    std::optional<double> total;
    bool lump = false;
    // Whose spread is divided among the givens: a line of `lines`, "cost", "profit" or "margin";
    // empty: the first line.
    std::string_view shares_of;
    std::uint64_t share_trials =
        1 << 16; // 0: not asked for. Each costs one reading of the job per given, and two more
    std::atomic<std::uint64_t>* done =
        nullptr; // counts trials as they go by, for whoever watches from another thread
    const std::atomic<bool>* stop = nullptr; // when it becomes true the answer is given up
};

// What was drawn: a given by its swing, or an event.
struct Factor {
    std::optional<Axis> axis;
    std::uint32_t event = 0; // into Sheet::events, when there is no axis
    std::string name, label;
};

struct Percentile {
    double share = 0; // 0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95
    double value = 0, error = 0;
};

// One answer over all trials. Errors are standard errors, from the scatter of the scrambles.
struct Measured {
    std::string name;               // "price.per_unit", "cost", "profit", "margin"
    lang::LineId line = lang::none; // of a line
    std::string unit;
    double at_job = 0; // as the job has it
    double mean = 0, mean_error = 0;
    double spread = 0, spread_error = 0; // standard deviation
    double least = 0, greatest = 0;
    std::vector<Percentile> percentiles;
    double bars_from = 0, bars_width = 0; // a histogram: bar k covers from + k width
    std::vector<std::uint64_t> bars;
};

struct WithoutAnswer { // a trial that has none
    LaneFault fault = LaneFault::None;
    std::vector<double> drawn; // by factor; of an event the number between 0 and 1 drawn for it
};

struct SpreadShare {
    std::size_t factor = 0;
    double first = 0, first_error = 0; // alone: Sobol' index of first order
    double total = 0, total_error = 0; // with all it works together with: total index
};
struct SpreadShares {
    std::size_t measured = 0;        // into Risk::measured
    double spread = 0;               // standard deviation that is divided
    std::uint64_t readings = 0;      // of the job
    std::vector<SpreadShare> shares; // greatest total first
};

struct Risk {
    std::uint64_t trials = 0, seed = 0, without_answer = 0;
    std::vector<Factor> factors;
    std::vector<Measured> measured; // lines, then cost, profit and margin if the model has a price
    std::optional<double> loss, loss_error; // the chance that what is paid does not cover the cost
    double paid = 0;                        // as quoted
    std::vector<WithoutAnswer> first_without; // the first few
    std::optional<SpreadShares> shares;
    bool dependent = false; // some swings move together: shares then belong to what is drawn first
    std::vector<lang::LineId> not_drawn; // givens with a swing that this job computes from others
};

// Lines asked for.
inline constexpr std::size_t max_measured = 100;

// Refuses too few and too many trials, too many lines, an unsound swing, correlations that
// contradict each other, lines that do not exist, a job in which nothing swings, and one of which
// no trial has an answer.
std::optional<Risk> risk(const PricedJob& job, const RiskQuestion& question, Refusal& refusal);

} // namespace acre::engine
