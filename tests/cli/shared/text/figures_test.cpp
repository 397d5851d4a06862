#include <doctest/doctest.h>

#include <cmath>

#include "cli/shared/text/figures.h"

namespace figures_test {

using namespace acre::cli;

TEST_CASE("money in whole dollars and as a difference") {
    CHECK(whole_dollars(95'078.49) == "$95,078");
    CHECK(whole_dollars(0.5) == "$1");
    CHECK(whole_dollars(-1'234.5) == "-$1,235");
    CHECK(whole_dollars(-0.2) == "$0");
    CHECK(whole_dollars(NAN) == "no answer");
    CHECK(money_change(420) == "+$4.20");
    CHECK(money_change(-7) == "-$0.07");
    CHECK(money_change(0) == "$0.00");
}

TEST_CASE("a share is a percent, rounded half up") {
    CHECK(percent_text(0.1485) == "14.9 %");
    CHECK(percent_text(-0.032) == "-3.2 %");
    CHECK(percent_text(12.3456, 0) == "1,235 %");
    CHECK(percent_text(0.0004, 2) == "0.04 %");
    CHECK(percent_text(-0.0001) == "0.0 %");
    CHECK(percent_text(NAN) == "no answer");
}

TEST_CASE("dates as people write them") {
    CHECK(long_date("2027-06-21") == "June 21, 2027");
    CHECK(long_date("2027-12-01") == "December 1, 2027");
    CHECK(short_date("2027-06-21") == "Jun 21, 2027");
    CHECK(short_date("2027-02-30") == "2027-02-30");
    CHECK(long_date("") == "");
}

} // namespace figures_test
