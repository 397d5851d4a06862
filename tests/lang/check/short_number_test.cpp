// Mends of a formula that is off by a factor: a number that lost a part of its unit is named, and
// no line is put in that the formula has already.
#include <doctest/doctest.h>

#include <string>

#include "tests/support/compile_text.h"

namespace short_number_test {

using namespace acre;
using namespace acre::lang;
using tests::expect_diag;

namespace {

const std::string head = "model \"m\"\n"
                         "noun load\n"
                         "given kept = 8 yr\n"             // line 3
                         "a_year : $/yr = $10,000/yr\n"    // line 4
                         "given hours = 40 h\n"            // line 5
                         "given power = 300 hp\n"          // line 6
                         "table burn (load : %) : gal/h\n" // line 7
                         "  0 2\n  100 40\n";

std::string helps(const std::string& text, Code code) {
    std::string all;
    for (const Help& help : expect_diag(head + text, code).helps)
        all += (all.empty() ? "" : "; ") + help.text + (help.edit ? "!" : "");
    return all;
}

} // namespace

TEST_CASE("a number that may have lost a part of its unit is named before any line is") {
    CHECK(helps("own : $/h = a_year / 900 h\n", Code::U302) ==
          "if `900 h` is for each yr, write  900 h/yr; "
          "`kept` (line 3) is in yr: write  a_year / 900 h * kept");
    CHECK(helps("pay : $ = $30/h * hours * 2 load\n", Code::U302).find("2 load") ==
          std::string::npos); // of a noun too much, nothing is per load
    CHECK(helps("own : $/day = $90 * 2 %\n", Code::U302) == ""); // the one or the other
    CHECK(helps("own : $/day = hours / hours * $90\n", Code::U302) ==
          "if `$90` is for each day, write  $90/day!");
}

TEST_CASE("no line is proposed that the formula has already, the other way round") {
    CHECK(helps("b : gal/h = burn(power)\n", Code::U305) == "");
    CHECK(helps("g : gal/h = burn(50 %) * hours\n", Code::U302) == "");
    CHECK(helps("g : gal = burn(50 %) / hours\n", Code::U302) == "");
    CHECK(helps("g : gal = burn(50 %)\n", Code::U302) ==
          "`hours` (line 5) is in h: write  burn(50 %) * hours!");
}

} // namespace short_number_test
