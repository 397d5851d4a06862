// The daily log of a job, as CSV (RFC 4180): one row a machine and day, or more when a day has
// several causes of down time.
//
// The first row names the columns, in any order: date (2027-03-14), machine, operator, meter_start,
// meter_stop, acres, gallons, fuel_price ($/gal), down_hours, down_cause, note, and amount.NAME for
// money spent on the cost NAME. date, meter_start, meter_stop and acres must be there. Empty cells
// are nothing. Money may carry a $ and group commas.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::engine {

inline constexpr std::size_t max_log_rows = 100'000;
inline constexpr std::size_t max_log_columns = 200;

struct LogRow {
    std::string date, machine, operator_name, down_cause, note;
    double hours = 0;                                              // meter stop less meter start
    double acres = 0, gallons = 0, fuel_price = 0, down_hours = 0; // fuel_price 0: not said
    std::map<std::string, double> amounts;                         // by cost
};
struct JobLog {
    std::vector<LogRow> rows;
    bool has_gallons = false;
};

// Reports J0xx with the row and column: a missing or unknown column, a cell that is no number, a
// date that is not in the calendar, a meter that runs backwards or a day of more than 24 hours,
// meters of one machine that overlap.
std::optional<JobLog> read_job_log(const lang::SourceMap& sources, lang::FileId file,
                                   lang::Diagnostics& diagnostics);

struct LogTotals {
    std::size_t days = 0; // different dates
    double hours = 0, acres = 0, gallons = 0;
    double fuel_price = 0;                       // mean by gallons where it is said; 0: nowhere
    std::map<std::string, double> amounts, down; // money by cost; hours by cause
};
LogTotals totals(const JobLog& log);

// A ratio of two daily figures, acres over hours say: the ratio of the sums, and its standard error
// from how much the days differ (the ratio estimator of survey sampling, Cochran 1977, Sampling
// Techniques, 3rd ed., section 6.4; from memory).
struct Learned {
    double value = 0, standard_error = 0; // error 0 with fewer than two days
    std::size_t days = 0;
};
Learned learned_ratio(const JobLog& log, double LogRow::*over, double LogRow::*under);

} // namespace acre::engine
