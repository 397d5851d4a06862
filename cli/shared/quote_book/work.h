// Accepted work and its log, as `bill` and `variance` take them from a book.
#pragma once

#include <string>

#include "cli/shared/quote_book/book.h"
#include "engine/billing/accepted.h"
#include "engine/log/log_checks.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct Work {
    engine::Contract contract;
    engine::Record record;     // the quote or change order whose terms hold
    engine::QuoteRecord quote; // the same as its accepted option has it
    std::string sealed_log;    // the log that was sealed when it was finished; or empty
};

// Without its log. What contract_of and as_option say; R001, R004.
lang::Outcome<Work> accepted_work(const Book& book, const BookState& state,
                                  const std::string& number);
lang::Outcome<Work> work_of(const Book& book, const BookState& state, const std::string& number);

// The seal of the log with which a quote was finished; empty: it has none.
lang::Outcome<std::string> log_seal(const Book& book, const engine::Life& life);

struct WorkLog {
    std::string text; // the bytes of the log
    engine::JobLog log;
};

// What a bookkeeper would doubt in a log of this work (check_log), meters against the logs of other
// quotes in the book included.
lang::Said doubts_of(const Book& book, const BookState& state, const Work& work,
                     const engine::JobLog& log);

// The log at `path`, or without one the log that is sealed. R010: there is none, or another is
// sealed. What read_job_log says; with the log come the doubts in it.
lang::Outcome<WorkLog> log_of(const Book& book, const BookState& state, const Work& work,
                              const std::string& path);

} // namespace acre::cli
