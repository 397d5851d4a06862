// The crew's page of an accepted quote, as data: what was agreed, without a price.
#pragma once

#include <optional>
#include <string>

#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_page/pages.h"
#include "cli/shared/quote_page/wording.h"
#include "cli/shared/reply.h"
#include "engine/book/record.h"
#include "engine/questions/calendar.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct CrewPage {
    engine::QuoteRecord quote; // of the option that was accepted, worked out again from its texts
    std::string number;        // of the quote; `quote.number` may be a change order's
    std::string accepted;      // the day: 2027-05-14
    engine::JobHead job;
    std::optional<engine::CalendarAnswer> calendar; // of a job with a date
    std::vector<double> headings;                   // degrees from true north, of each field
    std::vector<std::string> kept_off;              // what the shank stays off, in any of them
    CrewParts parts;
};

// R002: no such quote; R005: it is not accepted; R006: its record lacks its texts; else what the
// book and the job say.
lang::Outcome<CrewPage> crew_page(const Book& book, const std::string& number);

// Names no line of a model, so it fits every one.
Wording built_in_crew_wording();

// Says what fill_in says.
lang::Outcome<Pages> crew_pages(const Wording& wording, const CrewPage& page);

// Schema acrewright.crew/1. Field by field in cli/README.md.
Document crew_json(const CrewPage& page);

} // namespace acre::cli
