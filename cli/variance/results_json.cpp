#include <string>

#include "cli/shared/json/value.h"
#include "cli/variance/earned_json.h"
#include "cli/variance/results_page.h"

namespace acre::cli {
namespace {

Json job_json(const engine::VarianceAnswer& job, const Income& income) {
    return {{"quote", job.quote},
            {"job", job.job},
            {"income_from", income.from},
            {"bill", income.bill.empty() ? Json(nullptr) : Json(income.bill)},
            {"why_no_bill", income.why.empty() ? Json(nullptr) : Json(income.why)},
            {"work_share", number(job.work_share)},
            {"overhead", number(job.overhead)},
            {"quoted", earned(job.price, job.quoted_cost, job.overhead)},
            {"actual", earned(job.income, job.actual_cost, job.overhead)}};
}

} // namespace

Document results_json(const ResultsPage& page) {
    const engine::ResultsAnswer& results = page.results;
    Json out = {{"schema", "acrewright.results/1"},
                {"money", money_json()},
                {"jobs", Json::array()},
                {"costs", Json::array()},
                {"fuel",
                 {{"by_hours", number(results.by_hours)},
                  {"by_burn", number(results.by_burn)},
                  {"by_price", number(results.by_fuel_price)}}},
                {"overhead", number(results.overhead)},
                {"quoted", earned(results.price, results.quoted_cost, results.overhead)},
                {"actual", earned(results.income, results.actual_cost, results.overhead)},
                {"as_quoted", number(results.as_quoted)},
                {"losses", results.losses},
                {"unfinished", page.unfinished},
                {"left_out", Json::array()}};
    for (const engine::VarianceAnswer& job : results.jobs)
        out["jobs"].push_back(job_json(job, page.income.at(job.quote)));
    for (const engine::CostOfJobs& cost : results.costs)
        out["costs"].push_back({{"label", cost.label},
                                {"jobs", cost.jobs},
                                {"quoted", number(cost.quoted)},
                                {"actual", number(cost.actual)},
                                {"by_quantity", number(cost.by_quantity)},
                                {"by_rate", number(cost.by_rate)}});
    for (const LeftOut& one : page.left_out)
        out["left_out"].push_back({{"quote", one.quote}, {"why", one.why}});
    return answered(std::move(out));
}

} // namespace acre::cli
