#include "engine/questions/results.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace acre::engine {
namespace {

// Of an entry of a list, `hazel.fuel`, the label begins with what the entry is called.
std::string label_of(const QuotedCost& cost) {
    if (cost.label.empty())
        return cost.name;
    const std::size_t colon = cost.label.find(": ");
    const bool of_entry = cost.name.find('.') != std::string::npos;
    return of_entry && colon != std::string::npos ? cost.label.substr(colon + 2) : cost.label;
}

void add(const VarianceAnswer& job, std::map<std::string, CostOfJobs>& costs,
         ResultsAnswer& answer) {
    std::set<std::string> seen; // in this job
    for (const VarianceRow& row : job.rows) {
        if (row.quoted_amount == 0 && row.actual_amount == 0)
            continue;
        const std::string label = label_of(row.quoted);
        CostOfJobs& cost = costs[label];
        cost.label = label;
        cost.jobs += seen.insert(label).second ? 1 : 0;
        cost.quoted += row.quoted_amount;
        cost.actual += row.actual_amount;
        cost.by_quantity += row.by_quantity;
        cost.by_rate += row.by_rate;
        answer.as_quoted += row.as_quoted() ? row.actual_amount : 0;
        if (row.by_hours) {
            answer.by_hours += *row.by_hours;
            answer.by_burn += *row.by_burn;
            answer.by_fuel_price += row.by_rate;
        }
    }
    answer.price += job.price;
    answer.income += job.income;
    answer.overhead += job.overhead;
    answer.quoted_cost += job.quoted_cost;
    answer.actual_cost += job.actual_cost;
    answer.losses += job.actual_profit() < 0 ? 1 : 0;
}

} // namespace

ResultsAnswer results(std::vector<VarianceAnswer> jobs) {
    ResultsAnswer answer;
    std::map<std::string, CostOfJobs> costs;
    for (const VarianceAnswer& job : jobs)
        add(job, costs, answer);
    for (auto& [label, cost] : costs)
        answer.costs.push_back(std::move(cost));
    std::stable_sort(
        answer.costs.begin(), answer.costs.end(),
        [](const CostOfJobs& a, const CostOfJobs& b) {
            return a.actual - a.quoted > b.actual - b.quoted;
        });
    std::stable_sort(jobs.begin(), jobs.end(),
                     [](const VarianceAnswer& a, const VarianceAnswer& b) {
                         return a.actual_profit() < b.actual_profit();
                     });
    answer.jobs = std::move(jobs);
    return answer;
}

} // namespace acre::engine
