// What the lane reader runs: a short list of kernel calls over rows of lanes. Made from a plan by
// graph.h, run by lanes.cpp.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/plan/plan.h"

namespace acre::engine::lanes {

// Kernels other than chains: first one for each operation of the plan, under its own name (those of
// arithmetic stay empty: chains do it), then what only the lanes have.
enum class Kernel : std::uint16_t {
    Constant,
    Input,
#define ACRE_OPERATION(code, ...) code,
#include "engine/plan/opcodes.def"
    Table, // empty: Lines and Staircase do it
    Native,
    Copy,       // what is not finite becomes NaN
    PowerFixed, // the exponent is an invariant, neither zero nor poison
    SelectLess, // a < b then c otherwise d, and so on: a comparison that one choice alone reads
    SelectLessEqual,
    SelectGreater,
    SelectGreaterEqual,
    SelectEqual,
    SelectNotEqual,
    Lines,     // a table with straight lines between its rows
    Staircase, // a table that holds each row until the next
    count
};

constexpr Kernel kernel_of(OpCode code) {
    return static_cast<Kernel>(code);
}
static_assert(kernel_of(OpCode::Native) == Kernel::Native);
// The choice that reads the comparison.
constexpr Kernel select_of(OpCode comparison) {
    return static_cast<Kernel>(static_cast<int>(Kernel::SelectLess) + static_cast<int>(comparison) -
                               static_cast<int>(OpCode::Less));
}
static_assert(select_of(OpCode::NotEqual) == Kernel::SelectNotEqual);

// A chain is up to three steps of arithmetic without a stop in memory between them: ((a first b)
// second c) third d.
enum class First : std::uint8_t { Add, Subtract, Multiply, Divide, count };
enum class Then : std::uint8_t {
    Stop,
    Add,
    Subtract,
    SubtractFrom,
    Multiply,
    Divide,
    DivideInto,
    AtLeast,
    AtMost,
    Root,
    count
};

inline constexpr std::size_t first_count = static_cast<std::size_t>(First::count);
inline constexpr std::size_t then_count = static_cast<std::size_t>(Then::count);
inline constexpr std::size_t chain_count = first_count * then_count * then_count * 2;
inline constexpr std::size_t kernel_count = static_cast<std::size_t>(Kernel::count);

// `canonical`: the result becomes NaN if it is not finite; always so after three steps.
constexpr std::uint16_t chain_number(First first, Then second, Then third, bool canonical) {
    canonical = canonical || third != Then::Stop;
    const std::size_t steps =
        (static_cast<std::size_t>(first) * then_count + static_cast<std::size_t>(second)) *
            then_count +
        static_cast<std::size_t>(third);
    return static_cast<std::uint16_t>(kernel_count + steps * 2 + (canonical ? 1 : 0));
}

// Where lanes are: rows of the scratch first, then the varied inputs, the wanted outputs, and last
// the invariants, of which every lane is the same.
using RowIndex = std::uint32_t;

struct Instruction {
    std::uint16_t kernel = 0; // a Kernel, or a chain_number
    RowIndex out = 0;
    std::array<RowIndex, 4> in{};
    std::uint32_t extra =
        0; // Lines, Staircase: into Plan::tables; Native: into Instructions::calls
};

// A plan of a stranger may call natives many thousand times, and what is remembered of a batch
// takes tens of kilobytes: searches beyond so many share the last place, and each of their calls
// searches for itself.
inline constexpr std::uint32_t calls_remembered = 32;

struct Call {
    std::uint32_t function = 0; // into the native registry
    std::vector<RowIndex> args;
    std::vector<std::uint32_t> moving; // of args: those that are no invariants
    // Where its results are kept. A search serves all calls of its arguments: the first of them is
    // `leads`, the others only take their own result.
    std::uint32_t remembered = 0;
    bool leads = true;
};

struct Instructions {
    std::vector<Instruction> list;
    std::vector<Call> calls;
    std::vector<double> invariants;
    std::vector<std::size_t> remembered; // for each: how many arguments move
    std::uint32_t rows = 0, varied = 0, wanted = 0;
    RowIndex first_varied() const { return rows; }
    RowIndex first_wanted() const { return rows + varied; }
    RowIndex first_invariant() const { return rows + varied + wanted; }
    RowIndex all_rows() const {
        return first_invariant() + static_cast<RowIndex>(invariants.size());
    }
};

// `values` of the plan at its base inputs, by slot; `settled`: as reduce has it. No chain has more
// than `chain_steps` steps.
Instructions instructions_of(const Plan& plan, std::span<const std::uint32_t> varied,
                             std::span<const Slot> wanted, std::span<const double> values,
                             std::span<const char> settled, std::size_t chain_steps);

} // namespace acre::engine::lanes
