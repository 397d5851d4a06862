// A bill by a sealed quote's own terms: what was measured, at the rates that were quoted, with the
// clauses that the customer was shown, each line with the sealed line it rests on. Nothing is read
// from a season or a model of today.
//
//   items       measured where the log measures them; acres within the tolerance as quoted; a lump
//               sum as quoted; not less than the item's minimum
//   fuel        acres of each week at the steps of its posted price
//   standby     hours down by their cause, where the cause is the customer's to pay
//   by the hour where the ground refused the shank
//   less        deposits, and what earlier bills of the quote had
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/billing/posted.h"
#include "engine/book/record.h"
#include "engine/log/job_log.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct BillLine {
    std::string kind;              // item, minimum, fuel, standby, hourly, deposit, before
    std::string name;              // of the item: "ripping"; else the kind and what it is of
    std::string title;             // "Ripping"
    std::string per;               // of the quantity; empty: a lump sum
    double quantity = 0, rate = 0; // rate: money for each
    std::int64_t cents = 0;
    std::string clause;             // why, in a sentence
    std::vector<std::string> terms; // names of the sealed lines it rests on
    bool as_quoted = false;         // by the unit, and the log does not measure it
};

// What earlier bills of the quote had: the work of the last one, deposits not taken off, and the
// deposits that each took off.
struct BilledBefore {
    std::string bill, date;
    std::int64_t cents = 0;
    std::vector<std::pair<std::string, std::int64_t>> deposits{}; // bill, cents
};

struct BillQuestion {
    const QuoteRecord* quote = nullptr; // the last accepted: the quote, or a change order
    const JobLog* log = nullptr;
    const PostedPrices* posted = nullptr;      // null: none were given
    std::string product;                       // of them; empty: the only one
    std::map<std::string, std::string> causes; // further words of the log: which clause they mean
    std::vector<std::int64_t> deposits;        // cents; below zero: put back
    std::optional<BilledBefore> before;
    std::string date;          // of the bill
    std::string accepted;      // the day of the word whose terms hold
    bool without_fuel = false; // no fuel lines where no posted prices were given
    bool finished = true;      // the log is all of the job
};

struct BillAnswer {
    std::vector<BillLine> lines;
    std::int64_t work_cents = 0; // without what is taken off
    std::int64_t due_cents = 0;
    bool lacks_fuel = false; // the quote has fuel steps, and they were left out (without_fuel)
    std::string due;         // the day it is to be paid by; empty: the quote does not say
    std::string due_term;    // the sealed line that says so
};

// L841: a deposit that was taken off before, or is more than the work; of a job that is not
// finished a minimum, or all of what the log does not measure. R010: the quote, the log and the
// posted prices do not make a bill: no posted price of a week, a cause that no clause knows, a
// figure that was not measured; a day before the work was accepted, or before the bill that is
// taken off.
lang::Outcome<BillAnswer> ask(const BillQuestion& question);

// The clause that a cause of the log falls under, "not_ready"; empty: none is known.
std::string clause_of_cause(const std::string& cause,
                            const std::map<std::string, std::string>& further);

} // namespace acre::engine
