// Clock times, days that are closed, and the two dates of a job, as texts have them.
#include <doctest/doctest.h>

#include <string>

#include "lang/syntax/tidy.h"
#include "tests/support/syntax_cases.h"

namespace clock_and_calendar_test {

using namespace acre;
using tests::all_errors;
using tests::parse_text;
using tests::tree_of;

namespace {

std::string in_season(const std::string& text) {
    const tests::Parsed p = parse_text("season \"s\"\n" + text + "\n", lang::FileKind::Season);
    if (p.diagnostics.has_errors())
        return all_errors(p);
    return p.dump().substr(p.dump().find('\n') + 1);
}

std::string in_job(const std::string& text) {
    const tests::Parsed p = parse_text("job \"j\"\n" + text + "\n", lang::FileKind::Job);
    if (p.diagnostics.has_errors())
        return all_errors(p);
    return p.dump().substr(p.dump().find('\n') + 1);
}

std::string mended(const std::string& whole, lang::FileKind kind) {
    const tests::Parsed p = parse_text(whole, kind);
    REQUIRE(p.diagnostics.has_errors());
    const lang::Diagnostic& d = p.diagnostics.all().front();
    if (d.helps.empty() || !d.helps.front().edit)
        return "";
    std::string out = whole;
    const lang::Edit& edit = *d.helps.front().edit;
    return out.replace(edit.span.begin, edit.span.end - edit.span.begin, edit.replacement);
}

} // namespace

TEST_CASE("a clock time is a number of hours after midnight, in clock") {
    CHECK(tree_of("x : clock = 19:30") == "x : [clock] = 19.5[clock]\n");
    CHECK(tree_of("x : clock = 0:00") == "x : [clock] = 0[clock]\n");
    CHECK(tree_of("x : clock = 24:00 - 7:15") == "x : [clock] = (24[clock] - 7.25[clock])\n");
    CHECK(tree_of("given a = 6:00 within 0:00 .. 12:00") ==
          "given a = 6[clock] within 0[clock] .. 12[clock]\n");
    CHECK(tree_of("x : 1 = f(7:30, 2)") == "x : [1] = f(7.5[clock], 2)\n");
    CHECK(tree_of("clock : h = clock + 1 h") == "clock : [h] = (clock + 1[h])\n");
}

TEST_CASE("what is no clock time") {
    tests::check_said({
        {"given a = 7:75", "S106 2:11 7:75 | `7:75` is no clock time | an hour has 60 minutes"},
        {"given a = 25:00", "S106 2:11 25:00 | `25:00` is no clock time | a day has 24 hours"},
        {"given a = 24:01", "S106 2:11 24:01 | `24:01` is no clock time | a day has 24 hours"},
        {"given a = 7:5", "S106 2:11 7:5 | `7:5` is no clock time | minutes are two digits"},
        {"given a = 7:30:15", "S106 2:11 7:30 | a clock time has no seconds"},
        {"given a = 123456789012:30",
         "S106 2:11 123456789012:30 | `123456789012:30` is no clock time | a day has 24 hours"},
        {"given a = 7:30 pm", "S106 2:11 7:30 pm | a clock time is written in 24 hours"},
        {"given a = 13:30 pm", "S106 2:11 13:30 pm | a clock time is written in 24 hours"},
        {"given a = 7:30 foo", "S110 2:16 foo | an operator is missing before `foo`"},
    });
}

TEST_CASE("times as people type them are mended") {
    const auto given = [](const std::string& value) {
        return mended("model \"m\"\ngiven a = " + value + "\n", lang::FileKind::Model);
    };
    CHECK(given("7:30 pm") == "model \"m\"\ngiven a = 19:30\n");
    CHECK(given("7:30pm  \"label\"") == "model \"m\"\ngiven a = 19:30  \"label\"\n");
    CHECK(given("12:05 a.m.") == "model \"m\"\ngiven a = 0:05\n");
    CHECK(given("12:00 PM") == "model \"m\"\ngiven a = 12:00\n");
    CHECK(mended("set a = 7:30 p.m.\n", lang::FileKind::CommandLine) == "set a = 19:30\n");
}

TEST_CASE("days that are closed") {
    CHECK(in_season("closed sunday") == "closed sunday\n");
    CHECK(in_season("closed 2027-07-05 \"Independence Day\"") ==
          "closed 2027-07-05 .. 2027-07-05 \"Independence Day\"\n");
    CHECK(in_season("closed 2027-12-24 .. 2028-01-02") == "closed 2027-12-24 .. 2028-01-02\n");
    CHECK(in_season("closed sundy") == "S117 2:8 sundy | `sundy` is no day of the week");
    CHECK(in_season("closed 2027-02-29") ==
          "S117 2:8 2027-02-29 | February 2027 has 28 days, not 29 | no such date");
    CHECK(in_season("closed 7/5/2027") == "S117 2:8 7/5/2027 | a date is written year-month-day");
    CHECK(in_season("closed sunday\nclosed sunday") ==
          "S116 3:1 closed sunday | `closed sunday` is given twice | again");
    CHECK(in_job("closed sunday") == "S104 2:1 closed | `closed` is not allowed in a job");
    CHECK(mended("season \"s\"\nclosed Sundays\n", lang::FileKind::Season) ==
          "season \"s\"\nclosed sunday\n");
    CHECK(mended("season \"s\"\nclosed Sat\n", lang::FileKind::Season) ==
          "season \"s\"\nclosed saturday\n");
    CHECK(mended("season \"s\"\nclosed wenesday\n", lang::FileKind::Season) ==
          "season \"s\"\nclosed wednesday\n");
}

TEST_CASE("a week without an open day is an error") {
    CHECK(in_season("closed monday\nclosed tuesday\nclosed wednesday\nclosed thursday\nclosed "
                    "friday\nclosed saturday\nclosed sunday") ==
          "S126 8:1 closed sunday | every day of the week is closed | the last of the seven");
}

TEST_CASE("a job's earliest start and latest end") {
    CHECK(in_job("date 2027-06-21") == "date 2027-06-21\n");
    CHECK(in_job("date 2027-06-21 .. 2027-07-10") == "date 2027-06-21 .. 2027-07-10\n");
    CHECK(in_job("date 2027-06-21 .. 2027-06-21") == "date 2027-06-21 .. 2027-06-21\n");
    CHECK(in_job("date 2027-07-10 .. 2027-06-21") ==
          "S117 2:6 2027-07-10 .. 2027-06-21 | the second date is before the first | must rise");
    CHECK(mended("job \"j\"\ndate 2027-07-10 .. 2027-06-21\n", lang::FileKind::Job) ==
          "job \"j\"\ndate 2027-06-21 .. 2027-07-10\n");
    CHECK(in_job("date 2027-06-21 ..") == "S117 2:17 .. | a date is written year-month-day");
}

TEST_CASE("their layout") {
    const auto tidied = [](const std::string& text, lang::FileKind kind) {
        lang::SourceMap sources;
        lang::Diagnostics unsaid;
        return lang::tidy(sources, sources.add("t", text), kind, unsaid).value_or("");
    };
    CHECK(tidied("job \"j\"\ndate   2027-06-21..2027-07-10   # soon\n", lang::FileKind::Job) ==
          "job \"j\"\ndate 2027-06-21 .. 2027-07-10  # soon\n");
    CHECK(
        tidied("season \"s\"\nclosed  sunday\nclosed 2027-07-05\"x\"\n", lang::FileKind::Season) ==
        "season \"s\"\nclosed sunday\nclosed 2027-07-05  \"x\"\n");
    CHECK(tidied("model \"m\"\ngiven a=19:30 within 0:00..24:00\n", lang::FileKind::Model) ==
          "model \"m\"\ngiven a = 19:30  within 0:00 .. 24:00\n");
}

} // namespace clock_and_calendar_test
