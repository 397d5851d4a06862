// The quotes of a book and what became of them. A quote's record holds the job; every later word on
// it (accepted, turned down, ...) is a record of its own.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/book/quote_record.h"
#include "engine/job/used_texts.h"
#include "lang/compile.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// What can become of a quote, in the order of a job's life.
inline constexpr std::array<std::string_view, 6> quote_states = {
    "offered", "accepted", "turned down", "withdrawn", "lapsed", "closed"};

// What it takes to price a quote again: none of the files it was made from.
struct MadeFrom {
    lang::Request request;
    UsedTexts texts;
};

struct Quote {
    QuoteRecord record;
    std::optional<MadeFrom> made_from; // none: the record lacks its texts
    std::string state;                 // the last word on it; "offered" if there was none
    std::string state_date, state_note;
    std::string replaced_by; // the number of a later quote that says it replaces this one
    bool is_open() const { return state == "offered" && replaced_by.empty(); }
};

// Quotes and words as they come, one record of the book after another.
class QuoteLives {
  public:
    // `file` is named when the record is not as it was sealed (R004).
    std::optional<lang::Diagnostic> add(std::string_view bytes, std::string_view file);
    // All quotes in the order of their numbers.
    std::vector<Quote> take();

  private:
    std::vector<Quote> quotes_;
    std::unordered_map<std::string, std::vector<std::size_t>> by_number_;

    void add_quote(const nlohmann::json& record);
    void add_word(const nlohmann::json& record);
};

// The quote of that number. R002: there is none. Points into `quotes`.
lang::Outcome<const Quote*> find_quote(const std::vector<Quote>& quotes, std::string_view number);

// A word on a quote.
struct QuoteWord {
    std::string quote, state, date, note;
};

// The record of a word, to come after `newest`. R002: no such quote; R005: a quote in its state
// cannot take that word (only an offered one can be accepted, only an accepted one closed).
lang::Outcome<nlohmann::json> word_record(const std::vector<Quote>& quotes, const QuoteWord& word,
                                          const nlohmann::json& newest);

} // namespace acre::engine
