// Days of closures by the printed calendar of 2027: July 4 is a Sunday, July 5 a Monday.
#include "engine/job/work_calendar.h"

#include <doctest/doctest.h>

#include "lang/units/calendar.h"

namespace work_calendar_test {

using namespace acre;
using engine::WorkCalendar;

namespace {

long day(const char* date) {
    return *lang::day_number(date);
}

} // namespace

TEST_CASE("a closed day says why, on its first and its last day too") {
    std::vector<lang::ast::Closed> closed(2);
    closed[0].first = {2027, 7, 5, {}};
    closed[0].last = {2027, 7, 9, {}};
    closed[0].label = lang::ast::Text();
    closed[0].label->text = "the shop's week";
    closed[1].weekday = 0;
    const WorkCalendar calendar(closed);
    CHECK(calendar.why_closed(day("2027-07-05")) == "the shop's week");
    CHECK(calendar.why_closed(day("2027-07-09")) == "the shop's week");
    CHECK(calendar.why_closed(day("2027-07-04")) == "closed");
    CHECK(calendar.why_closed(day("2027-07-10")).empty());
    CHECK(calendar.open_weekdays() == 6);
}

} // namespace work_calendar_test
