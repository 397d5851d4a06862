// What the parts of the command hand on.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cli/shared/job.h"
#include "cli/shared/quote_page/pages.h"
#include "cli/shared/reply.h"
#include "engine/book/record.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct QuoteArguments {
    JobArguments job;
    std::string book = "quote-book", wording, page, text, date, by, replaces, changes, key;
    std::vector<std::string> accepted, also;
    std::uint32_t valid_days = 30;
    bool draft = false, by_block = false;
};

// Everything of a quote but its number and its pages, with the wording that these are made from.
struct QuoteDraft {
    engine::Record record;
    Wording wording;
    const engine::QuoteRecord& quote() const { return *record.quote(); }
};

// Prices the job and each option that is offered beside. What is warned of comes in `reply`;
// nothing: the reply says why.
std::optional<QuoteDraft> draft_quote(const QuoteArguments& arguments, Reply& reply);

// The next number of the book, its pages, and the record.
void issue_quote(const QuoteArguments& arguments, const QuoteDraft& draft, Reply& reply,
                 Console& console);

// The pages of a quote that was issued, byte for byte.
Reply reprint_quote(const QuoteArguments& arguments);

// Copies of the pages in the files that were asked for; false: the reply says why.
bool write_pages(const QuoteArguments& arguments, const Pages& pages, Reply& reply);

} // namespace acre::cli
