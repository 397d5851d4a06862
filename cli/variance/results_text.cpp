#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "cli/variance/results_page.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

std::string whole_change(double dollars) {
    if (std::abs(dollars) < 0.5)
        return "-";
    return (dollars > 0 ? "+" : "") + whole_dollars(dollars);
}

std::string margin_text(double profit, double income) {
    return income > 0 ? percent_text(profit / income) : "-";
}

std::string quote_list(const std::vector<std::string>& list) {
    std::string text;
    for (const std::string& name : list)
        text += (text.empty() ? "" : ", ") + terminal_text(name);
    return text;
}

void jobs_table(const engine::ResultsAnswer& results, bool color, std::string& out) {
    Table table({{"quote", Align::Left},
                 {"job", Align::Left, true},
                 {"income"},
                 {"cost over"},
                 {"profit quoted"},
                 {"profit"},
                 {"margin"}});
    for (const engine::VarianceAnswer& job : results.jobs)
        table.row({terminal_text(job.quote), terminal_text(job.job), whole_dollars(job.income),
                   whole_change(job.actual_cost - job.quoted_cost),
                   whole_dollars(job.quoted_profit()), whole_dollars(job.actual_profit()),
                   margin_text(job.actual_profit(), job.income)});
    table.rule();
    table.row({"all", "", whole_dollars(results.income),
               whole_change(results.actual_cost - results.quoted_cost),
               whole_dollars(results.quoted_profit()), whole_dollars(results.actual_profit()),
               margin_text(results.actual_profit(), results.income)},
              true);
    out += table.text(color);
    std::vector<std::string> lost;
    for (const engine::VarianceAnswer& job : results.jobs)
        if (job.actual_profit() < 0)
            lost.push_back(job.quote);
    out += paragraph(
        lost.empty() ? "None lost money: income less direct cost, less overhead as quoted."
                     : fmt::format("{} of {} lost money: {}. Profit is income less direct cost, "
                                   "less overhead as quoted.",
                                   lost.size(), results.jobs.size(), quote_list(lost)));
    for (const engine::VarianceAnswer& job : results.jobs)
        if (job.work_share > 0 && std::abs(job.work_share - 1) > 0.05)
            out += remark(fmt::format("- The log of {} has {} of the work that was quoted; its "
                                      "cost is that of the work done.",
                                      terminal_text(job.quote), percent_text(job.work_share, 0)));
}

// Each job's income may rest on something else.
void incomes(const ResultsPage& page, std::string& out) {
    std::vector<std::string> billed, terms, without_fuel, agreed;
    for (const engine::VarianceAnswer& job : page.results.jobs) {
        const std::string& from = page.income.at(job.quote).from;
        (from == "bill"                       ? billed
         : from == "terms"                    ? terms
         : from == "terms without fuel steps" ? without_fuel
                                              : agreed)
            .push_back(job.quote);
    }
    if (!billed.empty())
        out += remark("- Income by its bill: " + quote_list(billed) + ".");
    if (!terms.empty())
        out += remark("- Income by the quote's terms, no bill yet: " + quote_list(terms) + ".");
    if (!without_fuel.empty())
        out += remark("- Income by the quote's terms without fuel steps, no bill yet (--posted "
                      "FILE has their prices): " +
                      quote_list(without_fuel) + ".");
    if (!agreed.empty())
        out += remark("- Income as agreed, for no bill can be made: " + quote_list(agreed) + ".");
}

void costs_table(const engine::ResultsAnswer& results, bool color, std::string& out) {
    Table table({{"", Align::Left, true},
                 {"jobs"},
                 {"quoted"},
                 {"actual"},
                 {"over"},
                 {"by quantity"},
                 {"by rate"}});
    double same = 0;
    for (const engine::CostOfJobs& cost : results.costs) {
        const double over = cost.actual - cost.quoted;
        if (std::abs(over) < 0.5) {
            same += cost.actual;
            continue;
        }
        table.row({terminal_text(cost.label), count_text(cost.jobs), whole_dollars(cost.quoted),
                   whole_dollars(cost.actual), whole_change(over), whole_change(cost.by_quantity),
                   whole_change(cost.by_rate)});
    }
    if (same > 0)
        table.row({"all other costs", "", whole_dollars(same), whole_dollars(same), "-"});
    table.rule();
    table.row({"direct cost", "", whole_dollars(results.quoted_cost),
               whole_dollars(results.actual_cost),
               whole_change(results.actual_cost - results.quoted_cost)},
              true);
    out += "\nWhere the cost went, most over first\n" + table.text(color);
    if (results.by_hours != 0 || results.by_burn != 0 || results.by_fuel_price != 0)
        out += paragraph(fmt::format("Fuel: hours {}, fuel burned an hour {}, fuel price {}.",
                                     whole_change(results.by_hours), whole_change(results.by_burn),
                                     whole_change(results.by_fuel_price)));
    if (results.as_quoted >= 0.5)
        out += paragraph(fmt::format("{} of the actual cost, {}, is as quoted: no log says "
                                     "anything of it. Rates of an hour are as quoted too where no "
                                     "log has money.",
                                     whole_dollars(results.as_quoted),
                                     percent_text(results.as_quoted / results.actual_cost, 0)));
}

} // namespace

std::string results_text(const ResultsPage& page, bool color) {
    const engine::ResultsAnswer& results = page.results;
    const std::size_t jobs = results.jobs.size();
    std::string out = heading(fmt::format("What {} finished {} made", count_text(jobs),
                                          jobs == 1 ? "job" : "jobs"),
                              color) +
                      not_for_the_customer(color);
    if (jobs == 0) {
        out += paragraph("No finished job has a log: `acrewright mark NUMBER finished --log FILE` "
                         "closes a job with its log.");
    } else {
        jobs_table(results, color, out);
        incomes(page, out);
        costs_table(results, color, out);
    }
    if (!page.unfinished.empty())
        out += "\n" + paragraph("Accepted and not finished, so not counted: " +
                                    quote_list(page.unfinished) + ".",
                                "");
    out += left_out_text(page.left_out);
    if (jobs > 0)
        out += "\n" + paragraph("`acrewright variance NUMBER` has each job cost by cost; `learn` "
                                "what they tell the season.",
                                "");
    return out;
}

} // namespace acre::cli
