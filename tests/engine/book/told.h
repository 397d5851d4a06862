// A book that is told event by event.
#pragma once

#include <map>
#include <string>

#include "engine/book/lives.h"

namespace told_book {

using namespace acre::engine;

// A book of events, each with the next number and time.
struct Told {
    Lives lives;
    std::int64_t records = 0;
    std::map<std::string, std::int64_t> counter;

    Event next(const std::string& kind, const std::string& quote, const std::string& date) {
        Event event;
        event.record = records + 1;
        event.kind = kind;
        event.program = "0";
        event.written = "2027-03-01T12:00:00Z";
        event.counter = counter;
        event.quote = quote;
        event.date = date;
        return event;
    }
    Event offer(std::int64_t cents, const std::string& date = "2027-03-01") {
        Event event = next("quote", "", date);
        const std::int64_t number = ++event.counter["2027"];
        event.quote = "2027-00" + std::to_string(number);
        event.valid_until = "2027-03-31";
        event.cents = cents;
        event.items = {{"Work", "work", cents}};
        return event;
    }
    Event order(const std::string& base, std::int64_t cents) {
        Event event = offer(cents, "2027-03-10");
        event.counter = counter;
        const Life* life = lives.find(base);
        event.quote = base + "-C" + std::to_string(life->change_orders.size() + 1);
        event.changes = base;
        event.before_cents = lives.contract_cents(*life);
        return event;
    }
    Event word(const std::string& quote, const std::string& state,
               const std::string& date = "2027-03-05") {
        Event event = next("word", quote, date);
        event.state = state;
        return event;
    }
    std::string add(const Event& event) {
        std::string broken = lives.add(event);
        ++records;
        counter = event.counter;
        return broken;
    }
    std::string state(const std::string& number, std::string_view day = no_day) const {
        return lives.standing(*lives.find(number), day).state;
    }
};

} // namespace told_book
