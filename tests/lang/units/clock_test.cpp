#include "lang/units/clock.h"

#include <cmath>

#include <doctest/doctest.h>

#include "lang/units/catalog.h"
#include "lang/units/number_text.h"

namespace clock_test {

using namespace acre::lang;

TEST_CASE("a clock time as people say it") {
    CHECK(clock_text(0) == "12:00 am");
    CHECK(clock_text(0.5) == "12:30 am");
    CHECK(clock_text(8 + 40.0 / 60) == "8:40 am");
    CHECK(clock_text(11 + 59.0 / 60) == "11:59 am");
    CHECK(clock_text(12) == "noon");
    CHECK(clock_text(12.25) == "12:15 pm");
    CHECK(clock_text(19.5) == "7:30 pm");
    CHECK(clock_text(24) == "midnight");
}

TEST_CASE("to the minute, and never 60 minutes") {
    CHECK(clock_text(19.4999) == "7:30 pm");
    CHECK(clock_text(19 + 29.4 / 60) == "7:29 pm");
    CHECK(clock_text(7 + 59.7 / 60) == "8:00 am");
    CHECK(clock_text(23 + 59.7 / 60) == "midnight");
    CHECK(clock_text(-0.001) == "12:00 am");
}

TEST_CASE("outside the day: the day before or after") {
    CHECK(clock_text(-3.2) == "8:48 pm the day before");
    CHECK(clock_text(-24) == "12:00 am the day before");
    CHECK(clock_text(-24.5) == "11:30 pm 2 days before");
    CHECK(clock_text(25.5) == "1:30 am the day after");
    CHECK(clock_text(48) == "12:00 am 2 days after");
    CHECK(clock_text(NAN) == "no answer");
    CHECK(clock_text(1e9) == "1,000,000,000 h after midnight");
}

TEST_CASE("a clock time as files write it") {
    CHECK(written_clock(19.5) == "19:30");
    CHECK(written_clock(7 + 5.0 / 60) == "7:05");
    CHECK(written_clock(0) == "0:00");
    CHECK(written_clock(24) == "24:00");
    CHECK(written_clock(-1) == "-1 clock");
    CHECK(written_clock(7.51) == "7.51 clock");
    CHECK(quantity_text(19.5, "clock") == "7:30 pm");
    CHECK(written_text(19.5, "clock") == "19:30");
    CHECK(written_text(4, "ft") == "4 ft");
}

TEST_CASE("the halves of the day") {
    CHECK(clock_of(7, 30, "pm") == 19.5);
    CHECK(clock_of(7, 30, " P.M.") == 19.5);
    CHECK(clock_of(12, 0, "am") == 0);
    CHECK(clock_of(12, 0, "pm") == 12);
    CHECK(clock_of(12, 30, "a.m.") == 0.5);
    CHECK(clock_of(7, 59, "pm") == 19 + 59.0 / 60);
    CHECK_FALSE(clock_of(13, 0, "pm"));
    CHECK_FALSE(clock_of(0, 0, "am"));
    CHECK_FALSE(clock_of(7, 60, "am"));
    CHECK_FALSE(clock_of(7, 30, "h"));
    CHECK(is_half_of_day("P.M."));
    CHECK_FALSE(is_half_of_day("h"));
}

TEST_CASE("a clock is an hour, and a unit that nobody wrote is never shown as one") {
    const UnitCatalog catalog;
    CHECK(*catalog.find("clock") == *catalog.find("h"));
    CHECK(catalog.text(*catalog.find("clock")) == "h");
    CHECK(unit_of_difference("clock") == "h");
    CHECK(unit_of_difference("ac") == "ac");
}

} // namespace clock_test
