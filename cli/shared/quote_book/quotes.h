// The quotes of a book's folder.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/quote_book/book.h"
#include "engine/book/quotes.h"

namespace acre::cli {

// All quotes in the order of their numbers. R001: the book cannot be read; R004: a record is not as
// it was sealed.
lang::Outcome<std::vector<engine::Quote>> read_quotes(const Book& book);

// One of them. R002: there is none of this number.
lang::Outcome<engine::Quote> read_quote(const Book& book, const std::string& number);

} // namespace acre::cli
