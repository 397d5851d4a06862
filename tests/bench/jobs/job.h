// A shipped job with all that swings in it, for the readers and for the same job as compiled code.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "engine/driver.h"
#include "engine/questions/what_if/axis.h"
#include "engine/readers/lanes/graph.h"

namespace acre::bench {

struct ShippedJob {
    engine::Job job;
    std::vector<engine::Axis> axes; // givens that swing
    std::vector<std::uint32_t> inputs;
    std::vector<engine::Slot> answers; // its cost and its price
    engine::lanes::Graph graph(std::span<const std::uint32_t> varied) const;
};
ShippedJob open_job(const std::string& path); // ends the program when it has no price

// What of a job depends on what varies, compiled: in[k][i], out[k][i] of lane i. `native` does a
// search for `lanes` lanes: args and results by row.
using Native = void (*)(const void* searches, std::size_t number, const double* const* args,
                        std::size_t lanes, double* const* results);
using CompiledJob = void (*)(std::size_t lanes, const double* const* in, double* const* out,
                             Native native, const void* searches);
inline constexpr std::size_t most_compiled_lanes = 512;

// The searches of a graph: calls of one function family with the same arguments are one.
struct Search {
    std::uint32_t function = 0; // into the native registry
    std::vector<engine::lanes::Value> args;
};
std::vector<Search> searches(const engine::lanes::Graph& graph, std::vector<std::size_t>& of_call);

} // namespace acre::bench
