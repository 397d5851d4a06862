// The quotes of a book, ready to be shown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "engine/book/again.h"
#include "engine/book/quotes.h"

namespace acre::cli {

struct BookPage {
    std::vector<engine::Quote> quotes;
    std::optional<std::vector<engine::Repriced>> open_today; // with the season of today, if asked
};

// "offered", "replaced by 2027-008"
std::string state_text(const engine::Quote& quote);

std::string book_text(const BookPage& page, bool color);
// For a spreadsheet: the quotes, or every cost of every quote.
std::string quotes_csv(const std::vector<engine::Quote>& quotes);
std::string costs_csv(const std::vector<engine::Quote>& quotes);
// Schema acrewright.book/2. Field by field in cli/README.md.
Document book_json(const BookPage& page);

} // namespace acre::cli
