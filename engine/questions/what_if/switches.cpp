#include "engine/questions/what_if/switches.h"

#include <algorithm>
#include <bit>

#include "engine/plan/opcodes.h"
#include "engine/questions/what_if/reach.h"

namespace acre::engine {

Switches::Switches(const Plan& plan, Slot target, std::span<const std::uint32_t> inputs)
    : plan_(&plan) {
    const std::vector<char> reached = reached_from(plan, inputs);
    const std::vector<char> rested = rested_on(plan, std::span(&target, 1));
    for (Slot slot = 0; slot <= target; ++slot) {
        if (!reached[slot] || !rested[slot])
            continue;
        const Operation& op = plan.operations[slot];
        const auto first = static_cast<std::uint32_t>(slots_.size());
        switch (op.code) {
        case OpCode::Min:
        case OpCode::Max:
            watches_.push_back({slot, op.code == OpCode::Min ? Kind::Least : Kind::Most, first, 0});
            slots_.push_back(op.a);
            slots_.push_back(op.b);
            break;
        case OpCode::Abs:
            watches_.push_back({slot, Kind::Sign, first, 0});
            slots_.push_back(op.a);
            break;
        case OpCode::Table:
            watches_.push_back({slot, Kind::Row, first, op.a});
            slots_.push_back(op.b);
            break;
        default:
            if (is_flat(op.code) && kind_of(op.code) != OpKind::Logic) {
                watches_.push_back({slot, Kind::Value, first, 0});
                slots_.push_back(slot);
            }
            break;
        }
    }
}

std::uint64_t Switches::decide(const Watch& watch, double a, double b) const {
    if (a != a || b != b)
        return 0x7FF8000000000000;
    switch (watch.kind) {
    case Kind::Value:
        return std::bit_cast<std::uint64_t>(a);
    case Kind::Least:
        return b < a ? 1 : 0;
    case Kind::Most:
        return b > a ? 1 : 0;
    case Kind::Sign:
        return a < 0 ? 1 : 0;
    case Kind::Row:
        break;
    }
    const std::vector<double>& x = plan_->tables[watch.table].x;
    const auto above = std::upper_bound(x.begin(), x.end(), a) - x.begin();
    return static_cast<std::uint64_t>(
        a == x.back() ? above - 1 : above); // the last row belongs to the last segment
}

} // namespace acre::engine
