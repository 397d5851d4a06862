#include "cli/shared/quote_book/quotes.h"

namespace acre::cli {

lang::Outcome<std::vector<engine::Quote>> read_quotes(const Book& book) {
    engine::QuoteLives lives;
    const auto visit = [&](const BookEntry& entry) { return lives.add(entry.bytes, entry.file()); };
    if (auto fault = book.each(visit))
        return std::move(*fault);
    return lives.take();
}

lang::Outcome<engine::Quote> read_quote(const Book& book, const std::string& number) {
    const lang::Outcome<std::vector<engine::Quote>> quotes = read_quotes(book);
    if (!quotes)
        return quotes.said;
    const lang::Outcome<const engine::Quote*> quote = engine::find_quote(*quotes, number);
    if (!quote)
        return quote.said;
    return **quote;
}

} // namespace acre::cli
