// The daily log of a job, as CSV, and what it says against a quote.
#include <cmath>

#include "cli/variance/variance_json.h"
#include "cli/variance/variance_text.h"
#include "engine/log/job_log.h"
#include "engine/questions/variance.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/target.h"

ACREWRIGHT_TARGET(job_log, text) {
    using namespace acre;
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const lang::FileId file = sources.add("f.csv", std::string(text));
    const std::optional<engine::JobLog> log = engine::read_job_log(sources, file, diagnostics);
    fuzz::hold_diagnostics(diagnostics, sources);
    HOLDS(log.has_value() == !diagnostics.has_errors());
    if (!log)
        return;
    HOLDS(log->rows.size() <= engine::max_log_rows);
    double hours = 0;
    for (const engine::LogRow& row : log->rows) {
        HOLDS(row.date.size() == 10);
        for (const double number :
             {row.hours, row.acres, row.gallons, row.fuel_price, row.down_hours})
            HOLDS(std::isfinite(number) && number >= 0);
        HOLDS(row.hours <= 24 + 1e-9);
        hours += row.hours;
    }
    const engine::LogTotals totals = engine::totals(*log);
    HOLDS(totals.days <= log->rows.size());
    HOLDS(std::fabs(totals.hours - hours) <= 1e-9 * (1 + hours));
    engine::Quoted quoted;
    quoted.costs = {{"fuel", "fuel", "Costs", "$/gal", "gal", 4.2, 1200},
                    {"operator", "", "Costs", "$/h", "h", 38, 40}};
    quoted.hours = 40;
    quoted.acres = 60;
    quoted.price = 12'000;
    const engine::Variance variance = engine::variance(quoted, *log);
    for (const engine::VarianceRow& row : variance.rows)
        HOLDS(!std::isfinite(row.actual_amount) ||
              std::fabs(row.by_quantity + row.by_rate - (row.actual_amount - row.quoted_amount)) <=
                  1e-9 * (1 + std::fabs(row.actual_amount) + std::fabs(row.by_quantity) +
                          std::fabs(row.quoted_amount)));
    const cli::VarianceNames names{"2027-001", "Block 12"};
    HOLDS_FOR(fuzz::is_safe(cli::variance_text(variance, names, false)),
              cli::variance_text(variance, names, false));
    fuzz::hold_json(cli::variance_json(variance, "2027-001"));
    const std::string proposal = cli::season_proposal(variance, names);
    HOLDS_FOR(fuzz::hold_syntax(proposal, lang::FileKind::Season), proposal);
}
