// The daily log of a job, as CSV, and what it says against a quote.
#include <cmath>

#include "cli/shared/json/reply_json.h"
#include "cli/variance/variance_page.h"
#include "engine/log/job_log.h"
#include "engine/questions/variance.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/target.h"

namespace job_log_fuzz {

ACREWRIGHT_TARGET(job_log, text) {
    using namespace acre;
    using engine::Counting;
    engine::Quoted quoted;
    quoted.counted = {{"machine_hours", "h", Counting::Meter, "crawler", 40, {"operator"}},
                      {"acres", "ac", Counting::Work, "", 60, {}},
                      {"gallons", "gal", Counting::Fuel, "", 1200, {"fuel"}},
                      {"days", "day", Counting::Days, "", 4, {}}};
    const lang::Outcome<engine::JobLog> log =
        engine::read_job_log("f.csv", std::string(text), quoted.counted);
    if (log.said.sources)
        fuzz::hold_diagnostics(log.said.diagnostics, *log.said.sources);
    HOLDS(log.value.has_value() == !log.said.diagnostics.has_errors());
    if (!log)
        return;
    HOLDS(log->rows.size() <= engine::max_log_rows);
    double hours = 0;
    for (const engine::LogRow& row : log->rows) {
        HOLDS(row.date.size() == 10);
        for (const double number : {row.hours, row.fuel, row.fuel_price, row.down_hours})
            HOLDS(std::isfinite(number) && number >= 0);
        for (const auto& [column, done] : row.counted)
            HOLDS(std::isfinite(done) && done >= 0 && log->columns.contains(column));
        HOLDS(row.hours <= 24 + 1e-9);
        hours += row.hours;
    }
    const engine::LogTotals totals = engine::totals(*log);
    HOLDS(totals.days <= log->rows.size());
    HOLDS(std::fabs(totals.hours - hours) <= 1e-9 * (1 + hours));
    quoted.costs = {{"fuel", "fuel", "Costs", "$/gal", "gal", 4.2, 1200},
                    {"operator", "", "Costs", "$/h", "h", 38, 40}};
    quoted.quote = "2027-001";
    quoted.job = "Block 12";
    quoted.price = 12'000;
    const lang::Outcome<engine::VarianceAnswer> variance = engine::ask(quoted, *log);
    HOLDS(variance.value.has_value());
    for (const engine::VarianceRow& row : variance->rows)
        HOLDS(!std::isfinite(row.actual_amount) ||
              std::fabs(row.by_quantity + row.by_rate - (row.actual_amount - row.quoted_amount)) <=
                  1e-9 * (1 + std::fabs(row.actual_amount) + std::fabs(row.by_quantity) +
                          std::fabs(row.quoted_amount)));
    const cli::VariancePage page{*variance, {variance->income, "agreed", "", ""}};
    HOLDS_FOR(fuzz::is_safe(cli::variance_text(page, false)), cli::variance_text(page, false));
    cli::Reply reply;
    reply.document = cli::variance_json(page);
    fuzz::hold_json(cli::reply_json(reply));
}

} // namespace job_log_fuzz
