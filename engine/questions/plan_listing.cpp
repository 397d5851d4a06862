#include "engine/questions/plan_listing.h"

#include "engine/native/native.h"
#include "engine/plan/opcodes.h"
#include "engine/plan/operands.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

using lang::none;

class Lister {
  public:
    explicit Lister(const PricedJob& job)
        : sheet_(job.sheet()),
          sources_(job.sources()),
          plan_(job.plan()),
          origins_(job.compiled().origins),
          values_(job.values().slot) {}

    PlanStep step(Slot slot) const {
        const Operation& operation = plan_.operations[slot];
        PlanStep step;
        step.operation = traits_of(operation.code).name;
        for_each_operand(plan_, operation, [&](Slot operand) { step.operands.push_back(operand); });
        step.of = subject(operation);
        step.value = values_[slot];
        const lang::NodeId node = origins_.node[slot];
        if (node != none) {
            step.place = place_text(sources_, sheet_.nodes[node].span);
            if (is_result(slot))
                step.unit = unit(sheet_.nodes[node].type);
        }
        if (const lang::LineId line = origins_.line[slot]; line != none)
            step.line = sheet_.lines[line].name;
        return step;
    }

  private:
    // Of the operations that one node made, the last gives its value; those before it are in no
    // unit that somebody wrote.
    bool is_result(Slot slot) const {
        return slot + 1 == plan_.size() || origins_.node[slot + 1] != origins_.node[slot] ||
               origins_.outer_node[slot + 1] != origins_.outer_node[slot];
    }

    std::string unit(const lang::Type& type) const {
        switch (type.kind) {
        case lang::Type::Kind::Number:
            return sheet_.units.text(type.unit);
        case lang::Type::Kind::Choice:
            return "choice";
        default:
            return {};
        }
    }

    std::string subject(const Operation& operation) const {
        switch (operation.code) {
        case OpCode::Input:
            return sheet_.lines[plan_.inputs[operation.a].line].name +
                   (plan_.inputs[operation.a].is_share ? ", share of it" : "");
        case OpCode::Table:
            return sheet_.tables[operation.a].name;
        case OpCode::Native:
            return std::string(native_functions()[plan_.calls[operation.a].function].name);
        default:
            return {};
        }
    }

    const lang::Sheet& sheet_;
    const lang::SourceMap& sources_;
    const Plan& plan_;
    const Origins& origins_;
    const std::vector<double>& values_;
};

} // namespace

lang::Outcome<PlanListing> ask(const PricedJob& job, const PlanQuestion&) {
    const Lister lister(job);
    PlanListing listing;
    listing.steps.reserve(job.plan().size());
    for (Slot slot = 0; slot < job.plan().size(); ++slot)
        listing.steps.push_back(lister.step(slot));
    return listing;
}

} // namespace acre::engine
