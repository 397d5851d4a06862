// What the rows of opcodes.def say of each operation.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/plan/plan.h"

namespace acre::engine {

enum class OpKind : std::uint8_t {
    Source, // a constant or an input
    Arithmetic,
    Simple,
    Function,
    Whole,
    Comparison,
    Logic,
    Branch,
    Lookup, // a table or a native function
};

struct OpTraits {
    std::string_view name;
    OpKind kind;
    std::string_view reads; // a letter for each operand in a, b, c: see opcodes.def
};

inline constexpr auto op_traits = std::to_array<OpTraits>({
    {"Constant", OpKind::Source, ""},
    {"Input", OpKind::Source, ""},
#define ACRE_OPERATION(code, kind, reads, rule) {#code, OpKind::kind, reads},
#include "engine/plan/opcodes.def"
    {"Table", OpKind::Lookup, ""},
    {"Native", OpKind::Lookup, ""},
});

constexpr const OpTraits& traits_of(OpCode code) {
    return op_traits[static_cast<std::size_t>(code)];
}
constexpr OpKind kind_of(OpCode code) {
    return traits_of(code).kind;
}
// 1, 0 or NaN.
constexpr bool is_truth(OpCode code) {
    return kind_of(code) == OpKind::Comparison || kind_of(code) == OpKind::Logic;
}
// Steps: between them nothing changes.
constexpr bool is_flat(OpCode code) {
    return is_truth(code) || kind_of(code) == OpKind::Whole;
}

} // namespace acre::engine
