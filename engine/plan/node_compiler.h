// Turns formulas into operations of a plan, what they rest on first. Nothing here recurses: a chain
// of a hundred thousand lines, or a sum of as many terms, costs memory on the heap only.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/plan/index_table.h"
#include "engine/plan/plan_builder.h"
#include "lang/check/sheet.h"

namespace acre::engine {

class NodeCompiler {
  public:
    // `line_slots`: by LineId, no_slot where not known yet; filled as lines are compiled. A given
    // without a value gets a poisoned constant of its own, which Origins::unset keeps.
    NodeCompiler(const lang::Sheet& sheet, PlanBuilder& builder, Origins& origins,
                 std::vector<Slot>& line_slots);

    Slot line(lang::LineId line);
    Slot node(lang::NodeId node); // of a formula outside functions
    // An operation made from outside, at `node` of `line`: keeps the origins in step.
    void note(lang::NodeId node, lang::LineId line);

    // The line is its formula times this slot.
    void multiply(lang::LineId line, Slot factor) { factor_[line] = factor; }

    // Too many operations, or too many steps on the way (functions whose calls multiply but leave
    // nothing behind).
    bool stopped() const { return builder_.full() || steps_ > max_steps; }
    // Native functions that the registry does not have, by index of Sheet::functions.
    const std::vector<std::uint32_t>& unknown_natives() const { return unknown_natives_; }

    static constexpr std::size_t max_steps = 4 * max_plan_operations;

  private:
    enum class Do : std::uint8_t {
        Enter,
        Emit,
        FinishLine,
        FinishLocal,
        BeginCall,
        FinishCall,
        Nothing
    };
    struct Task {
        Do what;
        lang::NodeId node;
        std::uint32_t index = 0; // FinishLine: line; FinishLocal: local; FinishCall: call
    };
    struct Call { // one call of a function with given slots, compiled once
        std::uint32_t function;
        std::uint32_t first; // into call_slots_: args, then locals
        Slot result;
    };

    void run();
    void enter(lang::NodeId id);
    void enter_line(lang::NodeId id, lang::LineId line);
    void emit(lang::NodeId id);
    void begin_call(lang::NodeId id);
    void finish_call(lang::NodeId id, std::uint32_t call);
    void finish(lang::NodeId id, Slot slot);
    void record_call(lang::NodeId id, std::uint32_t call);
    Slot limited(std::uint32_t call, Slot result, const Slot* bounds);
    void note_tested(lang::NodeId id, std::uint32_t call, const Slot* bounds);
    Slot native(std::uint32_t function, const Slot* args);
    Slot fold_args(lang::Op op, const Slot* args, std::size_t count);
    Slot pop();
    void push(Do what, lang::NodeId node, std::uint32_t index = 0) {
        tasks_.push_back({what, node, index});
    }
    bool outside() const { return frames_.empty(); }
    std::size_t call_hash(const Call& call) const;

    const lang::Sheet& sheet_;
    PlanBuilder& builder_;
    Origins& origins_;
    std::vector<Slot>& line_slots_;

    std::unordered_map<lang::LineId, Slot> factor_;
    std::vector<Task> tasks_;
    std::vector<Slot> values_;
    std::vector<std::uint32_t> frames_; // calls being compiled, innermost last
    std::vector<lang::LineId> lines_;   // lines being compiled, innermost last
    lang::NodeId outer_ = lang::none;   // the outermost call being compiled
    std::vector<Call> calls_;
    std::vector<Slot> call_slots_;
    IndexTable call_table_;
    std::vector<std::uint32_t> unknown_natives_;
    std::size_t steps_ = 0;
};

} // namespace acre::engine
