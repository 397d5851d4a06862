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
    CHECK(money_change(1) == "+$0.01");
}

TEST_CASE("a share is a percent, rounded half up") {
    CHECK(percent_text(0.1485) == "14.9 %");
    CHECK(percent_text(-0.032) == "-3.2 %");
    CHECK(percent_text(12.3456, 0) == "1,235 %");
    CHECK(percent_text(0.0004, 2) == "0.04 %");
    CHECK(percent_text(-0.0001) == "0.0 %");
    CHECK(percent_text(NAN) == "no answer");
}

TEST_CASE("changes have their sign") {
    CHECK(dollar_change(4.2) == "+$4.20");
    CHECK(dollar_change(-0.004) == "$0.00");
    CHECK(dollar_change(0.004) == "$0.00"); // what rounds to nothing has no sign
    CHECK(dollar_change(0.005) == "+$0.01");
    CHECK(dollar_change(0.009) == "+$0.01");
    CHECK(percent_change(0.00421) == "+0.42 %");
    CHECK(percent_change(-0.1, 0) == "-10 %");
    CHECK(percent_change(0) == "+0.00 %");
}

TEST_CASE("rounded quantities") {
    CHECK(whole_text(1'203.6) == "1,204");
    CHECK(whole_text(-0.4) == "0");
    CHECK(fixed_quantity(32, 1, "h") == "32.0 h");
    CHECK(rounded_quantity(5, 2, "ft") == "5 ft");
    CHECK(rounded_quantity(5.254, 2, "ft") == "5.25 ft");
}

TEST_CASE("an estimate shows no digit that its error takes away") {
    CHECK(error_text(0.0256) == "0.026");
    CHECK(error_text(483) == "480");
    CHECK(error_text(1e-12) == "0");
    CHECK(error_text(NAN) == "-");
    CHECK(estimate_text(1'234.567, 0.0256, "ac") == "1,235 ac");
    CHECK(estimate_text(812.3456, 0.4, "$/ac") == "$812.35/ac");
    CHECK(estimate_text(81'234.56, 42, "$") == "$81,235");
    CHECK(estimate_text(12.3456, 0.4, "%") == "12.35 %");
    CHECK(estimate_text(12.3456, 4, "ac") == "12.3 ac");
    CHECK(estimate_text(12.3456, 4, "$/ac") == "$12.00/ac");
    CHECK(estimate_text(12.25, 0, "ac") == "12.25 ac");
    CHECK(estimate_text(12.25, NAN, "ac") == "12.25 ac");
    CHECK(estimate_text(NAN, 1, "$") == "-");
}

TEST_CASE("bare numbers for other programs") {
    CHECK(bare_text(1'234.5) == "1234.5");
    CHECK(bare_text(1'234.5, 2) == "1234.50");
    CHECK(bare_text(NAN) == "");
}

} // namespace figures_test
