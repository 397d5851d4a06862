// What a date that is written in another way is taken for.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "lang/syntax/habits.h"

namespace date_habits_test {

using namespace acre::lang;

namespace {

// The helps, one after the other.
std::string helps_of(const std::string& text) {
    const Diagnostic d = describe_date(text, {0, 4, 9});
    CHECK(d.code == Code::S117);
    CHECK(d.primary.span == Span{0, 4, 9});
    std::string all;
    for (const Help& help : d.helps)
        all += (all.empty() ? "" : " | ") + help.text;
    return all;
}

} // namespace

TEST_CASE("a date that can only be one is told as it is written here") {
    struct Row {
        const char *text, *meant;
    };
    const Row rows[] = {
        {"14 March 2027", "2027-03-14"},
        {"March 14, 2027", "2027-03-14"},
        {"14 Mar 27", "2027-03-14"},
        {"DECEMBER 1 2027", "2027-12-01"},
        {"jan 31 2027", "2027-01-31"},
        {"14 March April 2027", "2027-03-14"}, // the first month counts
        {"14th of March, 2027", "2027-03-14"},
        {"3/14/2027", "2027-03-14"},
        {"14/3/2027", "2027-03-14"},
        {"14.3.27", "2027-03-14"},
        {"5/5/2027", "2027-05-05"},
        {"2027/3/14", "2027-03-14"},
        {"29/2/2028", "2028-02-29"},
        {"1 Jan 99", "2099-01-01"},
        {"1 Jan 1900", "1900-01-01"},
        {"31 Dec 2999", "2999-12-31"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CHECK(helps_of(row.text) == "write  " + std::string(row.meant));
        const Diagnostic d = describe_date(row.text, {0, 4, 9});
        REQUIRE(d.helps.at(0).edit.has_value());
        CHECK(d.helps[0].edit->replacement == row.meant);
        CHECK(d.helps[0].edit->span == Span{0, 4, 9});
    }
}

TEST_CASE("a date whose day may be its month is told both ways, and nothing is changed") {
    CHECK(helps_of("7/5/2027") ==
          "for July 5, 2027, write  2027-07-05 | for May 7, 2027, write  2027-05-07");
    CHECK_FALSE(describe_date("7/5/2027", {0, 4, 9}).helps.at(0).edit.has_value());
}

TEST_CASE("what is no date of any kind is shown how one is written") {
    for (const char* text : {"", "soon", "March", "March 2027", "14 2027 March", "31/6/2027",
                             "29/2/2027", "2027/14/3", "1 Jan 100", "1 Jan 1899", "1 Jan 3000",
                             "0/5/2027", "5/0/2027", "1/2/3/4", "32 May 2027"}) {
        CAPTURE(text);
        CHECK(helps_of(text) == "write it as 2027-03-14");
    }
}

} // namespace date_habits_test
