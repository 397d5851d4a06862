// What a line of a book's index keeps: all that lists, bills and exports read of a record.
#include "engine/book/event.h"

#include <string>

#include <doctest/doctest.h>

namespace event_test {

using namespace acre;
using namespace acre::engine;

namespace {

// Each member with a value that no other has.
Event full() {
    Event e;
    e.record = 17;
    e.version = 2;
    for (std::string* text :
         {&e.kind,    &e.program,    &e.written, &e.seal,  &e.signer,      &e.quote,
          &e.date,    &e.title,      &e.who,     &e.by,    &e.valid_until, &e.replaces,
          &e.changes, &e.own_option, &e.per,     &e.state, &e.option,      &e.note,
          &e.action,  &e.key,        &e.name,    &e.bill})
        *text = "text " + std::to_string(reinterpret_cast<const char*>(text) -
                                         reinterpret_cast<const char*>(&e));
    e.counter = {{"2027", 11}, {"2028", 3}};
    e.cents = 1'234'567;
    e.before_cents = 89;
    e.per_unit = 904.34;
    e.money = {"CHF", "CHF", 5};
    e.items = {{"Ripping", "ripping", 9'546'200}, {"Move", "move", 1'125'000}};
    e.options = {{"Tree rows", {{"Rows", "rows", 31}}, 32}};
    e.corrects = 12;
    return e;
}

} // namespace

TEST_CASE("a line of the index says every member of an event, and reads back as the same") {
    const Event event = full();
    const std::string line = event_line(event);
    CHECK(line.find('\n') == std::string::npos);
    const std::optional<Event> again = event_in(line);
    REQUIRE(again);
    CHECK(event_line(*again) == line);
    const auto texts = [](const Event& e) {
        return std::vector<std::string>{
            e.kind,    e.program,    e.written, e.seal,  e.signer,   e.quote,
            e.date,    e.title,      e.who,     e.by,    e.replaces, e.valid_until,
            e.changes, e.own_option, e.per,     e.state, e.option,   e.note,
            e.action,  e.key,        e.name,    e.bill};
    };
    CHECK(texts(*again) == texts(event));
    CHECK(again->record == 17);
    CHECK(again->version == 2);
    CHECK(again->counter == event.counter);
    CHECK(again->cents == 1'234'567);
    CHECK(again->before_cents == 89);
    CHECK(again->per_unit == 904.34);
    CHECK(again->money == event.money);
    CHECK(again->corrects == 12);
    REQUIRE(again->items.size() == 2);
    CHECK(again->items[1].title == "Move");
    CHECK(again->items[1].name == "move");
    CHECK(again->items[1].cents == 1'125'000);
    REQUIRE(again->options.size() == 1);
    CHECK(again->options[0].option == "Tree rows");
    CHECK(again->options[0].items[0].cents == 31);
    CHECK(again->options[0].cents == 32);
}

TEST_CASE("an event says of each kind of record what became of a quote") {
    Record record;
    record.index = 5;
    record.kind = "word";
    record.program = "1.0";
    record.written = "2027-06-21T15:04:05Z";
    record.seal = "seal";
    record.signer = "signer";
    record.counter = {{"2027", 4}};
    for (const char* state : {"accepted", "turned down", "withdrawn", "lapsed", "finished"}) {
        record.body =
            WordRecord{"2027-001", state, "Tree rows", "2027-06-20", "by phone", 3, "log"};
        const Event event = event_of(record);
        CHECK(event.state == state);
        CHECK(event.quote == "2027-001");
        CHECK(event.option == "Tree rows");
        CHECK(event.date == "2027-06-20");
        CHECK(event.note == "by phone");
        CHECK(event.corrects == 3);
        CHECK(event.record == 5);
        CHECK(event.kind == "word");
        CHECK(event.program == "1.0");
        CHECK(event.written == "2027-06-21T15:04:05Z");
        CHECK(event.seal == "seal");
        CHECK(event.signer == "signer");
        CHECK(event.counter == record.counter);
    }
    record.body = KeyRecord{"retire", "abc", "Hazel", "2027-06-22"};
    const Event key = event_of(record);
    CHECK(key.action == "retire");
    CHECK(key.key == "abc");
    CHECK(key.name == "Hazel");
    CHECK(key.date == "2027-06-22");
    record.body = LogRecord{"2027-002", "week.csv", "text", "2027-06-23"};
    const Event log = event_of(record);
    CHECK(log.quote == "2027-002");
    CHECK(log.name == "week.csv");
    CHECK(log.date == "2027-06-23");
    BillRecord bill;
    bill.quote = "2027-003";
    bill.bill = "B-7";
    bill.date = "2027-06-24";
    bill.note = "the last";
    bill.cents = 700;
    bill.items = {{"Ripping", "ripping", "", "", "", 1, 7, 700, {}}};
    record.body = bill;
    const Event billed = event_of(record);
    CHECK(billed.quote == "2027-003");
    CHECK(billed.bill == "B-7");
    CHECK(billed.date == "2027-06-24");
    CHECK(billed.note == "the last");
    CHECK(billed.cents == 700);
    REQUIRE(billed.items.size() == 1);
    CHECK(billed.items[0].title == "Ripping");
    CHECK(billed.items[0].name == "ripping");
    CHECK(billed.items[0].cents == 700);
}

TEST_CASE("a line that is no event is none") {
    CHECK_FALSE(event_in(""));
    CHECK_FALSE(event_in("[]"));
    CHECK_FALSE(event_in(R"({"record": "first"})"));
}

} // namespace event_test
