// A minimum that is a formula in its price is worked out again from the sealed texts.
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "tests/support/quoted_work.h"

namespace minimum_again_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string disc = "job \"Corner\"\nmodel \"disc-float\"\nseason \"2027\"\n"
                         "set area = 30 ac\nset site.miles = 28 mi\n";

std::int64_t cents(const BillAnswer& bill, const std::string& name) {
    for (const BillLine& line : bill.lines)
        if (line.name == name)
            return line.cents;
    return 0;
}
lang::Outcome<BillAnswer> billed(const tests::QuotedWork& work, const std::string& acres) {
    return work.bill(work.log("date,machine,meter_start,meter_stop,area\n"
                              "2027-08-16,tractor,0,9," +
                              acres + "\n"));
}

} // namespace

// disc-float asks at least $2,500 for discing, or for floating where nothing is disced: by its own
// `when`, which no line of the record has.
TEST_CASE("disc and float is billed where less was measured than quoted") {
    const tests::QuotedWork work(disc);
    const double rate = work.quote.items.at(0).rate;
    // 29.5 acres come to more than the minimum: nothing is added.
    const lang::Outcome<BillAnswer> most = billed(work, "29.5");
    REQUIRE(most.value.has_value());
    CHECK(cents(*most, "discing") == std::llround(29.5 * rate * 100));
    CHECK(cents(*most, "discing.minimum") == 0);
    // Ten do not; floating has no minimum beside it.
    const lang::Outcome<BillAnswer> least = billed(work, "10");
    REQUIRE(least.value.has_value());
    CHECK(cents(*least, "discing") + cents(*least, "discing.minimum") == 250'000);
    CHECK(cents(*least, "floating.minimum") == 0);
    const tests::QuotedWork floated(disc + "set disc_passes = 0\n");
    const lang::Outcome<BillAnswer> alone = billed(floated, "10");
    REQUIRE(alone.value.has_value());
    CHECK(cents(*alone, "floating") + cents(*alone, "floating.minimum") == 250'000);
}

// $40 an acre at the least is in the rate that was quoted: each acre measured has it.
TEST_CASE("a minimum by the unit asks nothing more of fewer units") {
    const std::string model = "model \"Mowing\"\nmoney USD\ngiven area = 20 ac \"acres\"\n"
                              "cost driver : $/ac = $20/ac over area\ncount area\n"
                              "price \"Mowing\" per ac of area\n"
                              "  at least $40/ac\n";
    const tests::QuotedWork work("job \"Meadow\"\nmodel \"mow\"\n", {{"mow.rate", model}});
    const lang::Outcome<BillAnswer> bill = work.bill(work.log("date,area\n2027-08-16,15\n"));
    REQUIRE(bill.value.has_value());
    REQUIRE(bill->lines.size() == 1);
    CHECK(bill->lines[0].cents == 60'000); // 15 ac at $40
}

TEST_CASE("without its texts, or at another price, a formula stops the bill") {
    tests::QuotedWork work(disc);
    work.quote.carried.clear();
    CHECK_FALSE(billed(work, "10").value.has_value());
    tests::QuotedWork other(disc);
    other.quote.price_cents += 100;
    CHECK_FALSE(billed(other, "10").value.has_value());
}

} // namespace minimum_again_test
