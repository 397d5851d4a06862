// What a crew costs that waits, by the wages of its quote.
#include <string>

#include <doctest/doctest.h>

#include "tests/support/quoted_work.h"

namespace waiting_crew_test {

using namespace acre;
using namespace acre::engine;
using doctest::Approx;
using tests::QuotedWork;
using tests::row_of;

namespace {

const std::string level = tests::bench_job("level", "set area = 80 ac\nset yards = 4,800 cy\n");

} // namespace

TEST_CASE("a crew that waits is paid; where the quote has no wages for it, that is told") {
    const std::string head =
        "date,meter_start,meter_stop,yards,down_hours,down_cause,crew_waited\n";
    const QuotedWork work(level);
    const VarianceAnswer answer =
        work.variance(work.log(head + "2027-08-02,0,20,2400,6,rain,yes\n"));
    CHECK(row_of(answer, "standby_crew").actual_amount ==
          Approx(6 * work.value("crew.grading_operator")));
    CHECK(answer.waited_without_wages == 0);
    const QuotedWork plant(
        "job \"Trees\"\nmodel \"plant\"\nseason \"2027\"\nset site.miles = 28 mi\n"
        "set area = 60 ac\n");
    const VarianceAnswer planting = plant.variance(
        plant.log("date,meter_start,meter_stop,planted_trees,down_hours,down_cause,crew_waited\n"
                  "2027-12-06,0,9,1700,5,grower,yes\n"));
    CHECK(row_of(planting, "standby_crew").actual_amount ==
          Approx(5 * (plant.value("crew.day_operator") + 6 * plant.value("crew.day_labor"))));
    const std::string bare = "model \"Mowing\"\nmoney USD\ngiven area = 20 ac  \"acres\"\n"
                             "cost driver : $/ac = $20/ac over area\ncount area\n"
                             "price \"Mowing\" per ac of area\n";
    const QuotedWork mowing("job \"Meadow\"\nmodel \"mow\"\n", {{"mow.rate", bare}});
    CHECK(mowing
              .variance(mowing.log("date,area,down_hours,down_cause,crew_waited\n"
                                   "2027-08-02,20,6,rain,yes\n"))
              .waited_without_wages == 6);
}

} // namespace waiting_crew_test
