// The rules of quotes, by cases that a bookkeeper would say aloud.
#include "engine/book/lives.h"

#include <doctest/doctest.h>

#include <string>

#include "tests/engine/book/told.h"

namespace lives_test {

using namespace acre::engine;
using told_book::Told;

TEST_CASE("a quote is offered, accepted and finished, and nothing follows") {
    Told book;
    CHECK(book.add(book.offer(100)) == "");
    CHECK(book.lives.why_not(book.word("2027-001", "finished")) ==
          "quote 2027-001 is offered; it cannot become finished");
    CHECK(book.add(book.word("2027-001", "accepted")) == "");
    CHECK(book.add(book.word("2027-001", "finished", "2027-04-02")) == "");
    for (const char* state : {"offered", "accepted", "withdrawn", "lapsed", "turned down", "sold"})
        CHECK(book.lives.why_not(book.word("2027-001", state, "2027-05-01")) != "");
    CHECK(book.state("2027-001", "2027-03-04") == "offered");
    CHECK(book.state("2027-001", "2027-03-05") == "accepted");
    CHECK(book.state("2027-001", "2027-04-02") == "finished");
}

TEST_CASE("an offer lapses by its date, and may still be taken") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    CHECK(book.state("2027-001", "2027-03-31") == "offered");
    CHECK(book.state("2027-001", "2027-04-01") == "lapsed");
    CHECK(book.lives.standing(*book.lives.find("2027-001"), "2027-04-09").date == "2027-04-01");
    CHECK(book.add(book.word("2027-001", "accepted", "2027-04-05")) == "");
    CHECK(book.state("2027-001", "2027-04-04") == "lapsed");
    CHECK(book.state("2027-001", "2027-04-05") == "accepted");
}

TEST_CASE("an offer may be good for the day on which it is made, and for no day before") {
    Told book;
    Event offer = book.offer(100);
    offer.valid_until = "2027-02-28";
    CHECK(book.lives.why_not(offer) == "is valid until a day before it was issued");
    offer.valid_until = offer.date;
    CHECK(book.add(offer) == "");
    CHECK(book.state("2027-001", "2027-03-01") == "offered");
    CHECK(book.state("2027-001", "2027-03-02") == "lapsed");
}

TEST_CASE("words are refused out of the order of their dates, and on quotes that are not there") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    CHECK(book.lives.why_not(book.word("2027-001", "accepted", "2027-02-28")) != "");
    CHECK(book.lives.why_not(book.word("2027-001", "accepted", "2027-02-30")) != "");
    CHECK(book.lives.why_not(book.word("2027-009", "accepted")) ==
          "speaks of quote 2027-009, which the book does not have");
    REQUIRE(book.add(book.word("2027-001", "accepted")) == "");
    CHECK(book.lives.why_not(book.word("2027-001", "finished", "2027-03-04")) != "");
}

TEST_CASE("a replaced quote cannot be accepted, an accepted one not be replaced") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    Event second = book.offer(90);
    second.replaces = "2027-001";
    REQUIRE(book.add(second) == "");
    CHECK(book.lives.why_not(book.word("2027-001", "accepted")) ==
          "quote 2027-001 is replaced by 2027-002; it cannot become accepted");
    Event again = book.offer(80);
    again.replaces = "2027-001";
    CHECK(book.lives.why_not(again) == "replaces quote 2027-001, which 2027-002 replaces already");
    REQUIRE(book.add(book.word("2027-002", "accepted")) == "");
    again.replaces = "2027-002";
    CHECK(book.lives.why_not(again).find("a change order changes it") != std::string::npos);
    again.replaces = "2027-009";
    CHECK(book.lives.why_not(again) != "");
}

TEST_CASE("a change order starts from what the work stands at") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    Event early = book.order("2027-001", 120);
    CHECK(book.lives.why_not(early).find("is offered and not accepted") != std::string::npos);
    REQUIRE(book.add(book.word("2027-001", "accepted")) == "");
    const Event first = book.order("2027-001", 120);
    CHECK(first.before_cents == 100);
    REQUIRE(book.add(first) == "");
    REQUIRE(book.add(book.order("2027-001", 130)) == "");
    CHECK(book.lives.contract_cents(*book.lives.find("2027-001")) == 100);
    REQUIRE(book.add(book.word("2027-001-C1", "accepted", "2027-03-12")) == "");
    CHECK(book.lives.contract_cents(*book.lives.find("2027-001")) == 120);
    CHECK(book.lives.why_not(book.word("2027-001-C2", "accepted", "2027-03-13")) ==
          "another change order was accepted since 2027-001-C2 was issued");
    Event third = book.order("2027-001", 110);
    CHECK(third.before_cents == 120);
    third.before_cents = 100;
    CHECK(book.lives.why_not(third) == "does not start from what the work stood at");
    third.before_cents = 120;
    third.quote = "2027-001-C2";
    CHECK(book.lives.why_not(third) != "");
    Event nested = book.order("2027-001", 110);
    nested.changes = "2027-001-C1";
    CHECK(book.lives.why_not(nested) != "");
}

TEST_CASE("the option that is accepted is one that was offered, and sets what the work stands at") {
    Told book;
    Event offer = book.offer(100);
    offer.own_option = "rows";
    offer.options = {{"field", {{"Work", "work", 140}}, 140}};
    REQUIRE(book.add(offer) == "");
    CHECK(book.lives.why_not(book.word("2027-001", "accepted")).find("several options") !=
          std::string::npos);
    Event taken = book.word("2027-001", "accepted");
    taken.option = "both";
    CHECK(book.lives.why_not(taken) == "quote 2027-001 does not offer the option `both`");
    taken.option = "field";
    REQUIRE(book.add(taken) == "");
    CHECK(book.lives.contract_cents(*book.lives.find("2027-001")) == 140);
}

TEST_CASE("the quote's own offer is one of the options, by the name that its page has for it") {
    Told book;
    Event offer = book.offer(100);
    offer.options = {{"field", {{"Work", "work", 140}}, 140}};
    REQUIRE(book.add(offer) == "");
    Event taken = book.word("2027-001", "accepted");
    taken.option = "as above";
    REQUIRE(book.add(taken) == "");
    const Life& life = *book.lives.find("2027-001");
    CHECK(book.lives.contract_cents(life) == 100);
    CHECK(book.lives.standing(life, no_day).option == "");
    // Where nothing else was offered, or the job has a name for its own, nobody reads these words.
    REQUIRE(book.add(book.offer(100)) == "");
    taken = book.word("2027-002", "accepted");
    taken.option = "as above";
    CHECK(book.lives.why_not(taken) == "quote 2027-002 does not offer the option `as above`");
    offer = book.offer(100);
    offer.own_option = "rows";
    offer.options = {{"field", {{"Work", "work", 140}}, 140}};
    REQUIRE(book.add(offer) == "");
    taken = book.word("2027-003", "accepted");
    taken.option = "as above";
    CHECK(book.lives.why_not(taken) == "quote 2027-003 does not offer the option `as above`");
}

TEST_CASE("an open change order goes with its quote when that is withdrawn") {
    Told book;
    book.add(book.offer(100'00));
    book.add(book.word("2027-001", "accepted"));
    book.add(book.order("2027-001", 120'00));
    const Life& order = *book.lives.find("2027-001-C1");
    CHECK(book.lives.standing(order, "2027-03-12").is_open());
    book.add(book.word("2027-001", "withdrawn", "2027-03-20"));
    CHECK(book.lives.standing(order, "2027-03-12").is_open()); // so it was on that day
    const Standing now = book.lives.standing(order, "2027-03-25");
    CHECK(now.state == "withdrawn");
    CHECK(now.date == "2027-03-20");
    CHECK(now.note == "with quote 2027-001");
    CHECK(!now.is_open());
}

TEST_CASE("an option of a change order sets what the work stands at, and so it was on each day") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    REQUIRE(book.add(book.word("2027-001", "accepted")) == "");
    Event order = book.order("2027-001", 80);
    order.own_option = "rows";
    order.options = {{"field", {{"Work", "work", 130}}, 130}};
    REQUIRE(book.add(order) == "");
    Event taken = book.word("2027-001-C1", "accepted", "2027-03-12");
    taken.option = "field";
    REQUIRE(book.add(taken) == "");
    const Life& life = *book.lives.find("2027-001");
    CHECK(book.lives.contract_cents(life) == 130);
    CHECK(book.lives.contract_cents(life, "2027-03-11") == 100);
    CHECK(book.order("2027-001", 90).before_cents == 130);
    // Programs before this one started from the own price of the change order, and their books
    // hold.
    Event earlier = book.order("2027-001", 90);
    earlier.before_cents = 80;
    REQUIRE(book.add(earlier) == "");
    CHECK(book.add(book.word("2027-001-C2", "accepted", "2027-03-13")) == "");
    CHECK(book.lives.contract_cents(*book.lives.find("2027-001")) == 90);
}

TEST_CASE("a word is taken back by one that says what held before it") {
    Told book;
    Event offer = book.offer(100);
    offer.own_option = "rows";
    offer.options = {{"field", {{"Work", "work", 140}}, 140}};
    REQUIRE(book.add(offer) == "");
    Event taken = book.word("2027-001", "accepted");
    taken.option = "field";
    REQUIRE(book.add(taken) == "");
    REQUIRE(book.add(book.word("2027-001", "finished", "2027-03-20")) == ""); // record 3
    Event back = book.word("2027-001", "accepted", "2027-03-21");
    CHECK(book.lives.why_not(back) != "");
    back.corrects = 3;
    back.option = "rows";
    CHECK(book.lives.why_not(back) == "takes a word back, and names an option");
    back.option = "";
    REQUIRE(book.add(back) == "");
    const Standing now = book.lives.standing(*book.lives.find("2027-001"), no_day);
    CHECK(now.state == "accepted");
    CHECK(now.option == "field");
    CHECK(now.date == "2027-03-05");
    CHECK(book.add(book.word("2027-001", "finished", "2027-03-22")) == "");
    // What was replaced meanwhile does not come back.
    REQUIRE(book.add(book.offer(100)) == "");
    REQUIRE(book.add(book.word("2027-002", "accepted")) == "");
    REQUIRE(book.add(book.word("2027-002", "withdrawn")) == "");
    Event newer = book.offer(100, "2027-03-08");
    newer.replaces = "2027-002";
    back = book.word("2027-002", "accepted", "2027-03-08");
    back.corrects = book.records;
    CHECK(book.lives.why_not(back) == "");
    REQUIRE(book.add(newer) == "");
    back.record = book.records + 1;
    back.counter = book.counter;
    CHECK(book.lives.why_not(back) ==
          "quote 2027-002 is replaced by 2027-003; it cannot become accepted");
}

TEST_CASE("a word puts the last one right, and nothing else") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    REQUIRE(book.add(book.word("2027-001", "turned down")) == "");
    CHECK(book.lives.why_not(book.word("2027-001", "accepted")) != "");
    Event right = book.word("2027-001", "accepted");
    right.corrects = 1;
    CHECK(book.lives.why_not(right) != ""); // that is the quote
    right.corrects = 2;
    REQUIRE(book.add(right) == "");
    CHECK(book.state("2027-001") == "accepted");
    Event back = book.word("2027-001", "offered");
    back.corrects = 2; // already put right
    CHECK(book.lives.why_not(back) != "");
    back.corrects = 3;
    REQUIRE(book.add(back) == "");
    CHECK(book.state("2027-001") == "offered");
}

TEST_CASE("numbers follow one another, counters count, times go forward") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    Event event = book.offer(100);
    event.quote = "2027-001";
    CHECK(book.lives.why_not(event) == "has the number 2027-001, which an earlier quote has");
    event.quote = "2027-007";
    CHECK(book.lives.why_not(event) == "has the number 2027-007; the next one is 2027-002");
    event = book.offer(100);
    event.counter["2027"] = 9;
    CHECK(book.lives.why_not(event) == "counts the quotes wrongly");
    event = book.offer(100);
    event.written = "2027-02-28T11:59:59Z";
    CHECK(book.lives.why_not(event).find("more than a day before") != std::string::npos);
    event.written = "2027-02-28T12:00:01Z";
    CHECK(book.lives.why_not(event) == "");
    for (const char* time : {"", "2027-03-01", "2027-02-30T12:00:00Z", "2027-03-01T24:00:00Z",
                             "2027-03-01 12:00:00Z", "2027-03-01T1x:00:00Z"}) {
        event.written = time;
        CHECK_MESSAGE(book.lives.why_not(event) == "has no time of writing", time);
    }
    event = book.offer(100);
    event.program = "";
    CHECK(book.lives.why_not(event) != "");
    event = book.offer(100);
    event.items[0].cents = 99;
    CHECK(book.lives.why_not(event) == "has items that do not add up to its price");
    event.items = {{"a", "a", INT64_MAX}, {"b", "b", INT64_MAX}};
    CHECK(book.lives.why_not(event) == "has items that do not add up to its price");
    event = book.offer(100);
    event.version = 1;
    CHECK(book.lives.why_not(event) == "is of version 1, and comes after one of version 2");
}

} // namespace lives_test
