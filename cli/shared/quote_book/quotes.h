// Quotes in the book: their numbers, and what became of them. A quote record holds the job; every
// later word on it (accepted, turned down, …) is a record of its own.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/shared/quote_book/book.h"

namespace acre::cli {

// What can become of a quote, in the order of a job's life.
inline constexpr std::array<std::string_view, 6> quote_states = {
    "offered", "accepted", "turned down", "withdrawn", "lapsed", "closed"};

struct Quote {
    nlohmann::json record;
    std::string number; // "2027-014"
    std::string state;  // the last word on it; "offered" if there was none
    std::string state_date, state_note;
    std::string replaced_by; // the number of a later quote that says it replaces this one
    bool is_open() const { return state == "offered" && replaced_by.empty(); }
};

// The number after those that the newest record knows of: the year of the date and a counter that
// starts anew each year. `counter` is to be kept in the new record.
std::string next_number(const nlohmann::json* newest, std::string_view date,
                        nlohmann::json& counter);

// All quotes in the order of their numbers. False: the book cannot be read, or a record is not
// whole; `reason` says which.
bool read_quotes(const Book& book, std::vector<Quote>& quotes, std::string& reason);

// The quote of that number, or null.
const Quote* find_quote(const std::vector<Quote>& quotes, std::string_view number);

// True if a quote in this state can take that word: only an offered one can be accepted, only an
// accepted one closed.
bool may_become(std::string_view state, std::string_view next);

} // namespace acre::cli
