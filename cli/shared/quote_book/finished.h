// The finished jobs of a book, each with the log that was sealed when it closed.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/work.h"
#include "engine/log/job_log.h"

namespace acre::cli {

struct Finished {
    std::string number; // of the quote
    Work work;          // as it stood: of the option taken and the last change order
    engine::JobLog log;
    // Why what was done is not what was sealed with the quote itself: another option was taken, or
    // a change order. Empty: it is.
    std::string changed;
};
// A finished job of which nothing is asked, and why.
struct LeftOut {
    std::string quote, why;
};
std::string left_out_text(const std::vector<LeftOut>& left_out); // as pages end with it
// One at a time; what `take` says ends the walk.
using TakeFinished = std::function<std::optional<lang::Said>(Finished finished)>;

// In the order of their numbers. Those without a sealed log, or with one that cannot be read, are
// left out. R001, R004, and what `take` said.
lang::Outcome<std::vector<LeftOut>> each_finished(const Book& book, const BookState& state,
                                                  const TakeFinished& take);

} // namespace acre::cli
