// The trials of one job: what is drawn, how a batch of trials is drawn and read, and what is
// measured of it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/risk/draw.h"
#include "engine/questions/risk/points.h"
#include "engine/questions/risk/refusals.h"
#include "engine/questions/risk/risk.h"
#include "engine/questions/risk/shapes.h"
#include "engine/questions/what_if/job_lanes.h"

namespace acre::engine {

inline constexpr std::size_t money_measures = 4; // cost, contribution, profit, margin
inline constexpr std::size_t nowhere = static_cast<std::size_t>(-1); // no axis, or no place

// Room for one batch of trials; one for each thread.
struct TrialScratch {
    JobLanes::Scratch lanes;
    std::vector<std::uint64_t> offset; // by dimension
    std::vector<double> p,
        x; // by factor: the numbers drawn (where they are needed) and the values of the givens
    std::vector<double> deviate; // of the factors that move together
    std::vector<double> read;    // by target
    std::vector<double> answer;  // by measure
    std::vector<const double*> in;
    std::vector<double*> out;
    std::size_t refused = 0; // of the last batch: lanes without an answer whose refusal has a cost
};

class Trials {
  public:
    // Names what is drawn and measured in `result`.
    static lang::Outcome<Trials> make(const PricedJob& job, const RiskQuestion& question,
                                      RiskAnswer& result);

    std::size_t factors() const { return axes_.size() + events_.size(); }
    bool has_price() const { return has_price_; }
    bool is_event(std::size_t factor) const { return factor >= axes_.size(); }
    // What is drawn, as people read it: shares in percent.
    double shown_per(std::size_t factor) const { return axes_[factor].is_share ? 100 : 1; }
    std::size_t measures() const { return lines_ + (has_price_ ? money_measures : 0); }
    // Measures, where there is a price: cost, contribution, profit and margin, in this order.
    std::size_t contribution() const { return lines_ + 1; }
    std::size_t profit() const { return lines_ + 2; }
    TrialScratch scratch(std::size_t dimensions) const;

    // The first n points of a batch. The p of factor f stands at dimension first + f of the points.
    void draw(const ScrambledPoints& points, std::uint64_t batch, std::size_t first, std::size_t n,
              TrialScratch& scratch) const;
    // The factors whose values change when that factor's p does: itself, and those it moves
    // together with.
    std::span<const std::size_t> shaped_with(std::size_t factor) const;
    // Makes n values of these again from numbers already drawn; p and x by factor.
    void shape_factor(std::size_t factor, const double* const* p, std::size_t n, double* const* x,
                      TrialScratch& scratch) const;

    // Reads n trials of what was drawn; x and p by factor. answer[m]: lanes of measure m; what has
    // no answer is NaN in all of them, and scratch.lanes.fault says why; but contribution and
    // profit where the work was refused at a cost. Gives back how many those are, scratch.refused
    // how many of them have a profit.
    std::size_t read(std::size_t n, const double* const* x, const double* const* p,
                     double* const* answer, TrialScratch& scratch) const;

    const Refusals& refusals() const { return refusals_; }
    double paid() const { return paid_; }
    std::uint64_t effort() const {
        return reader_->size().effort + 8 * (factors() + measures());
    }                                                       // of a trial, in additions
    std::vector<double> at_job(const Values& values) const; // by measure

  private:
    struct Item {
        std::size_t target; // its quantity
        double rate;
    };
    struct Event {
        std::size_t count, money; // targets
        bool in_cost;             // the cost holds its expected amount
    };

    // What is wrong, or nothing.
    using Fault = std::optional<lang::Diagnostic>;
    Fault read_factors(const PricedJob& job, const RiskQuestion& question, RiskAnswer& result);
    Fault read_correlations(const PricedJob& job, RiskAnswer& result);
    Fault mix(const PricedJob& job, const RiskAnswer& result);
    std::string weaken_or_say(const RiskAnswer& result) const;
    Fault read_targets(const PricedJob& job, const RiskQuestion& question, RiskAnswer& result);
    Fault read_money(const PricedJob& job, const RiskQuestion& question, RiskAnswer& result);
    void draw_together(const double* const* p, std::size_t n, double* const* x,
                       TrialScratch& scratch) const;

    std::vector<Axis> axes_;
    std::vector<Shape> shapes_;
    std::vector<std::size_t> together_;       // axes that move together
    std::vector<std::size_t> alone_;          // every factor by its own number
    std::vector<std::size_t> place_together_; // by axis: its place in together_, or nowhere
    std::vector<double> mix_; // lower triangular, by row: how their deviates are mixed
    QuantileTable normal_;
    Pieces shares_;
    std::vector<Event> events_;
    std::vector<Item> items_;
    std::vector<Slot> targets_;
    std::size_t lines_ = 0, cost_ = 0; // targets: lines, then the cost, then the rest
    bool has_price_ = false;
    double paid_ = 0, lumps_ = 0;
    double overhead_ = 0; // as quoted: it does not move with what is drawn
    Refusals refusals_;
    std::optional<JobLanes> reader_;
};

} // namespace acre::engine
