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
#include <string>
#include <vector>

#include "lang/diag/outcome.h"

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

// The log in `text`, called `name` where it is at fault. J001: a missing or unknown column, too
// many rows or columns, not CSV; J002: a cell that is not a number; J003: a date that is not in the
// calendar; J004: a meter that runs backward, a day of more than 24 hours, or meters of one machine
// that overlap.
lang::Outcome<JobLog> read_job_log(std::string name, std::string text);

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
