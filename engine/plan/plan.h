// The plan: a checked sheet as straight-line code over bare doubles. No names, no units, no text in
// it; every reader (value, lanes, adjoint) walks the same list once, forward or backward.
//
// Poison. An operation that has no answer (zero divisor, root of a negative number, outside a
// table, overflow) writes NaN, and NaN goes through everything that rests on it: min, max,
// comparisons and conditions too. A branch that is not taken poisons nothing. So a reader needs no
// error paths: it looks at the results at the end.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace acre::engine {

using Slot = std::uint32_t;
inline constexpr Slot no_slot = 0xFFFFFFFF;

enum class OpCode : std::uint8_t {
    Constant, // a: into constants
    Input,    // a: into inputs
#define ACRE_OPERATION(code, ...) code,
#include "engine/plan/opcodes.def"
    Table,  // a: into tables, b: x
    Native, // a: into calls: the value of a native function
};

// Operation i writes slot i. Operands are slots below i unless said otherwise above.
struct Operation {
    OpCode code;
    std::uint32_t a = 0, b = 0, c = 0;
    friend bool operator==(const Operation&, const Operation&) = default;
};

struct Input {
    Slot slot = no_slot;
    double value = 0;       // as the job has it
    std::uint32_t line = 0; // LineId of the given
    bool is_choice = false; // value is the index of an option
    bool is_share =
        false; // of a computed given that swings by shares of it: 1, the line times this
};

struct PlanTable {
    std::vector<double> x, y;
    bool staircase = false, hold_below = false, hold_above = false;
};

struct NativeCall {
    std::uint32_t function = 0; // into the native registry
    std::vector<Slot> args;
};

struct Plan {
    std::vector<Operation> operations;
    std::vector<double> constants;
    std::vector<Input> inputs;
    std::vector<PlanTable> tables;
    std::vector<NativeCall> calls;
    std::vector<Slot> line_slot;        // by LineId; no_slot for a given without a value
    std::vector<char> not_negative;     // by LineId; 1: a value below zero is no answer
    std::vector<Slot> require_slot;     // by index in Sheet::requires_; 1 met
    std::vector<Slot> require_costs;    // by the same: money when it is not met; no_slot: not said
    std::vector<Slot> caution_slot;     // by index in Sheet::cautions; 1 show
    std::vector<Slot> correlation_slot; // by index in Sheet::correlations; a share, 1 for 100 %
    std::vector<Slot> fleet_costs, fleet_over; // by index in Sheet::fleets
    std::vector<Slot> given_slot;              // by given: its value; no_slot for one without
    std::vector<Slot> within_low, within_high, swing_low, swing_high; // by given; no_slot: none

    // A call outside the tested range of its function: shown as a caution where the call is asked
    // for.
    struct TestedRange {
        Slot value = no_slot; // of the argument
        Slot low = no_slot, high = no_slot;
        Slot call = no_slot; // result of the call: the caution counts if this slot is asked for
        std::uint32_t function = 0, parameter = 0; // Sheet ids
        std::uint32_t node = 0;                    // NodeId of the call
    };
    std::vector<TestedRange> tested;

    std::size_t size() const { return operations.size(); }
};

} // namespace acre::engine
