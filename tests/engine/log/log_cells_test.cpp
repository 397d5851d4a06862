// What a cell of a log says, and what its words and units mean.
#include "engine/log/log_cells.h"

#include <optional>
#include <string>

#include <doctest/doctest.h>

#include "engine/log/counting.h"

namespace log_cells_test {

using namespace acre::engine;

TEST_CASE("a figure may be money and may part its thousands, and nothing else") {
    struct Row {
        std::string cell;
        std::optional<double> figure;
    };
    const std::optional<double> none;
    for (const Row& row : {
             Row{"0", 0},
             Row{"15.5", 15.5},
             Row{"-3.25", -3.25},
             Row{" 7\t", 7},
             Row{"7\r", 7},
             Row{"$12", 12},
             Row{"$ 12", 12},
             Row{"-$12", -12},
             Row{"12 $", 12},
             Row{"$1,234.50", 1234.5},
             Row{"1,234", 1234},
             Row{"9,909", 9909},
             Row{"1234567", 1234567},
             Row{"12,345,678", 12345678},
             Row{"123,456.5", 123456.5},
             Row{"-1,234", -1234},
             Row{"-123,456", -123456},
             Row{"15,5", none},
             Row{"1,23", none},
             Row{"1234,567", none},
             Row{",123", none},
             Row{"-,123", none},
             Row{"1,,234", none},
             Row{"1,234,56", none},
             Row{"1,2345", none},
             Row{"1.234,567", none},
             Row{"12.5,000", none},
             Row{"1,234,", none},
             Row{"a,bcd", none},
             Row{"1e0,001", none},
             Row{"--1,234", none},
             Row{"1 2", none},
             Row{"", none},
             Row{"$", none},
             Row{"12 h", none},
             Row{"1e400", none},
             Row{"inf", none},
             Row{"nan", none},
             Row{"twelve", none},
         }) {
        CAPTURE(row.cell);
        CHECK(figure_in(row.cell, false) == row.figure);
        // Between semicolons a comma parts nothing.
        const bool has_comma = row.cell.find(',') != std::string::npos;
        CHECK(figure_in(row.cell, true) == (has_comma ? none : row.figure));
    }
}

TEST_CASE("a day is one of the calendar, written the way its column says") {
    CHECK(day_in("2027-03-14", false) == "2027-03-14");
    CHECK_FALSE(day_in("3/14/2027", false));
    CHECK_FALSE(day_in("2027-02-29", false));
    CHECK(day_in("2028-02-29", false) == "2028-02-29");
    CHECK(day_in("3/14/2027", true) == "2027-03-14");
    CHECK(day_in("03/04/2027", true) == "2027-03-04"); // the month first
    CHECK(day_in("12/31/2027", true) == "2027-12-31");
    for (const char* cell :
         {"14/3/2027", "3/14/27", "3/14/02027", "3/14", "3//2027", "/14/2027", "003/14/2027",
          "3/014/2027", "2/29/2027", "3/1a/2027", "-3/14/2027", "2027-03-14", "", "//"}) {
        CAPTURE(cell);
        CHECK_FALSE(day_in(cell, true));
    }
}

TEST_CASE("words are alike whatever their capitals and what stands between them") {
    CHECK(plain_word("Walt") == "walt");
    CHECK(plain_word("  Meter__Start - ") == "meter start");
    CHECK(plain_word("AZaz09") == "azaz09");
    CHECK(plain_word("walt.rig") == "walt.rig");
    CHECK(plain_word(" -_\t") == "");
    for (const char* head : {"date mm/dd/yyyy", "Date (mm/dd/yyyy)", "DATE_M/D/YYYY"})
        CHECK(is_american_date(head));
    for (const char* head : {"date", "date dd/mm/yyyy", "date (yyyy-mm-dd)"})
        CHECK_FALSE(is_american_date(head));
}

TEST_CASE("hours of a machine are read off its meter, days are dates, gallons and liters fuel") {
    CHECK(how_counted("h", true) == Counting::Meter);
    CHECK(how_counted("h", false) == Counting::Work);
    CHECK(how_counted("day", false) == Counting::Days);
    CHECK(how_counted("gal", false) == Counting::Fuel);
    CHECK(how_counted("L", false) == Counting::Fuel);
    CHECK(how_counted("ac", false) == Counting::Work);
}

} // namespace log_cells_test
