// Whether a book is as it was written: seals, signatures, the chain from each record to the one
// before it, gaps, and the head, which names the newest record.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_book_faults = 1'000; // told of one book

// What is wrong with a book, each with the file it is about.
struct BookFault {
    std::string file;
    std::string what;
};

std::string record_file(std::uint64_t index); // "000001.json"

class Chain {
  public:
    // The records of the book in order.
    void add(std::uint64_t index, std::string_view bytes);
    // After the last one. The head is written after its record: it may be one behind, or not there
    // yet, but never ahead and never of another record.
    std::vector<BookFault> finish(const lang::Outcome<std::string>& head);

    std::size_t records() const { return records_; }

  private:
    std::vector<BookFault> faults_;
    std::map<std::uint64_t, std::string> seals_;
    std::uint64_t expected_ = 1;
    std::string previous_;
    std::size_t records_ = 0;
    bool whole_before_ = true;

    std::string fault_of(const nlohmann::json& record, std::uint64_t index) const;
    void check_head(std::string_view head);
};

} // namespace acre::engine
