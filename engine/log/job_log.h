// The daily log of a job, as CSV (RFC 4180): one row a machine and day, or more when a day has
// several causes of down time. Cells stand between commas, or between semicolons or tabs
// where the first row has those and no comma.
//
// The first row names the columns, in any order, with or without capitals and spaces: date
// (2027-03-14; "date mm/dd/yyyy": 3/14/2027), machine, operator, meter_start, meter_stop,
// fuel_price (money a gallon), down_hours, down_cause, crew_waited (yes or no), hourly_hours (meter
// hours billed by the hour) and refused_at (where the ground refused the shank), permit, invoice,
// note, amount.NAME for money spent on the cost NAME, and a column for all fuel and work that the
// job counts, named as its line is: acres, gallons. date must be there, the meter where the job
// counts the hours of a machine, and the work that the job's own model counts. An empty cell is not
// known; 0 is none. Money may carry a $ and group commas.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <optional>
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
    std::string refused_at, permit, invoice;
    double hours = 0; // meter stop less meter start
    bool has_meter = false;
    double meter_start = 0, meter_stop = 0;
    double fuel_price = 0, down_hours = 0; // fuel_price 0: not said
    double hourly_hours = 0;               // of `hours`, those billed by the hour
    bool crew_waited = false;              // while it was down
    double fuel = 0;                       // of all columns of fuel
    std::map<std::string, double> counted; // by column of fuel or work; an empty cell is not there
    std::map<std::string, double> amounts; // by cost
    std::vector<lang::Span> cells;         // by column
    // Whose row it is (row_work.h): the machine as the job calls it, or else as the row does; its
    // kind, where the job has several; the services that it has work of.
    std::string of, kind;
    std::set<std::string, std::less<>> services;
};
struct JobLog {
    std::vector<LogRow> rows;
    std::set<std::string, std::less<>> columns; // those of fuel and work that it has
    std::set<std::string, std::less<>> fuels;   // of these, those of fuel
    std::set<std::string, std::less<>> work;    // those of work, hours not among them
    bool several_services = false;              // that the rows have work of
    // By service: the kinds of machine that do its work.
    std::map<std::string, std::set<std::string, std::less<>>, std::less<>> kinds_of;
    std::map<std::string, std::size_t, std::less<>> column; // of every head
    std::shared_ptr<const lang::SourceMap> sources;         // its own text

    // The cell of a column, or the first of the row where the log has no such column.
    lang::Span place(const LogRow& row, std::string_view head) const;
    std::uint32_t line(const LogRow& row) const; // from 1
};

// Whose meter a row reads, however it is spelled: "Walt" is "walt.rig". Of a job that counts one
// machine, a log that names one means it in rows without a name too.
class MeterNames {
  public:
    MeterNames(const std::vector<LogRow>& rows, const std::vector<CountedLine>& counted);
    std::string of(const LogRow& row) const;
    std::string of(const std::string& name) const; // of another log

  private:
    std::set<std::string> machines_; // of the job
    std::string only_;               // the machine of rows without a name
};

// The log in `text`, called `name` where it is at fault, of a job that counts this. J001: a missing
// or unknown column, too many rows or columns, not CSV; J002: a cell that is not a number, half of
// what belongs together; J003: a date that is not in the calendar; J004: a meter that runs
// backward, a day of more than 24 hours, or meters of one machine that overlap. Each error is told,
// and none of the log is taken.
lang::Outcome<JobLog> read_job_log(std::string name, std::string text,
                                   const std::vector<CountedLine>& counted);

// Days of work on which a column was left empty.
struct Unlogged {
    std::size_t days = 0;
    double hours = 0; // of the meter on these days, as far as they count
    double told = 0;  // of the days that have the figure
};
struct LogTotals {
    std::size_t days = 0;          // different dates with work
    std::string first, last;       // of them; empty: none
    std::size_t calendar_days = 0; // from first to last
    double hours = 0;
    double fuel_price = 0;                    // mean by gallons where it is said; 0: nowhere
    std::map<std::string, double> counted;    // by column of fuel or work
    std::map<std::string, Unlogged> unlogged; // of them, those with days left empty
    // By machine, as the job calls it or else as the log does: hours, and all its fuel.
    std::map<std::string, double> machine_hours, machine_fuel;
    std::map<std::string, double> amounts, down; // money by cost; hours by cause
    double waited = 0, hourly = 0; // hours for which the crew waited; billed by the hour
    // Hours of rows that name no work, in a log of several services: of which, nobody knows.
    double of_no_service = 0;
};
LogTotals totals(const JobLog& log);

// What the total of a column is multiplied by: days on which nobody wrote the figure down are like
// the others.
double filled(const LogTotals& totals, const std::string& column);

// A log may call a machine by its own name, "Walt", or as the job does, "walt.rig".
bool names_machine(const std::string& name, const std::string& machine);

// The meter hours of a machine. Empty: the log has no such machine.
std::optional<double> hours_of(const LogTotals& totals, const std::string& machine);

// The meter hours of every machine that is counted; together they are all of the log. Those of a
// name that several machines have are shared between them by the hours quoted. Those of a machine
// that the job does not have are of the ones with hours that the log does not name, else of all, by
// the hours quoted.
std::map<std::string, double> meter_hours(const LogTotals& totals,
                                          const std::vector<CountedLine>& counted);

// What a machine hour brings of a column, acres say, without the hours that are billed by the hour:
// the ratio of the sums, and its standard error
// from how much the days differ (the ratio estimator of survey sampling, Cochran 1977, Sampling
// Techniques, 3rd ed., section 6.4; from memory). Days without a figure teach nothing.
struct Learned {
    double value = 0, standard_error = 0; // error 0 with fewer than two days
    std::size_t days = 0;
    double hours = 0; // of the meter on these days
};
Learned learned_per_hour(const JobLog& log, const std::string& column);

} // namespace acre::engine
