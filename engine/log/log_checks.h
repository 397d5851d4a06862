// What a bookkeeper looks for in a log that can be read: figures that do not go with each other,
// with the quote, or with other logs of the same machine. Nothing is refused for it.
#pragma once

#include <string>
#include <vector>

#include "engine/log/job_log.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// What a log is held against; what is empty or 0 is not known.
struct LogContext {
    std::string issued, start, finish; // of the quote: its date, the first and the last day planned
    double fuel_price = 0;             // a gallon, as the quote reckons it
    std::string fuel_cost;             // the only cost of fuel
    std::vector<CountedLine> counted;
    struct Reading { // of a meter in another log
        std::string quote, machine, date;
        double start = 0, stop = 0;
    };
    std::vector<Reading> others;
};

// L837, each at its row and column.
lang::Diagnostics check_log(const JobLog& log, const LogContext& context);

// The readings of a log, for the context of another.
std::vector<LogContext::Reading> readings_of(const JobLog& log, const std::string& quote);

} // namespace acre::engine
