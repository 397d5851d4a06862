#include "engine/questions/risk/refusals.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/questions/what_if/reach.h"

namespace acre::engine {

void Refusals::read(const PricedJob& job, const std::vector<Axis>& axes, const PlanBounds& bounds,
                    std::vector<Slot>& targets, RiskAnswer& result) {
    const lang::Sheet& sheet = job.sheet();
    const Plan& plan = job.plan();
    std::vector<std::uint32_t> inputs;
    for (const Axis& axis : axes)
        inputs.push_back(axis.input);
    const std::vector<char> varies = reached_from(plan, inputs);
    for (std::size_t i = 0; i < sheet.requires_.size(); ++i) {
        if (varies[plan.require_slot[i]] == 0 || bounds.holds(plan.require_slot[i]))
            continue;
        Refusal refusal{targets.size(), no_money};
        targets.push_back(plan.require_slot[i]);
        if (plan.require_costs[i] != no_slot) {
            refusal.money = targets.size();
            targets.push_back(plan.require_costs[i]);
        }
        list_.push_back(refusal);
        const lang::Condition& require = sheet.requires_[i];
        RefusalRisk& named = result.refusals.emplace_back();
        named.name = require.message;
        if (require.entry != lang::none) {
            const lang::Entry& entry = sheet.entries[require.entry];
            named.entry = entry.label.empty() ? entry.name : entry.label;
        }
    }
}

std::size_t Refusals::settle(std::size_t lanes, const LaneFault* fault, const double* const* out,
                             double* contribution) const {
    std::size_t settled = 0;
    for (std::size_t i = 0; i < lanes; ++i) {
        if (fault[i] != LaneFault::Requirement)
            continue;
        bool known = true;
        double largest = 0;
        for (const Refusal& refusal : list_) {
            if (out[refusal.met][i] != 0)
                continue;
            known = known && refusal.money != no_money && out[refusal.money][i] >= 0;
            largest = known ? std::max(largest, out[refusal.money][i]) : largest;
        }
        contribution[i] = known ? -largest : std::numeric_limits<double>::quiet_NaN();
        settled += known ? 1 : 0;
    }
    return settled;
}

void Refusals::count(std::size_t lanes, const LaneFault* fault, const double* const* out,
                     std::vector<RefusalTally>& tally) const {
    for (std::size_t i = 0; i < lanes; ++i)
        for (std::size_t k = 0; k < list_.size() && fault[i] == LaneFault::Requirement; ++k)
            if (out[list_[k].met][i] == 0) {
                ++tally[k].count;
                if (list_[k].money != no_money)
                    tally[k].money += out[list_[k].money][i];
            }
}

void Refusals::report(const std::vector<RefusalTally>& tally, RiskAnswer& result) const {
    std::vector<RefusalRisk> happened;
    for (std::size_t k = 0; k < list_.size(); ++k) {
        if (tally[k].count == 0)
            continue;
        RefusalRisk& risk = happened.emplace_back(result.refusals[k]);
        const auto count = static_cast<double>(tally[k].count);
        risk.chance = count / static_cast<double>(result.trials);
        if (list_[k].money != no_money)
            risk.cost = tally[k].money / count;
    }
    result.refusals = std::move(happened);
}

} // namespace acre::engine
