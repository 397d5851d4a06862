// What a record says of the life of a quote: all that lists, rules and exports need of it. A line
// of a book's index is one.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/book/record.h"

namespace acre::engine {

struct EventItem {
    std::string title, name;
    std::int64_t cents = 0;
};
struct EventOption {
    std::string option;
    std::vector<EventItem> items;
    std::int64_t cents = 0;
};

struct Event {
    std::int64_t record = 0, version = 2;
    std::string kind, program, written, seal, signer;
    std::map<std::string, std::int64_t> counter;
    std::string quote; // the number of the quote it is about
    std::string date;  // issued, or when it happened
    // of a quote
    std::string title, who, by, valid_until, replaces, changes, own_option, per;
    std::int64_t cents = 0, before_cents = 0;
    double per_unit = 0; // $
    lang::Currency money;
    std::vector<EventItem> items;
    std::vector<EventOption> options; // beside its own
    // of a word
    std::string state, option, note;
    std::int64_t corrects = 0;
    // of a key, of a bill
    std::string action, key, name, bill;
};

Event event_of(const Record& record);

// One line of an index, without its end, and back.
std::string event_line(const Event& event);
std::optional<Event> event_in(std::string_view line);

} // namespace acre::engine
