// What records of earlier versions do not say, worked out by hand.
#include "engine/book/before.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/book/lives.h"

namespace before_test {

using namespace acre::engine;

namespace {

QuoteRecord with(std::vector<RecordLine> lines) {
    QuoteRecord quote;
    quote.items = {{"Ripping", "ripping", "", 0, 0, 0, 0, {}},
                   {"Move", "move", "", 0, 0, 0, 0, {}}};
    quote.lines = std::move(lines);
    return quote;
}
RecordLine line(const std::string& name, double value) {
    return {name, "$", "", value};
}

} // namespace

TEST_CASE("overhead is its own line, or what the steps called so add to what was before them") {
    // 100 and 9 % is 109, a margin makes 120, more overhead 126; the move 50, 55.
    std::vector<RecordLine> lines = {
        line("ripping.cost", 100),       line("ripping.overhead", 109),
        line("ripping.margin", 120),     line("ripping.overhead_2", 126),
        line("ripping.round_up", 130),   line("move.cost", 50),
        line("move.at_least", 50),       line("move.overhead", 55),
        line("ripping.overheads", 999),  line("moved.overhead", 999),
        line("ripping.overhead_x", 999), line("ripping.overhead_", 999)};
    CHECK(overhead_of(with(lines)) == doctest::Approx(9 + 6 + 5));
    lines.push_back(line("overhead.total", 7));
    CHECK(overhead_of(with(lines)) == 7);
    CHECK(overhead_of(with({})) == 0);
}

TEST_CASE("a log counted the hours of one machine, acres, gallons and days, by their usual names") {
    QuoteRecord quote = with({line("days", 9), line("gallons", 4'000), line("area", 118),
                              line("machine_hours", 120), line("crawler.burn", 40)});
    count_as_before(quote);
    REQUIRE(quote.counted.size() == 4);
    const std::vector<CountedLine>& is = quote.counted;
    CHECK(is[0].name == "machine_hours");
    CHECK(is[0].unit == "h");
    CHECK(is[0].how == Counting::Meter);
    CHECK(is[0].machine == "crawler");
    CHECK(is[0].quoted == 120);
    CHECK(is[1].name == "acres"); // the column of the log, whatever its line was called
    CHECK(is[1].unit == "ac");
    CHECK(is[1].how == Counting::Work);
    CHECK(is[1].quoted == 118);
    CHECK(is[2].name == "gallons");
    CHECK(is[2].unit == "gal");
    CHECK(is[2].how == Counting::Fuel);
    CHECK(is[2].quoted == 4'000);
    CHECK(is[3].name == "days");
    CHECK(is[3].unit == "day");
    CHECK(is[3].how == Counting::Days);
    CHECK(is[3].quoted == 9);
    // Acres before area; and what is not there is none of it.
    QuoteRecord other = with({line("area", 118), line("acres", 100), line("machine_hours", 1)});
    count_as_before(other);
    REQUIRE(other.counted.size() == 4);
    CHECK(other.counted[0].machine.empty());
    CHECK(other.counted[1].quoted == 100);
    CHECK(other.counted[2].quoted == 0);
    QuoteRecord bare = with({});
    count_as_before(bare);
    CHECK(bare.counted.size() == 2);
}

TEST_CASE("numbers of quotes are a year and an order, of changes one more") {
    for (const char* number : {"2027-001", "2027-1000", "2027-001-C1", "2027-001-C12"})
        CHECK(is_quote_number(number));
    for (const char* number : {"", "2027-01", "2027001", "2027-00x", "20271-01", "2027-001-C",
                               "2027-001-Cx", "2027-001-C1x", "-C1", "2027-01-C1", "../../etc"}) {
        CAPTURE(number);
        CHECK_FALSE(is_quote_number(number));
    }
}

TEST_CASE("a time is a day of the calendar and a time of that day, in seconds") {
    CHECK(seconds_of("1970-01-01T00:00:00Z") == 0);
    CHECK(seconds_of("1970-01-02T03:04:05Z") == 86'400 + 3 * 3'600 + 4 * 60 + 5);
    CHECK(seconds_of("2000-03-01T00:00:00Z") == 951'868'800); // 10,957 + 60 days
    CHECK(seconds_of("2027-06-21T23:59:59Z").value() + 1 ==
          seconds_of("2027-06-22T00:00:00Z").value());
    for (const char* time :
         {"", "2027-06-21", "2027-06-31T00:00:00Z", "2027-06-21T24:00:00Z", "2027-06-21T00:60:00Z",
          "2027-06-21T00:00:60Z", "2027-06-21 00:00:00Z", "2027-06-21T00.00:00Z",
          "2027-06-21T00:00.00Z", "2027-06-21T00:00:00z", "2027-06-21T0a:00:00Z",
          "2027-06-21T00:-1:00Z", "2027-06-21T00:00:00ZZ"}) {
        CAPTURE(time);
        CHECK_FALSE(seconds_of(time));
    }
}

} // namespace before_test
