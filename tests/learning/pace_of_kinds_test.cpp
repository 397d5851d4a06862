// What a log of machines of several kinds says of the pace of a job.
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "engine/learning/learn.h"
#include "tests/support/quoted_work.h"

namespace pace_of_kinds_test {

using namespace acre;
using namespace acre::engine;
using tests::QuotedWork;

namespace {

Measure pace(const QuotedWork& work, const std::string& rows) {
    const JobLog log = work.log("date,machine,meter_start,meter_stop,area,trees,gallons\n" + rows);
    Assumptions assumptions;
    double steps = 0;
    const lang::Outcome<FinishedJob> job =
        finished_job("2027-001", work.job(), work.quote.counted, log, assumptions, steps);
    REQUIRE(job.value.has_value());
    for (std::size_t i = 0; i < job->readings.readings.size(); ++i)
        if (job->readings.readings[i].tells == Tells::Pace)
            return job->measures[i];
    FAIL("no pace");
    return {};
}

} // namespace

// The season works out acres over the hours of excavator, grinder and loader together. So must the
// log, whether the rows of the grinder have a zero or nothing.
TEST_CASE("the pace of several machines is what was done in all their hours") {
    const QuotedWork work("job \"Block\"\nmodel \"pull-trees\"\nseason \"2027\"\n"
                          "set site.miles = 28 mi\nset area = 40 ac\n");
    for (const std::string none : {"", "0"}) {
        CAPTURE(none);
        const std::string cells = "," + none + "," + none + ",";
        const std::string pulled = "2027-09-13,Excavator 1,0,24,20,2000,160\n"
                                   "2027-09-14,Excavator 2,0,24,20,2048,160\n";
        const std::string rows = pulled + "2027-09-15,Grinder,0,20" + cells +
                                 "800\n2027-09-16,Loader,0,16" + cells +
                                 "150\n2027-09-17,Loader,16,32" + cells + "150\n";
        const Measure measure = pace(work, rows);
        REQUIRE(measure.known);
        CHECK(measure.value == doctest::Approx(40.0 / (24 + 24 + 20 + 32)));
        CHECK(measure.error == doctest::Approx(0.10 / std::sqrt(5)));
        // Without a row of the loader nobody knows all the hours.
        CHECK_FALSE(pace(work, pulled + "2027-09-15,Grinder,0,20" + cells + "800\n").known);
    }
}

} // namespace pace_of_kinds_test
