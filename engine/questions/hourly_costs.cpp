#include "engine/questions/hourly_costs.h"

#include <algorithm>
#include <unordered_set>

namespace acre::engine {
namespace {

using lang::Op;

constexpr std::size_t most_steps = 10'000; // of formulas looked into for one cost

// Whether a formula has a line in it, through the lines it names.
bool has_in_it(const lang::Sheet& sheet, lang::NodeId formula, lang::LineId wanted) {
    std::vector<lang::NodeId> rest{formula};
    std::unordered_set<lang::LineId> seen;
    for (std::size_t step = 0; step < most_steps && !rest.empty(); ++step) {
        const lang::Node& node = sheet.nodes[rest.back()];
        rest.pop_back();
        if (node.op == Op::Line && node.index == wanted)
            return true;
        if (node.op == Op::Line && sheet.lines[node.index].value != lang::none &&
            seen.insert(node.index).second)
            rest.push_back(sheet.lines[node.index].value);
        if (node.op == Op::Add || node.op == Op::Subtract || node.op == Op::Multiply ||
            node.op == Op::Divide || node.op == Op::Convert)
            rest.push_back(node.a);
        if (node.op == Op::Add || node.op == Op::Subtract || node.op == Op::Multiply ||
            node.op == Op::Divide)
            rest.push_back(node.b);
    }
    return false;
}

// Whether a line is the hours times something: by its formula, through the lines it names. A share
// of hours in hours, by which trips are divided between two works, is none.
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
        const bool share = node.op == Op::Divide && has_in_it(sheet, node.b, hours);
        if (node.op == Op::Multiply || node.op == Op::Convert || (node.op == Op::Divide && !share))
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

// Whether hours are those of a line, or a part of what it adds up.
bool is_of_sum(const lang::Sheet& sheet, lang::LineId sum, lang::LineId hours) {
    if (sum == hours)
        return true;
    std::vector<lang::NodeId> rest;
    if (sheet.lines[sum].value != lang::none)
        rest.push_back(sheet.lines[sum].value);
    for (std::size_t step = 0; step < most_steps && !rest.empty(); ++step) {
        const lang::Node& node = sheet.nodes[rest.back()];
        rest.pop_back();
        if (node.op == Op::Line && node.index == hours)
            return true;
        if (node.op == Op::Add)
            rest.insert(rest.end(), {node.a, node.b});
    }
    return false;
}

} // namespace

HourlyCosts hourly_costs(const PricedJob& job, const Estimate& estimate) {
    const lang::Sheet& sheet = job.sheet();
    const auto over_hours = [&](std::size_t i) {
        return estimate.costs[i].quantity_unit == "h" && estimate.costs[i].amount > 0;
    };
    const auto of_a_meter = [&](std::size_t i) {
        const lang::LineId hours = named_by(sheet, sheet.costs[i].quantity);
        return std::any_of(sheet.counted.begin(), sheet.counted.end(), [&](const auto& counted) {
            return !counted.machine.empty() && is_of_sum(sheet, counted.line, hours);
        });
    };
    HourlyCosts hourly;
    std::size_t largest = estimate.costs.size();
    for (const bool metered : {true, false})
        for (std::size_t i = 0; i < estimate.costs.size(); ++i)
            if (over_hours(i) && of_a_meter(i) == metered &&
                (largest == estimate.costs.size() ||
                 (of_a_meter(largest) == metered &&
                  estimate.costs[i].amount > estimate.costs[largest].amount)))
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
