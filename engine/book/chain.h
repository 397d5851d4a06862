// Whether a book is as it was written: shape, seals, signatures, the chain from each record to the
// one before it, gaps, the rules of quotes and keys, and heads, which name a record and its seal.
// Memory grows with what is said of quotes, not with their records.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/book/keys.h"
#include "engine/book/lives.h"
#include "engine/book/record.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_book_faults = 1'000; // told of one book

// What is wrong with a book, each with the file it is about.
struct BookFault {
    std::string file;
    std::string what;
};

std::string record_file(std::uint64_t index); // "000001.json"

// "17 9f86d081...", as a head is printed and kept. Empty: it is not whole.
struct Head {
    std::uint64_t record = 0;
    std::string seal;
};
std::optional<Head> read_head(std::string_view text);
std::string head_text(const Head& head); // without a line end

class Chain {
  public:
    // Before the first record: only these keys are trusted.
    void trust_only(std::set<std::string> keys) { keys_.trust_only(std::move(keys)); }
    // Before the first record: the record that this head names must be there, with that seal.
    // `called` is what the head is called when it is not so: "the head", "the head given".
    void expect(const Head& head, std::string called);

    // The records of the book in order. The record, or null if it cannot be read.
    const Record* add(std::uint64_t index, ReadRecord read);
    void unreadable(std::uint64_t index, const std::string& reason);
    void fault(std::string file, std::string what); // told with the others
    // After the last one.
    std::vector<BookFault> finish();

    std::size_t records() const { return records_; }
    const Lives& lives() const { return lives_; }
    const Keys& keys() const { return keys_; }
    Head newest() const { return {expected_ - 1, previous_}; }

  private:
    struct Expected {
        Head head;
        std::string called;
        bool met = false;
    };
    std::vector<Expected> heads_;
    std::vector<BookFault> faults_;
    Lives lives_;
    Keys keys_;
    ReadRecord current_;
    std::uint64_t expected_ = 1;
    std::string previous_;
    std::size_t records_ = 0;
    bool whole_before_ = true, complete_ = true; // the record before; every one so far

    void missing_before(std::uint64_t index);
    std::string fault_of(std::uint64_t index);
    void check_heads(std::uint64_t index, const std::string& seal);
};

} // namespace acre::engine
