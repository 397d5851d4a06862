// Which words of a quote hold on a day.
#include <doctest/doctest.h>

#include "tests/engine/book/told.h"

namespace words_test {

using namespace acre::engine;
using told_book::Told;

TEST_CASE("a word holds until the day of the one that puts it right") {
    Told book;
    Event offer = book.offer(100);
    offer.own_option = "rows";
    offer.options = {{"field", {{"Work", "work", 140}}, 140}};
    REQUIRE(book.add(offer) == "");
    Event taken = book.word("2027-001", "accepted", "2027-03-05");
    taken.option = "field";
    REQUIRE(book.add(taken) == "");
    Event right = book.word("2027-001", "turned down", "2027-03-20");
    right.corrects = 2;
    REQUIRE(book.add(right) == "");
    const Life& life = *book.lives.find("2027-001");
    CHECK(book.state("2027-001", "2027-03-04") == "offered");
    CHECK(book.state("2027-001", "2027-03-19") == "accepted");
    CHECK(book.lives.standing(life, "2027-03-19").option == "field");
    CHECK(book.lives.contract_cents(life, "2027-03-19") == 140);
    CHECK(book.state("2027-001", "2027-03-20") == "turned down");
    // Taken back: the word it was about is of the days between.
    right = book.word("2027-001", "offered", "2027-03-25");
    right.corrects = 3;
    REQUIRE(book.add(right) == "");
    CHECK(book.state("2027-001", "2027-03-24") == "turned down");
    CHECK(book.state("2027-001", "2027-03-25") == "offered");
    // A word of a later day that is taken back by one of an earlier day never held.
    Event again = book.word("2027-001", "accepted", "2027-03-26");
    again.option = "field";
    REQUIRE(book.add(again) == "");
    REQUIRE(book.add(book.word("2027-001", "finished", "2027-04-20")) == ""); // record 6
    right = book.word("2027-001", "accepted", "2027-04-10");
    right.corrects = 6;
    REQUIRE(book.add(right) == "");
    for (const char* day : {"2027-04-01", "2027-04-10", "2027-04-30"}) {
        CHECK(book.state("2027-001", day) == "accepted");
        CHECK(book.lives.contract_cents(life, day) == 140);
    }
}

TEST_CASE("a change order holds until the day of the word that puts its acceptance right") {
    Told book;
    REQUIRE(book.add(book.offer(100)) == "");
    REQUIRE(book.add(book.word("2027-001", "accepted")) == "");
    REQUIRE(book.add(book.order("2027-001", 120)) == "");
    REQUIRE(book.add(book.word("2027-001-C1", "accepted", "2027-03-12")) == ""); // record 4
    Event right = book.word("2027-001-C1", "turned down", "2027-03-20");
    right.corrects = 4;
    REQUIRE(book.add(right) == "");
    const Life& life = *book.lives.find("2027-001");
    CHECK(book.lives.contract_cents(life, "2027-03-11") == 100);
    CHECK(book.lives.contract_cents(life, "2027-03-19") == 120);
    CHECK(book.lives.contract_cents(life, "2027-03-20") == 100);
}

} // namespace words_test
