// Checked sheet to plan: dependency order, functions inlined, constants folded, equal operations
// computed once.
#pragma once

#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include "engine/plan/plan.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

inline constexpr std::size_t max_plan_operations = 1'000'000;

// What each operation came from; for `explain` and for faults. The plan itself does not need it.
struct Origins {
    std::vector<lang::NodeId> node; // by slot: the node that first asked for it
    std::vector<Slot> slot_of_node; // by NodeId, for nodes outside functions; no_slot if none
    struct Inlined {                // one call of a define
        lang::NodeId call;          // the calling node
        std::uint32_t function;
        std::vector<Slot> args, locals; // slots of parameters and locals
        Slot result;
    };
    std::vector<Inlined> inlined; // calls outside functions, in order

    // The same by slot, seen from outside functions: the node and the line that first asked for it.
    std::vector<lang::NodeId> outer_node;
    std::vector<lang::LineId> line; // none: a condition or a bound
    struct Limit {                  // a Guard and the limit it stands for
        Slot guard;
        Slot value, bound;
        std::uint32_t function, parameter;
        bool lower;
    };
    std::vector<Limit> limits;
    struct Unset { // a given without a value that something rests on
        Slot slot;
        lang::LineId line;
    };
    std::vector<Unset> unset;
};

struct Compiled {
    Plan plan;
    Origins origins;
};

// Reports G403 (larger than max_plan_operations) and N212 (no such native function). Givens without
// a value are poison in the plan: see report_unset.
std::optional<Compiled> compile_plan(const lang::CheckedSheet& sheet,
                                     lang::Diagnostics& diagnostics);

} // namespace acre::engine
