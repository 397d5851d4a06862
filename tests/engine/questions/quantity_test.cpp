// A quantity that comes with a question, and how much work a question may be.
#include "engine/questions/quantity.h"

#include <string>

#include <doctest/doctest.h>

#include "engine/questions/work_limit.h"
#include "tests/support/priced.h"

namespace quantity_test {

using namespace acre;
using namespace acre::engine;

namespace {

std::string refused(const QuantityReader& reader, std::string_view text, lang::Code code) {
    const lang::Outcome<double> read = reader.read(text);
    REQUIRE_FALSE(read);
    CHECK(read.said.diagnostics.all().front().code == code);
    return read.said.diagnostics.all().front().title;
}

} // namespace

TEST_CASE("a quantity is read in the unit that is asked for") {
    const QuantityReader feet("ft", "`--at`: ");
    CHECK(*feet.read("2 yd") == doctest::Approx(6));
    CHECK(*feet.read("-18 in") == doctest::Approx(-1.5));
    CHECK(*QuantityReader("").read("7") == 7);
    CHECK(*QuantityReader("").read("7 %") == doctest::Approx(0.07));
    CHECK(refused(feet, "7", lang::Code::C003) == "`--at`: `7` is not a quantity in ft");
    CHECK(refused(feet, "7 ac", lang::Code::C003) == "`--at`: `7 ac` is not a quantity in ft");
    CHECK(refused(feet, "7 foots", lang::Code::C003) == "`--at`: no unit named `foots`");
    CHECK(refused(feet, "7 ft^99", lang::Code::C003) == "`--at`: `ft^99` is not a unit");
    CHECK(refused(feet, "2 * 3 ft", lang::Code::C003) ==
          "`--at`: `2 * 3 ft` is not a number with its unit");
}

TEST_CASE("other money than the firm's is not taken, and the mend says so") {
    const tests::Priced job = tests::priced_ok("model \"m\"\ngiven wage = $30/h\n");
    const QuantityReader reader(job, "$/h");
    CHECK(*reader.read("$31/h") == 31);
    CHECK(*reader.read("31 USD/h") == 31);
    const lang::Outcome<double> read = reader.read("31 EUR/h");
    REQUIRE_FALSE(read);
    const lang::Diagnostic& said = read.said.diagnostics.all().front();
    CHECK(said.code == lang::Code::U314);
    CHECK(said.title == "`31 EUR/h` is in EUR; the money of this firm is USD");
    REQUIRE(said.helps.size() == 1);
    CHECK(said.helps[0].text == "write the amount in that; nothing is converted");
}

TEST_CASE("a question may take as much work as the limit, and no more") {
    CHECK_FALSE(beyond_effort("the search", 0, 0));
    CHECK_FALSE(beyond_effort("the search", 1'000, 1'000));
    const auto beyond = beyond_effort("the search", 1'001, 1'000);
    REQUIRE(beyond);
    CHECK(beyond->code == lang::Code::Q004);
    CHECK(beyond->title == "the search takes 1,001 steps of calculation, more than the limit of "
                           "1,000");
}

} // namespace quantity_test
