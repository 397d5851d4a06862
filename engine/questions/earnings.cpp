#include "engine/questions/earnings.h"

#include <cmath>

namespace acre::engine {
namespace {

using lang::ast::StepKind;

double at(const Plan& plan, const Values& values, lang::LineId line) {
    const Slot slot = line == lang::none ? no_slot : plan.line_slot[line];
    return slot == no_slot ? 0 : values.slot[slot];
}

double& part_of(Earnings& earnings, StepKind kind) {
    switch (kind) {
    case StepKind::Overhead:
        return earnings.overhead;
    case StepKind::Contingency:
    case StepKind::Reserve:
        return earnings.reserve;
    case StepKind::Markup:
        return earnings.markup;
    case StepKind::Margin:
        return earnings.target_margin;
    case StepKind::AtLeast:
        return earnings.minimum;
    case StepKind::RoundUp:
    case StepKind::RoundTo:
        break;
    }
    return earnings.rounding;
}

} // namespace

Earnings earnings(const lang::Sheet& sheet, const Plan& plan, const Values& values, double price) {
    Earnings result;
    result.price = price;
    result.direct_cost = at(plan, values, sheet.cost_total);
    double covered = 0, amounts = 0;
    for (const lang::PriceItem& item : sheet.prices) {
        double before = at(plan, values, item.cost);
        covered += before;
        for (const lang::PriceStep& step : item.steps) {
            const double after = at(plan, values, step.line);
            part_of(result, step.kind) += after - before;
            before = after;
        }
        amounts += before;
    }
    result.rounding += price - amounts;
    // Two sums of the same costs in another order: less than a part in 1e12 of them is nothing.
    const double left = result.direct_cost - covered;
    result.uncovered = std::abs(left) > 1e-12 * std::abs(result.direct_cost) ? left : 0;
    return result;
}

double overhead_of(const lang::Sheet& sheet, const Plan& plan, const Values& values) {
    return earnings(sheet, plan, values, 0).overhead;
}

} // namespace acre::engine
