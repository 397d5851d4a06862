// The daily log of a job, as CSV (RFC 4180): one row a machine and day, or more when a day has
// several causes of down time.
//
// The first row names the columns, in any order: date (2027-03-14), machine, operator, meter_start,
// meter_stop, fuel_price (money a gallon), down_hours, down_cause, note, amount.NAME for money
// spent on the cost NAME, and a column for all fuel and work that the job counts, named as its line
// is: acres, gallons. date must be there, the meter where the job counts the hours of a machine,
// and the work that the job's own model counts. Empty cells are nothing. Money may carry a $ and
// group commas.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "engine/log/counting.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_log_rows = 100'000;
inline constexpr std::size_t max_log_columns = 200;

struct LogRow {
    std::string date, machine, operator_name, down_cause, note;
    double hours = 0;                      // meter stop less meter start
    double fuel_price = 0, down_hours = 0; // fuel_price 0: not said
    double fuel = 0;                       // of all columns of fuel
    std::map<std::string, double> counted; // by column of fuel or work
    std::map<std::string, double> amounts; // by cost
};
struct JobLog {
    std::vector<LogRow> rows;
    std::set<std::string, std::less<>> columns; // those of fuel and work that it has
    std::set<std::string, std::less<>> fuels;   // of these, those of fuel
};

// The log in `text`, called `name` where it is at fault, of a job that counts this. J001: a missing
// or unknown column, too many rows or columns, not CSV; J002: a cell that is not a number; J003: a
// date that is not in the calendar; J004: a meter that runs backward, a day of more than 24 hours,
// or meters of one machine that overlap.
lang::Outcome<JobLog> read_job_log(std::string name, std::string text,
                                   const std::vector<CountedLine>& counted);

struct LogTotals {
    std::size_t days = 0; // different dates
    double hours = 0;
    double fuel_price = 0;                       // mean by gallons where it is said; 0: nowhere
    std::map<std::string, double> counted;       // by column of fuel or work
    std::map<std::string, double> machine_hours; // by what the log calls the machine
    std::map<std::string, double> amounts, down; // money by cost; hours by cause
};
LogTotals totals(const JobLog& log);

// What a machine hour brings of a column, acres say: the ratio of the sums, and its standard error
// from how much the days differ (the ratio estimator of survey sampling, Cochran 1977, Sampling
// Techniques, 3rd ed., section 6.4; from memory).
struct Learned {
    double value = 0, standard_error = 0; // error 0 with fewer than two days
    std::size_t days = 0;
};
Learned learned_per_hour(const JobLog& log, const std::string& column);

} // namespace acre::engine
