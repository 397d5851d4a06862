// What is left of a plan once everything that does not vary is known: the operations that must be
// done for each lane, with invariants as numbers, conditions that do not vary decided, and
// everything nobody asked for gone.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/plan/plan.h"

namespace acre::engine::lanes {

// A node, or an invariant.
struct Value {
    bool invariant = false;
    std::uint32_t index = 0; // into nodes or invariants
    friend auto operator<=>(const Value&, const Value&) = default;
};

struct Node {
    OpCode code; // Input: extra is which varied input; Table: into Plan::tables; Native: into calls
    std::array<Value, 3> in{};
    std::uint32_t in_count = 0;
    std::uint32_t extra = 0;
    std::uint32_t uses = 0;
    bool wanted = false;
    // Arithmetic may leave an infinity where the plan says poison, as long as nothing that reads it
    // would hide it: a sum of an infinity is not finite either, but its reciprocal is 0.
    // `canonical`: something would, so it must become NaN.
    bool canonical = false;
};

struct Graph {
    std::vector<Node> nodes; // operands before what reads them
    std::vector<double> invariants;
    std::vector<std::vector<Value>> calls; // args of native functions
    std::vector<std::uint32_t> functions;  // of calls, into the native registry
    std::vector<Value> wanted;
};

// `settled`: by slot, 1 where it comes to `values` in every lane though what it reads varies; may
// be empty.
Graph reduce(const Plan& plan, std::span<const std::uint32_t> varied, std::span<const Slot> wanted,
             std::span<const double> values, std::span<const char> settled = {});

} // namespace acre::engine::lanes
