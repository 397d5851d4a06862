#include "engine/questions/what_if/reach.h"

#include <algorithm>

#include "engine/plan/operands.h"

namespace acre::engine {

std::vector<char> reached_from(const Plan& plan, std::span<const std::uint32_t> inputs) {
    std::vector<char> reached(plan.size(), 0);
    for (const std::uint32_t input : inputs)
        reached[plan.inputs[input].slot] = 1;
    for (Slot i = 0; i < plan.size(); ++i)
        for_each_operand(plan, plan.operations[i],
                         [&](Slot operand) { reached[i] |= reached[operand]; });
    return reached;
}

std::vector<char> rested_on(const Plan& plan, std::span<const Slot> targets) {
    std::vector<char> asked(plan.size(), 0);
    for (const Slot target : targets)
        asked[target] = 1;
    for (Slot i = static_cast<Slot>(plan.size()); i-- > 0;)
        if (asked[i])
            for_each_operand(plan, plan.operations[i], [&](Slot operand) { asked[operand] = 1; });
    return asked;
}

} // namespace acre::engine
