// The kernels: one loop over lanes for every kind of instruction, compiled for several widths of
// vector. Which widths this machine can run is found out at run time.
//
// All of them, and the value reader, give the same bits: each step rounds once, by itself, and
// transcendental functions are the deterministic ones of engine/plan/math_functions.h.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/native/native.h"
#include "engine/readers/lanes.h"
#include "engine/readers/lanes/instructions.h"

namespace acre::engine::lanes {

// Lanes are done in groups of this many, whatever the width; a run is a whole number of groups.
inline constexpr std::size_t group = 16;

// Where a row is in memory. An invariant is one group long and read again and again: index & mask
// is 0.
struct Row {
    double* at = nullptr;
    std::size_t mask = ~std::size_t{0};
};

struct PreparedTable {
    explicit PreparedTable(const PlanTable& table);
    // Row k holds from x[k] up: y[k] + (x - x[k]) / dx[k] * dy[k]. After the last row nothing
    // changes.
    std::vector<double> x, y, dx, dy; // at least one group long: the last row again and again
    std::size_t rows = 0;
    double below, above; // the answer outside: the end value, or NaN
};

// What native functions last said of every lane of a batch, with the arguments that moved it.
// Questions often move one given and leave the ground alone, and a search over depths costs as much
// as the rest of a job.
struct Remembered {
    explicit Remembered(std::size_t moving) // arguments that vary from lane to lane
        : args(moving * lanes_per_run),
          asked(moving * lanes_per_run),
          found(native_results * lanes_per_run),
          results(native_results * lanes_per_run),
          known(lanes_per_run),
          which(lanes_per_run + 1) {}
    std::vector<double> args, asked;    // by argument, then lane; asked: those not known yet
    std::vector<double> found, results; // by result, then lane; found: of what was asked
    std::vector<char> known;            // 0: not yet
    std::vector<std::uint16_t> which;   // lane of what was asked
};

struct Frame {
    const Row* rows = nullptr; // by RowIndex
    const PreparedTable* tables = nullptr;
    const lanes::Call* calls = nullptr;
    Remembered* remembered = nullptr; // by Call::remembered
    std::size_t first = 0;            // of these lanes within the batch
    std::size_t lanes = 0;            // a multiple of `group`
};

using KernelFunction = void (*)(const Instruction&, const Frame&);

struct KernelSet {
    const char* name;
    std::uint32_t bits;      // of a vector
    std::size_t chain_steps; // the longest chain it has
    std::array<KernelFunction, kernel_count + chain_count> run;
};

// Those this machine can run, widest first; never empty.
std::span<const KernelSet* const> kernel_sets();

} // namespace acre::engine::lanes
