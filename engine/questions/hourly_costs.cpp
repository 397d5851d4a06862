#include "engine/questions/hourly_costs.h"

#include <unordered_set>

namespace acre::engine {
namespace {

using lang::Op;

constexpr std::size_t most_steps = 10'000; // of formulas looked into for one cost

// Whether a line is the hours times something: by its formula, through the lines it names.
bool goes_with(const lang::Sheet& sheet, lang::LineId line, lang::LineId hours) {
    std::vector<lang::LineId> lines{line};
    std::vector<lang::NodeId> rest;
    std::unordered_set<lang::LineId> seen;
    for (std::size_t step = 0; step < most_steps && !(lines.empty() && rest.empty()); ++step) {
        if (!lines.empty()) {
            const lang::LineId next = lines.back();
            lines.pop_back();
            if (next == hours)
                return true;
            if (sheet.lines[next].value != lang::none && seen.insert(next).second)
                rest.push_back(sheet.lines[next].value);
            continue;
        }
        const lang::Node& node = sheet.nodes[rest.back()];
        rest.pop_back();
        if (node.op == Op::Line)
            lines.push_back(node.index);
        if (node.op == Op::Multiply || node.op == Op::Divide || node.op == Op::Convert)
            rest.push_back(node.a);
        if (node.op == Op::Multiply)
            rest.push_back(node.b);
    }
    return false;
}

// The line that a cost's quantity is only another name of.
lang::LineId named_by(const lang::Sheet& sheet, lang::LineId line) {
    const lang::NodeId formula = sheet.lines[line].value;
    return formula != lang::none && sheet.nodes[formula].op == Op::Line ? sheet.nodes[formula].index
                                                                        : line;
}

} // namespace

HourlyCosts hourly_costs(const PricedJob& job, const Estimate& estimate) {
    const lang::Sheet& sheet = job.sheet();
    const auto over_hours = [&](std::size_t i) {
        return estimate.costs[i].quantity_unit == "h" && estimate.costs[i].amount > 0;
    };
    HourlyCosts hourly;
    std::size_t largest = estimate.costs.size();
    for (std::size_t i = 0; i < estimate.costs.size(); ++i)
        if (over_hours(i) && (largest == estimate.costs.size() ||
                              estimate.costs[i].amount > estimate.costs[largest].amount))
            largest = i;
    if (largest == estimate.costs.size())
        return hourly;
    const lang::LineId hours = named_by(sheet, sheet.costs[largest].quantity);
    double amount = 0;
    for (std::size_t i = 0; i < estimate.costs.size(); ++i) {
        if (sheet.costs[i].part != sheet.costs[largest].part || estimate.costs[i].amount <= 0)
            continue;
        if (!over_hours(i) && !goes_with(sheet, sheet.costs[i].quantity, hours))
            continue;
        hourly.costs.push_back(i);
        amount += estimate.costs[i].amount;
    }
    if (hourly.costs.size() < 2)
        return {};
    hourly.hours = estimate.costs[largest].quantity;
    hourly.per_hour = amount / hourly.hours;
    return hourly;
}

} // namespace acre::engine
