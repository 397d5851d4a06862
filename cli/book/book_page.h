// The quotes of a book, ready to be shown.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "cli/shared/quote_book/customer_id.h"
#include "cli/shared/reply.h"
#include "engine/book/again.h"
#include "engine/book/lives.h"
#include "engine/book/record.h"

namespace acre::cli {

struct BookPage {
    engine::Lives lives;
    std::string day;                       // as it was on that day
    std::vector<engine::BillRecord> bills; // up to that day, in the order of the records
    // With the season of today, if asked: those that are open.
    std::optional<std::vector<engine::Repriced>> open_today;
};

// "offered", "replaced by 2027-008", "lapsed by its date"
std::string state_text(const engine::Standing& standing);

std::string book_text(const BookPage& page, bool color);
// Schema acrewright.book/2. Field by field in cli/README.md.
Document book_json(const BookPage& page);

// One amount of one item that an event moved: what is offered, what is accepted.
struct Entry {
    std::string id; // "000011.2": the record and the line of it; stable
    std::int64_t record = 0;
    std::string date, event, quote, item;
    std::string title;                     // of the item
    const engine::Event* issued = nullptr; // the quote
    std::string option;                    // whose item it is: the quote's own, or the one accepted
    std::int64_t offered_cents = 0, accepted_cents = 0;
};
// Every event up to a day, in the order of the records; an event that moves no money has one entry
// of zeros. Sums of all entries: what is open, and what was accepted and holds.
std::vector<Entry> entries_of(const engine::Lives& lives, const std::string& day);

// The bills, and for each quote what it stands at beside what was billed.
std::string bills_text(const BookPage& page, bool color);
std::string bills_csv(const BookPage& page); // a row for each line of each bill
// What a bill has: the work so far, the bill before it that is taken off, deposits taken off.
struct BillSums {
    std::int64_t work = 0, before = 0, deposits = 0;
};
BillSums sums_of(const engine::BillRecord& bill);

// What somebody who looks at the book should hear beside it: files that are none of its own, days
// that are still to come, names of customers that may be one. Empty: nothing.
std::string remarks_on(const std::vector<std::string>& strays, const BookPage& page, bool today);

std::string entries_csv(const BookPage& page);
// Accepted work and bills as a plain-text journal for double-entry book-keeping.
std::string journal_text(const BookPage& page);
// The costs of one quote; the heading stands before the first.
std::string costs_heading();
std::string costs_csv(const engine::QuoteRecord& quote);

} // namespace acre::cli
