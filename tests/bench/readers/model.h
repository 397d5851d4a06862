// The plan of rip.rate with its givens and answers in the order of rip_native.h, points to read it
// at, and a stopwatch.
#pragma once

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/driver.h"
#include "engine/questions/what_if/axis.h"

namespace acre::bench {

struct Model {
    engine::Job job;
    double compile_seconds = 0;        // text to plan
    std::vector<engine::Axis> axes;    // in the order of rip_native.h
    std::vector<std::uint32_t> inputs; // of the axes
    std::vector<engine::Slot> answers; // cost, price, price per unit
    const engine::Plan& plan() const { return job->plan(); }
};
Model open_model(); // ends the program when rip.rate does not compile

// Columns of lanes in one piece of memory, each column at the start of a line of the cache.
class Columns {
  public:
    Columns(std::size_t columns, std::size_t lanes);
    const double* const* in() const { return read_.data(); }
    double* const* out() const { return write_.data(); }
    std::span<double> operator[](std::size_t k) { return {write_[k], lanes_}; }

  private:
    std::size_t lanes_;
    std::vector<double> memory_;
    std::vector<double*> write_;
    std::vector<const double*> read_;
};
// Every given drawn from its swing.
void draw_givens(const Model& model, Columns& columns, std::size_t lanes);

// Seconds of one call, the best of many: the machine may be busy.
template <class Work> double best_of(int times, Work work) {
    double best = 1e9;
    for (int k = 0; k < times; ++k) {
        const auto start = std::chrono::steady_clock::now();
        work();
        best = std::min(
            best, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    return best;
}

void measure_lanes(Model& model);
void measure_slopes(Model& model);
void measure_trials(Model& model);
void measure_others(Model& model, double lane_nanoseconds);
double lane_nanoseconds(Model& model); // of one lane, all givens varied, one core

} // namespace acre::bench
