// The index of a book: what its first records say of quotes, a line each, so that opening the book
// costs no reading of every record. It proves nothing and is never needed: it is built again
// whenever it is not there, is damaged, or is not of these records.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/shared/quote_book/book.h"
#include "engine/book/event.h"

namespace acre::cli {

// Written anew when so many records have come since.
inline constexpr std::size_t index_lags = 64;

struct BookIndex {
    std::vector<engine::Event> events; // of records 1, 2, …
    std::string seal;                  // of the last of them
};

// Empty: there is none, or it is damaged.
std::optional<BookIndex> read_index(const Book& book);

// Where it cannot be written the book does without.
void write_index(const Book& book, const engine::Lives& lives);

} // namespace acre::cli
