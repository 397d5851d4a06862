#include "lang/units/calendar.h"

#include <string>

#include <doctest/doctest.h>

namespace calendar_test {

using namespace acre::lang;

TEST_CASE("a day is written and read alike, from the first year to the last") {
    int days = 0;
    for (long day = *day_number("1900-01-01"); day <= *day_number("9999-12-31"); day += 97) {
        ++days;
        const std::string date = date_text(day);
        CAPTURE(date);
        REQUIRE(day_number(date) == day);
    }
    CHECK(days > 30'000);
}

// Julian day numbers of the U.S. Naval Observatory's tables, from memory: 2000-01-01 is 2451545 and
// 1970-01-01 is 2440588 (at noon); four hundred years have 146,097 days.
TEST_CASE("days are counted from 1970") {
    CHECK(day_number("1970-01-01") == 0);
    CHECK(day_number("1900-01-01") == -(70 * 365 + 17)); // leap years: 1904, 1908, … 1968
    CHECK(day_number("2000-01-01") == 2451545 - 2440588);
    CHECK(*day_number("2400-01-01") - *day_number("2000-01-01") == 146'097);
    CHECK(day_number(2400, 2, 29) == *day_number("2400-02-29"));
}

// The rule of 1582: every fourth year, but of the hundreds only every fourth.
TEST_CASE("leap years") {
    CHECK(days_in_month(2024, 2) == 29);
    CHECK(days_in_month(2027, 2) == 28);
    CHECK(days_in_month(1900, 2) == 28);
    CHECK(days_in_month(2000, 2) == 29);
    CHECK(days_in_month(2100, 2) == 28);
    CHECK(days_in_month(2027, 4) == 30);
    CHECK(days_in_month(2027, 12) == 31);
}

TEST_CASE("what is no date is none") {
    for (const char* text : {"", "2027-02-29", "2027-13-01", "2027-00-10", "2027-04-31",
                             "1899-12-31", "27-04-01", "2027-4-1", "2027/04/01", "2027-04-01 ",
                             "2027-04-0x", "-027-04-01", "2027--4-01", "10000-01-01"}) {
        CAPTURE(std::string(text));
        CHECK_FALSE(day_number(text));
        CHECK(day_text(text) == text);
    }
}

TEST_CASE("days that pass the last year have no date") {
    CHECK(date_after("2027-01-30", 30) == "2027-03-01");
    CHECK(date_after("9999-12-30", 1) == "9999-12-31");
    CHECK_FALSE(date_after("9999-12-30", 2));
    CHECK_FALSE(date_after("2027-01-30", 4'000'000'000));
}

TEST_CASE("dates as people write them") {
    CHECK(day_text("2027-06-21") == "June 21, 2027");
    CHECK(day_text("2027-12-01") == "December 1, 2027");
    CHECK(day_text(0) == "January 1, 1970");
    CHECK(month_text(2027, 9) == "September 2027");
    CHECK(short_day_text("2027-06-21") == "Jun 21, 2027");
    CHECK(short_day_text("2027-02-30") == "2027-02-30");
    CHECK(month_count(*day_number("2027-03-14")) == 12 * 2027 + 2);
    CHECK(weekday_text(*day_number("2027-03-14")) == "Sunday, March 14, 2027"); // by python
    CHECK(short_weekday(weekday_of(0)) == "Thu"); // January 1, 1970, from memory
    CHECK(month_count(*day_number("2027-12-31")) + 1 == month_count(*day_number("2028-01-01")));
}

} // namespace calendar_test
