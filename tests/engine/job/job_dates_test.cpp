// Dates worked out on printed calendars of 2027 and 2028: January 1, 2027 is a Friday, June 21,
// 2027 a Monday, July 4, 2027 a Sunday; 2028 is a leap year and begins on a Saturday.
#include "engine/job/job_dates.h"

#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/calendar.h"
#include "lang/units/calendar.h"
#include "tests/support/priced.h"

namespace job_dates_test {

using namespace acre;
using tests::priced_ok;

namespace {

constexpr const char* model = R"(model "Work"
given days = 5 day  "days"
cost crew : $/day = $100/day over days  "crew"
price "Work" lump
)";

struct Dated {
    std::string start, finish;
    long closed = 0, calendar = 0;
};

Dated dates(const std::string& season, const std::string& date, double days) {
    const auto job = priced_ok("job \"j\"\nmodel \"work\"\nseason \"s\"\ndate " + date +
                                   "\nset days = " + std::to_string(days) + " day\n",
                               {{{"work.rate", model}, {"s.season", "season \"s\"\n" + season}}});
    const auto found = engine::dates_of(job);
    REQUIRE(found.has_value());
    return {found->start, found->finish, found->closed_days, found->calendar_days};
}

void check(const std::string& season, const std::string& date, double days,
           const std::string& start, const std::string& finish, long closed) {
    CAPTURE(season);
    CAPTURE(date);
    CAPTURE(days);
    const Dated found = dates(season, date, days);
    CHECK(found.start == start);
    CHECK(found.finish == finish);
    CHECK(found.closed == closed);
}

const std::string sunday = "closed sunday\n";
const std::string weekend = "closed saturday\nclosed sunday\n";

} // namespace

TEST_CASE("five, six and seven days a week") {
    check("", "2027-06-21", 7, "2027-06-21", "2027-06-27", 0);
    check(sunday, "2027-06-21", 6, "2027-06-21", "2027-06-26", 0);
    check(sunday, "2027-06-21", 7, "2027-06-21", "2027-06-28", 1);
    check(weekend, "2027-06-25", 3, "2027-06-25", "2027-06-29", 2);
    check(weekend, "2027-06-21", 10, "2027-06-21", "2027-07-02", 2);
}

TEST_CASE("a start on a closed day is on the next open one") {
    check(sunday, "2027-06-20", 5, "2027-06-21", "2027-06-25", 0);
    check(weekend, "2027-06-19", 1, "2027-06-21", "2027-06-21", 0);
    check(sunday + "closed 2027-07-05 \"Independence Day, observed\"\n", "2027-07-04", 1,
          "2027-07-06", "2027-07-06", 0);
}

TEST_CASE("holidays") {
    const std::string season = sunday + "closed 2027-07-05 \"Independence Day, observed\"\n";
    check(season, "2027-07-03", 2, "2027-07-03", "2027-07-06", 2);
    check(season, "2027-06-28", 12, "2027-06-28", "2027-07-12", 3);
}

TEST_CASE("the end of the year") {
    const std::string season = sunday + "closed 2027-12-24 .. 2028-01-02 \"between the years\"\n";
    check(season, "2027-12-23", 2, "2027-12-23", "2028-01-03", 10);
    check("", "2027-12-30", 5, "2027-12-30", "2028-01-03", 0);
}

TEST_CASE("leap days") {
    check("", "2028-02-28", 3, "2028-02-28", "2028-03-01", 0);
    check("", "2027-02-28", 2, "2027-02-28", "2027-03-01", 0);
    check("closed 2028-02-29\n", "2028-02-28", 2, "2028-02-28", "2028-03-01", 1);
    check("", "2028-02-29", 1, "2028-02-29", "2028-02-29", 0);
}

TEST_CASE("a job of 366 days") {
    check("", "2027-01-01", 366, "2027-01-01", "2028-01-01", 0);
    check("", "2028-01-01", 366, "2028-01-01", "2028-12-31", 0);
    // Friday and Saturday, 60 weeks of six from January 4, then Monday to Thursday
    check(sunday, "2027-01-01", 366, "2027-01-01", "2028-03-02", 61);
}

TEST_CASE("no days, a part of a day, and closed spans that touch") {
    check("", "2027-06-21", 0, "2027-06-21", "2027-06-21", 0);
    check("", "2027-06-21", 0.25, "2027-06-21", "2027-06-21", 0);
    check("", "2027-06-21", 1.25, "2027-06-21", "2027-06-22", 0);
    check("closed 2027-06-22\nclosed 2027-06-23 .. 2027-06-24\nclosed 2027-06-21 .. 2027-06-22\n",
          "2027-06-20", 2, "2027-06-20", "2027-06-25", 4);
}

TEST_CASE("what cannot be dated has no dates") {
    const auto of = [](const std::string& head, const std::string& days) {
        return engine::dates_of(
            priced_ok("job \"j\"\nmodel \"work\"\n" + head + "set days = " + days + "\n",
                      {{{"work.rate", model}}}));
    };
    CHECK(of("date 2027-06-21\n", "5 day").has_value());
    CHECK_FALSE(of("", "5 day").has_value());
    CHECK(of("date 2027-06-21\n", "3660 day").has_value());
    CHECK_FALSE(of("date 2027-06-21\n", "3661 day").has_value());
    CHECK(of("date 9999-12-01\n", "31 day").has_value());
    CHECK_FALSE(of("date 9999-12-01\n", "32 day").has_value());
}

namespace {

constexpr const char* staged = R"(model "Work"
given days = 2 day  "days"
given hours = 3 h  "hours of taking it down"
stage_in     : day   = 0.5 day  "move in"
stage_in_by  : clock = 11:40 - hours  "begin taking it down by"
stage_work   : day   = days  "work"
wait_dry     : day   = 3 day  "drying"
stage_out    : day   = 1 day  "move out"
cost crew : $/day = $100/day over days  "crew"
price "Work" lump
)";

} // namespace

TEST_CASE("stages share a day, waits pass closed days, and a missed start moves to an open day") {
    // Friday: half a day in, half of work; Monday: work; half of Tuesday: work. Wednesday to Friday
    // it dries, so it is out on Monday.
    const auto job = priced_ok("job \"j\"\nmodel \"work\"\nseason \"s\"\ndate 2027-06-25\n",
                               {{{"work.rate", staged}, {"s.season", "season \"s\"\n" + weekend}}});
    const auto answer = engine::ask(job, engine::CalendarQuestion{});
    REQUIRE(answer);
    CHECK(answer->dates.start == "2027-06-25");
    CHECK(answer->dates.finish == "2027-07-05");
    CHECK(answer->dates.work_days == 3.5);
    CHECK(answer->dates.calendar_days == 11);
    CHECK(answer->dates.closed_days == 4);
    REQUIRE(answer->dates.stages.size() == 4);
    const engine::StageRow& in = answer->dates.stages[0];
    CHECK(in.first == "2027-06-25");
    CHECK(in.last == "2027-06-25");
    CHECK(in.begin_by_text == "8:40 am");
    CHECK(in.begin_by_label == "begin taking it down by");
    CHECK(in.else_on == "2027-06-28");
    CHECK(answer->dates.stages[1].first == "2027-06-25");
    CHECK(answer->dates.stages[1].last == "2027-06-29");
    CHECK(answer->dates.stages[2].first == "2027-06-30");
    CHECK(answer->dates.stages[2].last == "2027-07-02");
    CHECK(answer->dates.stages[3].first == "2027-07-05");
    std::string days;
    for (const engine::DayRow& day : answer->days) {
        days += day.date.substr(5);
        for (const std::size_t stage : day.work)
            days += " " + answer->dates.stages[stage].label;
        days += day.closed.empty() ? "; " : " closed; ";
    }
    CHECK(days == "06-25 move in work; 06-26 closed; 06-27 closed; 06-28 work; 06-29 work; 06-30 "
                  "drying; 07-02 drying; 07-03 closed; 07-04 closed; 07-05 move out; ");
}

TEST_CASE("a stage without a label is called by its name, and other units are no days") {
    constexpr const char* bare = R"(model "Work"
wait_let_it_dry : day = 1 day
stage_count     : 1   = 3
stage_take_down : day = 0.5 day
wait_dry        : day = 2.5 day  "drying"
stage_nothing   : day = 0 day
stage_put_up    : day = 1 day
cost crew : $/day = $100/day over stage_put_up  "crew"
price "Work" lump
)";
    const auto job =
        priced_ok("job \"j\"\nmodel \"work\"\ndate 2027-06-21\n", {{{"work.rate", bare}}});
    const auto answer = engine::ask(job, engine::CalendarQuestion{});
    REQUIRE(answer);
    std::string said;
    for (const engine::StageRow& stage : answer->dates.stages)
        said += stage.label + " " + stage.first.substr(5) + " " + stage.last.substr(5) + "; ";
    // A wait takes whole days, and begins where no work was done on the day.
    CHECK(said == "let it dry 06-21 06-21; take down 06-22 06-22; drying 06-23 06-25; "
                  "put up 06-26 06-26; ");
    CHECK(answer->dates.work_days == 1.5);
}

TEST_CASE(
    "a stage begins on the day after one that took its day whole, in tenths of a day as well") {
    const engine::WorkCalendar open{{}};
    const auto placed = [&](const std::vector<double>& days) {
        std::vector<engine::Stage> stages(days.size());
        for (std::size_t i = 0; i < days.size(); ++i)
            stages[i].days = static_cast<engine::Slot>(i);
        return engine::job_dates(100, {}, open, stages, days);
    };
    const auto whole = placed({1, 2, 0.5});
    REQUIRE(whole.has_value());
    CHECK(whole->stages[0].last == 100);
    CHECK(whole->stages[1].first == 101);
    CHECK(whole->stages[1].last == 102);
    CHECK(whole->stages[2].first == 103);
    // Ten tenths are a hair less than one in doubles, and a day all the same.
    const auto tenths = placed({0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1});
    REQUIRE(tenths.has_value());
    CHECK(tenths->stages[9].last == 100);
    CHECK(tenths->stages[10].first == 101);
    // What is no number of days has no dates, and does not hide among others.
    for (const double no_days : {-1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)})
        CHECK_FALSE(placed({1, no_days, 2}).has_value());
}

TEST_CASE("a calendar of a job without a date or days says what is missing") {
    const auto undated = priced_ok("job \"j\"\nmodel \"work\"\n", {{{"work.rate", model}}});
    CHECK(tests::title_of(engine::ask(undated, engine::CalendarQuestion{}).said) ==
          "`test.job` has no `date`");
    const auto no_days = priced_ok("job \"j\"\nmodel \"work\"\ndate 2027-06-21\n",
                                   {{{"work.rate", "model \"w\"\nx : $ = $3  \"x\"\n"}}});
    CHECK(tests::title_of(engine::ask(no_days, engine::CalendarQuestion{}).said) ==
          "the model does not say how many days the job takes");
}

TEST_CASE("a job that is not done by its latest date is told, with the latest start that is") {
    const auto at = [](const std::string& date) {
        return priced_ok("job \"j\"\nmodel \"work\"\nseason \"s\"\ndate " + date +
                             "\nset days = 7 day\n",
                         {{{"work.rate", model}, {"s.season", "season \"s\"\n" + sunday}}});
    };
    CHECK(at("2027-06-21 .. 2027-06-28").find(lang::Code::L833) == nullptr);
    const auto late = at("2027-06-22 .. 2027-06-28");
    const lang::Diagnostic* told = late.find(lang::Code::L833);
    REQUIRE(told != nullptr);
    CHECK(told->title == "the job is done on June 29, 2027, 1 day after its latest date");
    REQUIRE(told->helps.size() == 2);
    CHECK(told->helps[0].text == "start by June 21, 2027:  date 2027-06-21 .. 2027-06-28");
    CHECK(told->helps[0].edit->replacement == "2027-06-21 .. 2027-06-28");
    CHECK(told->helps[1].edit->replacement == "2027-06-22 .. 2027-06-29");
    CHECK(at("2027-06-21 .. 2027-06-28").find(lang::Code::L833) == nullptr);
    CHECK(at("2027-06-20 .. 2027-06-28").find(lang::Code::L833) == nullptr); // it starts on Monday
}

TEST_CASE("a season of another week than the job's") {
    const auto with = [](const std::string& season, const std::string& days) {
        return priced_ok(
            "job \"j\"\nmodel \"work\"\nseason \"s\"\ndate 2027-06-21\n"
            "set days_per_week = " +
                days + "\n",
            {{{"work.rate", std::string(model) + "given days_per_week = 6  \"days a week\"\n"},
              {"s.season", "season \"s\"\n" + season}}});
    };
    CHECK(with("", "6").find(lang::Code::L834) == nullptr);
    CHECK(with(sunday, "6").find(lang::Code::L834) == nullptr);
    CHECK(with(weekend, "5").find(lang::Code::L834) == nullptr);
    const auto other = with(weekend, "6");
    REQUIRE(other.find(lang::Code::L834) != nullptr);
    CHECK(other.find(lang::Code::L834)->title ==
          "the season is open 5 days a week; the job counts on 6");
    CHECK(other.find(lang::Code::L834)->helps[0].text == "write  set days_per_week = 5");
}

} // namespace job_dates_test
