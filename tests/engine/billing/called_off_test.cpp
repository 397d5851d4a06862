// Work that a change order took off the job is no line of its bill.
#include <string>

#include <doctest/doctest.h>

#include "tests/support/quoted_work.h"

namespace called_off_test {

using namespace acre;
using namespace acre::engine;
using tests::QuotedWork;

TEST_CASE("what the quote has nothing of is not billed as measured") {
    const std::string job = "job \"Block\"\nmodel \"disc-float\"\nseason \"2027\"\n"
                            "set site.miles = 28 mi\nset area = 60 ac\n";
    const auto titles = [](const QuotedWork& work) {
        std::string all;
        const lang::Outcome<BillAnswer> bill = work.bill(
            work.log("date,machine,meter_start,meter_stop,area\n2027-08-16,tractor,0,20,60\n"));
        REQUIRE(bill.value.has_value());
        for (const BillLine& line : bill->lines)
            all += line.title + "; ";
        return all;
    };
    CHECK(titles(QuotedWork(job)) == "Discing; Floating; Move in and out; ");
    CHECK(titles(QuotedWork(job + "set float_passes = 0\n")) == "Discing; Move in and out; ");
    CHECK(titles(QuotedWork(job + "set disc_passes = 0\n")) == "Floating; Move in and out; ");
}

} // namespace called_off_test
