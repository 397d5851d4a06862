// A season of jobs against the machines: who is booked when, what ownership costs at the hours
// really booked, what each month brings, and the acres that cover the year.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace acre::engine {

// What the season needs to know of a job. Days are counted from 1970-01-01.
struct SeasonJob {
    std::string file, title, who;
    long start = 0;  // the first day of work
    long finish = 0; // the last; before the first: as many days as `days` says, one after another
    double days = 0; // of work, whole days
    std::vector<long> closed{};          // days between the two on which nobody works, rising
    double price = 0, cost = 0;          // money; cost: direct
    double overhead = 0;                 // what the price carries
    double acres = 0, gallons = 0;       // 0: the job has none
    std::map<std::string, double> hours; // by machine

    double profit() const { return price - cost - overhead; }
    double profit_a_day() const { return profit() / (days > 1 ? days : 1); }
};

struct SeasonMachine {
    std::string name;
    double fixed_per_year = 0; // what a year costs however far it runs, $/yr
    double hours_per_year = 0; // over which the jobs were priced
};

struct MachineRow {
    SeasonMachine machine;
    double booked = 0;          // h
    double share = 0;           // of the hours assumed
    double fixed_at_booked = 0; // $/h, if these were all the hours of the year; 0: not booked
    double not_earned =
        0; // fixed cost of a year that the booked hours do not cover; below zero: more than covered
    double idle_hour = 0; // fixed cost of an hour as priced: what an idle one leaves uncovered, $/h
};
struct Clash { // two jobs that want one machine on the same days
    std::string machine;
    std::size_t first = 0, second = 0; // into the jobs, by start
    long from = 0, to = 0;             // first and last day of it
};
struct MonthRow {
    int year = 0, month = 0;
    double job_days = 0, gallons = 0, acres = 0, billed = 0,
           spent = 0; // billed: `net_days` after the last day of the job
    std::map<std::string, double> hours;
};
struct Season {
    std::vector<SeasonJob> jobs;      // by start
    std::vector<MachineRow> machines; // most hours first
    std::vector<MonthRow>
        months; // from the first to the last in which anything happens, without gaps
    std::vector<Clash> clashes;
    std::vector<std::size_t> by_day_pay; // jobs, those with the least profit a day first
    double price = 0, cost = 0, overhead = 0, acres = 0;
    double fixed = 0;             // of all machines, a year
    double left_for_machines = 0; // price less overhead and all direct cost but that fixed cost
    double break_even_acres = 0;  // of acres like these; 0: no acres, or they carry nothing
};

struct SeasonQuestion {
    std::map<std::string, int> fleet; // how many of a machine there are; one where nothing is said
    long net_days = 20;               // from the last day of a job to its payment
};

// `fleet`: how many of a machine there are; one where nothing is said.
Season season(std::vector<SeasonJob> jobs, const std::vector<SeasonMachine>& machines,
              const std::map<std::string, int>& fleet, long net_days);

} // namespace acre::engine
