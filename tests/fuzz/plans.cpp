// Bytes throw the dice of tests/property/random_plan.h: plans of every operation, and every reader
// of them.
#include "tests/fuzz/readers.h"
#include "tests/fuzz/target.h"
#include "tests/property/random_plan.h"

namespace plans_fuzz {

ACREWRIGHT_TARGET(plans, bytes) {
    using namespace acre;
    tests::Dice dice(bytes);
    const bool smooth = dice.below(2) == 1;
    const std::size_t inputs = 1 + dice.below(12);
    const std::size_t operations = 1 + dice.below(60);
    const std::size_t used = std::min<std::size_t>(bytes.size(), 3);
    tests::PlanMaker maker{tests::Dice(bytes.substr(used))};
    const tests::RandomPlan made = maker.make(inputs, operations, smooth);
    tests::Dice lanes(bytes.substr(bytes.size() - std::min<std::size_t>(bytes.size(), 64)));
    if (fuzz::looks_at(0, 2, bytes))
        fuzz::hold_lanes(made.plan, lanes);
    if (!fuzz::looks_at(1, 2, bytes))
        return;
    std::vector<engine::Slot> targets;
    for (std::size_t back = 1; back <= std::min<std::size_t>(made.numbers.size(), 4); ++back)
        targets.push_back(made.numbers[made.numbers.size() - back]);
#ifdef ACREWRIGHT_REPLAY
    fuzz::hold_slopes(made.plan, targets);
#else // by one input
    fuzz::hold_slopes(made.plan, targets, lanes.below(inputs));
#endif
}

} // namespace plans_fuzz
