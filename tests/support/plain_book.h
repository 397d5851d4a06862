// A book of the plainest quotes: no job, no texts, no page. For tests of the folder, its order and
// its faults.
#pragma once

#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/quote_book/book.h"
#include "cli/verify/verify_page.h"
#include "engine/book/make_record.h"
#include "tests/support/scratch_folder.h"

namespace acre::tests {

// A folder for a book, gone when the test ends whatever was forbidden in it.
class BookFolder : public ScratchFolder {
  public:
    ~BookFolder() {
        std::error_code ignored;
        std::filesystem::permissions(path(), std::filesystem::perms::owner_all, ignored);
    }
    std::string book() const { return path("book"); }
};

inline lang::Outcome<cli::Book::Coming> plain_quote(const cli::BookState& state) {
    cli::Book::Coming coming;
    if (const engine::Event* newest = state.lives.newest())
        coming.record.counter = newest->counter;
    engine::QuoteRecord quote;
    quote.issued = "2027-03-01";
    quote.valid_until = "2027-03-31";
    quote.title = "Plain";
    quote.number = engine::give_number(quote, coming.record.counter);
    coming.record.body = std::move(quote);
    return coming;
}

// It is in the book and on the disk.
inline bool add_plain(const cli::Book& book, std::string_view key = {}) {
    const lang::Outcome<cli::Added> added = book.append(plain_quote, key);
    return added && !added->fleeting;
}

// The first title and note of what was said, or nothing.
template <class Outcome> std::string said_first(const Outcome& outcome) {
    const auto& all = outcome.said.diagnostics.all();
    if (all.empty())
        return "";
    return all.front().title + (all.front().notes.empty() ? "" : ": " + all.front().notes.front());
}

// What verify finds of the records and their order; that the quotes have no price is no fault here.
inline std::vector<engine::BookFault> plain_faults(const cli::Book& book) {
    const lang::Outcome<cli::Verified> verified = cli::verify_book({book.folder(), {}, {}});
    if (!verified)
        return {{"", said_first(verified)}};
    return verified->faults;
}

inline std::vector<std::string> files_at_fault(const cli::Book& book) {
    std::vector<std::string> files;
    for (const engine::BookFault& fault : plain_faults(book))
        files.push_back(fault.file);
    return files;
}

// A file that may only be read, as records are.
inline void overwrite(const std::string& path, const std::string& text) {
    namespace fs = std::filesystem;
    fs::permissions(path, fs::perms::owner_write | fs::perms::owner_read);
    std::ofstream(path, std::ios::binary | std::ios::trunc) << text;
}

inline std::vector<engine::Record> plain_records(const cli::Book& book) {
    std::vector<engine::Record> records;
    const auto indices = book.indices();
    for (const std::uint64_t index : *indices)
        if (auto record = book.record(index))
            records.push_back(std::move(*record));
    return records;
}

inline cli::Book filled(const BookFolder& folder, int records) {
    const cli::Book book(folder.book());
    REQUIRE(!book.create());
    for (int i = 0; i < records; ++i)
        REQUIRE(add_plain(book));
    return book;
}

} // namespace acre::tests
