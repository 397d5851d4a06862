// What a job risks: its givens drawn from their swings many times over, its events as they fall,
// and what that does to the price, the direct cost and the profit at the price quoted, with the
// overhead held at what was quoted; and which given answers for how much of the spread.
//
// One seed gives one answer, whatever the number of threads. Memory does not grow with the number
// of trials.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/risk/points.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/range.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::uint64_t min_trials = 256;
inline constexpr std::uint64_t max_trials = 10'000'000'000;

struct RiskQuestion {
    // Beside cost, contribution, profit and margin; empty: the price per unit.
    std::vector<std::string> lines;
    bool names = false; // lines and givens are called by their names
    // Names of givens: held as in the job though they swing, drawn though they are chosen.
    std::vector<std::string> hold, free;
    std::uint64_t trials = 1 << 20;
    // Fewer trials, and none for the shares, where so many come to more than max_effort
    // (engine/plan/effort.h): of a model that nobody has measured. False: as many as are asked for,
    // however long that takes; only the shares keep to ten times max_effort.
    bool within_effort = false;
    std::uint64_t seed = 1;
    unsigned threads = 1;
    // What is paid: each item by its rate for the quantity that comes about, a lump sum as quoted.
    // `total`: another price than the job's own. `lump`: the price is paid whatever the quantities.
    std::optional<double> total;
    bool lump = false;
    // Whose spread is divided among the givens: a line of `lines`, "cost", "contribution", "profit"
    // or "margin"; empty: the first line.
    std::string shares_of;
    std::uint64_t share_trials =
        1 << 16; // 0: not asked for. Each costs one reading of the job per given, and two more
    bool matters_most = true; // false: it is not asked what matters most
    bool errors = true;       // false: standard errors are not asked for, and are 0
    KeptPoints* points =
        nullptr; // where points are kept from one answer to the next; null: nowhere
    std::atomic<std::uint64_t>* done =
        nullptr; // counts trials as they go by, for whoever watches from another thread
    // The same for who cannot watch from another thread; called by each of `threads`.
    std::function<void(std::uint64_t)> passed{};
    const std::atomic<bool>* stop = nullptr; // when it becomes true the answer is given up
};

// What was drawn: a given by its swing, or an event.
struct Factor {
    Subject given;              // or the count of an event
    std::optional<Range> swing; // of an event: none
    bool of_it = false;         // in percent of a given that the job computes
    bool is_event() const { return !swing; }
};

enum class HeldReason : std::uint8_t {
    Chosen,   // settled before work starts
    Asked,    // by the question
    Computed, // by this job from others
};
struct Held { // a given that stays as in the job though it has a range
    std::string name;
    HeldReason reason = HeldReason::Chosen;
};

struct Percentile {
    double share = 0; // 0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95
    double value = 0, error = 0;
};

// One answer over all trials. Errors are standard errors, from the scatter of the scrambles.
struct Measured {
    std::string name;      // "price.per_unit", "cost", "contribution", "profit", "margin"
    std::string called;    // "the price all in"
    std::string unit;      // "%" is written 1: a share
    bool is_share = false; // the margin: people read it as percent
    double at_job = 0;     // as the job has it
    double mean = 0, mean_error = 0;
    double spread = 0, spread_error = 0; // standard deviation
    double least = 0, greatest = 0;
    std::vector<Percentile> percentiles;
    double bars_from = 0, bars_width = 0; // a histogram: bar k covers from + k width
    std::vector<std::uint64_t> bars;
};

struct WithoutAnswer {         // a trial that has none
    std::string because;       // "a requirement is not met"
    std::vector<double> drawn; // by factor; of an event the number between 0 and 1 drawn for it
};

struct RefusalRisk {            // a requirement that was not met in some trials
    std::string name;           // its message
    std::string entry;          // where it stands; empty: the whole job
    double chance = 0;          // 0 to 1
    std::optional<double> cost; // what the firm is out, on average; none: the model does not say
};

struct SpreadShare {
    std::size_t factor = 0;
    double first = 0, first_error = 0; // alone: Sobol' index of first order
    double total = 0, total_error = 0; // with interactions: total index
};
// Shares of more givens than these are not told one by one.
inline constexpr std::size_t max_shared = 64;
struct SpreadShares {
    struct Aside { // those that do least, found by drawing groups anew: all of them together
        std::size_t factors = 0;
        double total = 0, total_error = 0;
    };
    std::size_t measured = 0;        // into RiskAnswer::measured
    double spread = 0;               // standard deviation that is divided
    std::uint64_t readings = 0;      // of the job
    std::vector<SpreadShare> shares; // greatest total first
    Aside aside;
};

// Which given matters most, by three measures, and why they differ where they do.
struct MattersMost {
    std::string by_slope, by_swing, by_share; // as the answer calls them; empty: none has any
    bool agree = false;
    std::vector<std::string> why; // sentences; only when they differ
};

struct RiskAnswer {
    std::string title; // of the job
    bool lump = false; // paid whatever the quantities
    std::uint64_t trials = 0, seed = 0, without_answer = 0;
    std::vector<Factor> factors;
    // Lines, then cost, contribution, profit and margin if the model has a price.
    std::vector<Measured> measured;
    std::optional<double> loss, loss_error; // the chance that the profit is below zero
    std::optional<double> loss_direct, loss_direct_error; // that not even direct cost is covered
    double paid = 0;                                      // as quoted
    double overhead = 0;                                  // as quoted, in every trial
    std::vector<WithoutAnswer> first_without;             // the first few
    // In a trial that is refused the contribution is minus the largest cost of what failed, and
    // price and cost do not count; where the model does not say what one costs, the trial has no
    // answer.
    std::vector<RefusalRisk> refusals;
    std::uint64_t refused = 0; // trials with such a profit
    std::optional<SpreadShares> shares;
    bool dependent = false; // some swings move together: shares then belong to what is drawn first
    std::vector<Held> held;
    MattersMost matters_most; // of the first line; empty without shares
};

// Lines asked for.
inline constexpr std::size_t max_measured = 100;

// Q006: too few or too many trials, too many lines or givens; I620: a swing that cannot be drawn
// from; Q008: correlations that contradict each other; Q001, Q002: lines that do not exist; Q005: a
// job in which nothing swings or of which no trial has an answer, a price that is not above zero,
// an answer given up; Q004; what stands in the way of the lines as the job has them.
lang::Outcome<RiskAnswer> ask(const PricedJob& job, const RiskQuestion& question);

} // namespace acre::engine
