// Grows a plan one operation at a time. An operation that is there already is not added again; one
// whose operands are all constants becomes its result, unless the result is poison: then it stays,
// so that a fault can say where it came from.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/plan/index_table.h"
#include "engine/plan/plan.h"

namespace acre::engine {

class PlanBuilder {
  public:
    explicit PlanBuilder(std::size_t max_operations) : max_operations_(max_operations) {}

    Slot constant(double value);
    Slot missing(); // a value nobody set: a poisoned constant of its own
    Slot input(double value, std::uint32_t line, bool is_choice);
    Slot emit(OpCode code, Slot a, Slot b = 0, Slot c = 0);
    Slot table(std::uint32_t table, Slot x);
    Slot native(std::uint32_t function, std::span<const Slot> args);

    // x ^ n by repeated multiplication for whole constant n up to 16 either way.
    Slot power(Slot base, Slot exponent);
    // x / step, rounded, * step; a step that is one over a whole number (a cent, a quarter) is
    // divided by its inverse, which is exact.
    Slot to_steps(OpCode code, Slot value, Slot step);

    bool is_constant(Slot slot) const { return plan_.operations[slot].code == OpCode::Constant; }
    double value(Slot slot) const {
        return plan_.constants[plan_.operations[slot].a];
    } // of a constant
    bool full() const {
        return full_;
    } // more was asked for than max_operations; the plan is of no use
    Plan& plan() { return plan_; }

  private:
    Slot push(Operation operation);
    Slot find_or_push(Operation operation);

    Plan plan_;
    std::size_t max_operations_;
    bool full_ = false;
    IndexTable operations_; // slots by operation
    IndexTable constants_;  // indices into constants by their bits
    std::vector<Slot> constant_slots_;
};

} // namespace acre::engine
