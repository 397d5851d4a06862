// The index of a book: what its first records say of quotes, a line each, so that opening the book
// costs no reading of every record. It proves nothing and is never needed: it is built again
// whenever it is not there, is damaged, or is not of these records.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/quote_book/book.h"
#include "engine/book/event.h"

namespace acre::cli {

// Written anew when so many records have come since.
inline constexpr std::size_t index_lags = 16;

class BookIndex {
  public:
    // Empty: there is none, or it is damaged.
    static std::optional<BookIndex> read(const Book& book);

    std::size_t records() const { return records_; }  // that it speaks of: 1, 2, …
    const std::string& seal() const { return seal_; } // of the last of them

    // Of all records, or those that are about that, of keys, and the last. Empty: it is damaged.
    std::optional<std::vector<engine::Event>> events(const About* about = nullptr) const;

    std::string_view lines() const;

  private:
    std::string text_, seal_;
    std::size_t records_ = 0;
};

// `before` with the records since; without one they are all. Where it cannot be written the book
// does without.
void write_index(const Book& book, const BookIndex* before,
                 const std::vector<engine::Event>& since);

} // namespace acre::cli
