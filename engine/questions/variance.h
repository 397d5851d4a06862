// Actual against quote, cost line by cost line: each difference divided exactly into what came from
// the quantity and what came from the rate.
//
//   quantity part = (actual quantity - quoted quantity) x quoted rate
//   rate part     = (actual rate - quoted rate) x actual quantity
//
// Fuel is gallons = hours x burn, so its quantity part falls into hours and burn the same way.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/log/job_log.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct QuotedCost {
    std::string name, label, part, rate_unit, quantity_unit;
    double rate = 0, quantity = 0;
};
struct Quoted {
    std::string quote, job; // its number, the title of its job
    std::vector<QuotedCost> costs;
    std::map<std::string, double> lines; // values by name, in the units of the lines
    std::vector<CountedLine> counted;
    double price = 0;    // $
    double overhead = 0; // $, what the price carries
    // What the customer is billed for the work in the log, $; empty: as the price.
    std::optional<double> income;
    bool finished = true; // the log is all of the job; else it is a part
};

// Where the quantity of a cost is from: the quote itself, or what the log counts of this kind.
struct QuantityFrom {
    bool log = false;
    Counting how = Counting::Work;
    std::string column; // of fuel and work
};

struct VarianceRow {
    QuotedCost quoted;
    double quantity = 0, rate = 0; // actual
    QuantityFrom from;
    bool rate_known =
        false; // from money or a fuel price in the log; else the quoted rate is taken to hold
    bool as_quoted() const { return !from.log && !rate_known; } // the log says nothing of it
    double quoted_amount = 0, actual_amount = 0;
    double by_quantity = 0, by_rate = 0;     // add up to actual - quoted
    std::optional<double> by_hours, by_burn; // of fuel: add up to by_quantity
};
// What a column of the log came to, and what a machine hour brings of it.
struct CountedRow {
    CountedLine line;
    double logged = 0;
    std::optional<Learned> per_hour; // of fuel and work, where the job counts machine hours
};
struct VarianceAnswer {
    std::string quote, job; // its number, the title of its job
    std::vector<VarianceRow> rows;
    std::vector<std::string> unknown_costs; // amount.NAME columns that name no cost of the quote
    std::vector<std::string> unlogged_machines; // quoted, and not in the log: as quoted
    LogTotals log;
    double price = 0, overhead = 0;          // $, both as quoted
    double income = 0;                       // $, what is billed
    double quoted_cost = 0, actual_cost = 0; // $, direct cost
    double quoted_contribution() const { return price - quoted_cost; }
    double quoted_profit() const { return price - quoted_cost - overhead; }
    double actual_contribution() const { return income - actual_cost; }
    double actual_profit() const { return income - actual_cost - overhead; }
    // Of a job that is not done: the share of its work that the log has, 0 to 1, and what its
    // figures are multiplied by, so that the whole job stands beside the whole quote.
    double share = 1, scaled_by = 1;
    bool by_service = false;         // each service is scaled by its own work
    double work_share = 1;           // what share of the work quoted the log has, finished or not
    double waited_without_wages = 0; // h that a crew waited, where the quote has no wages for it
    std::vector<CountedRow> counted; // what the log has of it
    std::string fuel_machine;        // the machine whose burn the log tells; may be empty
};

// The quantity of a cost over a counted line is the log's. One in the unit of a single counted line
// is taken in the share in which the log's total compares to the quote's own (a cost over the hours
// of every shank grows as the machine hours do). Hours count only in parts of the job that have a
// cost over all hours of a machine, or that share them between them as discing and floating do:
// those of a truck in the move stay as quoted, like anything else. They follow the machine of their
// part. Where several machines are counted, a cost over the hours of one follows that one; hours of
// a machine that the quote does not have are shared out (meter_hours); those of a machine of its
// own kind that the log does not name are as quoted. So does its fuel, where the
// rows with fuel name their machine. Round trips and nights that
// the log does not count go with its days. A column left empty on some days is taken in the share
// of the hours of the others. Tips that the log counts are charged at their price; hours for which
// the crew waited, at its wages.
//
// The log of a job that is not done is scaled by the work of the job's own model, or its machine
// hours. Q001: the model of the quote counts nothing. R010: a job that is not done and has no work
// in its log.
lang::Outcome<VarianceAnswer> ask(const Quoted& quoted, const JobLog& log);

} // namespace acre::engine
