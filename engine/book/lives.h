// The quotes of a book and what became of them, record by record, and the rules of that: what may
// follow on what. Whoever writes asks `why_not` first; whoever verifies takes every record and is
// told which broke a rule.
//
//   offered ─ accepted ─ finished
//      │          └ withdrawn
//      ├ turned down, withdrawn
//      └ lapsed (said, or by its date) ─ accepted, withdrawn
//
// A quote that is replaced cannot be accepted. An accepted one is changed by a change order alone:
// a quote of its own, over what the work stood at before. A word may put the last one right; one
// that says what held before it takes it back.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "engine/book/event.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::array<std::string_view, 6> quote_states = {
    "offered", "accepted", "turned down", "withdrawn", "lapsed", "finished"};

// What a quote that offers several options calls its own, where the job has no name for it: the
// page says so, and whoever accepts it.
inline constexpr std::string_view own_offer = "as above";

struct Life {
    Event quote;              // as issued
    std::vector<Event> words; // that hold: none that was put right later
    std::vector<Event> gone;  // the others: put right later, or that took one back
    std::string replaced_by;  // the number of a later quote that replaces this one
    std::string replaced_on;
    std::vector<std::string> change_orders; // their numbers
};

inline const Event& said(const Event& event) {
    return event;
}
inline const Event& said(const Event* event) {
    return *event;
}
// Takes a word in among those that hold, in the order of the records, and gives those that hold no
// more: what it puts right, and the word itself where it says what held before, which is taken back
// to and holds as it was said. That is so too where what it puts right is of a later day, and was
// never among them.
template <class Word> std::vector<Word> hold(std::vector<Word>& words, Word word) {
    std::vector<Word> gone;
    const Event& event = said(word);
    if (event.corrects != 0 && !words.empty() && said(words.back()).record == event.corrects) {
        gone.push_back(std::move(words.back()));
        words.pop_back();
    }
    const bool back =
        event.corrects != 0 && !words.empty() && said(words.back()).state == event.state;
    (back ? gone : words).push_back(std::move(word));
    return gone;
}

// The words that hold on a day.
std::vector<const Event*> words_held(const Life& life, std::string_view day);

// How a quote is on a day.
struct Standing {
    std::string state, date, note, option;
    std::string replaced_by;
    bool by_date = false; // it lapsed by its date alone
    bool is_open() const { return state == "offered" && replaced_by.empty(); }
};

// The last day there is: everything that a book says counts.
inline constexpr std::string_view no_day = "9999-12-31";

class Lives {
  public:
    // Why this record may not come next, or empty.
    std::string why_not(const Event& event) const;
    // Takes it in, as far as it can be. The rule it breaks, or empty.
    std::string add(const Event& event);

    const Life* find(std::string_view number) const;
    std::vector<const Life*> all() const; // in the order of their numbers
    const std::vector<Event>& events() const { return events_; }

    // With what happened up to that day; a quote past its date has lapsed.
    // A word holds from its own date on, also one that puts another right: before that, the book
    // said what was put right.
    Standing standing(const Life& life, std::string_view day) const;
    // What the work of an accepted quote stands at on that day: its own price, that of the option
    // taken, or that of its last accepted change order and the option taken there.
    std::int64_t contract_cents(const Life& life, std::string_view day = no_day) const;

    const Event* newest() const { return events_.empty() ? nullptr : &events_.back(); }

  private:
    std::vector<Event> events_;
    std::vector<Life> lives_;
    std::unordered_map<std::string, std::size_t> by_number_;
    std::set<std::string> bills_;

    std::string why_not_quote(const Event& event) const;
    std::string why_not_number(const Event& event) const;
    std::string why_not_change(const Event& event) const;
    std::string why_not_replaced(const Event& event) const;
    std::string why_not_word(const Event& event) const;
    std::string why_not_accepted(const Life& life, const Event& event) const;
    std::string why_not_bill(const Event& event) const;
    bool is_before(std::int64_t cents, const Life& base) const;
    const Life* last_order(const Life& life, std::string_view day) const;
};

// The option that a word takes of a quote; empty: the quote's own, where the job has no name for
// it.
std::string option_taken(const Event& quote, const Event& word);

// The price of that option of a quote.
std::int64_t cents_of_option(const Event& quote, const std::string& option);

// "2027-014", or a change order, "2027-014-C1".
bool is_quote_number(std::string_view text);

// What a quote in this state may become.
std::vector<std::string_view> next_states(std::string_view state);

// The quote of that number. R002: there is none.
lang::Outcome<const Life*> find_quote(const Lives& lives, std::string_view number);

// "2027-03-14T15:04:05Z" in seconds since 1970; empty: it is no time.
std::optional<std::int64_t> seconds_of(std::string_view time);

} // namespace acre::engine
