// The diesel of a log in what leveling cost.
#include <string>

#include <doctest/doctest.h>

#include "tests/support/quoted_work.h"

namespace diesel_of_works_test {

using namespace acre;
using namespace acre::engine;
using doctest::Approx;
using tests::QuotedWork;
using tests::row_of;

namespace {

const std::string level = tests::bench_job("level", "set area = 80 ac\nset yards = 4,800 cy\n");

} // namespace

TEST_CASE("diesel of a log reaches the cost of leveling, by gallons and by price") {
    const QuotedWork work(level);
    const VarianceAnswer answer =
        work.variance(work.log("date,meter_start,meter_stop,yards,gallons,fuel_price\n"
                               "2027-08-02,0,20,2400,330,4.70\n2027-08-03,20,40,2400,350,5.10\n"));
    CHECK(row_of(answer, "level_diesel").actual_amount == Approx(330 * 4.70 + 350 * 5.10));
    CHECK(row_of(answer, "level_diesel").by_hours.has_value());
    CHECK(row_of(answer, "level_tractor").actual_amount ==
          Approx(40 * work.value("tractor.without_fuel")));
}

} // namespace diesel_of_works_test
