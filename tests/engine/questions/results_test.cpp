// What finished jobs made together: sums of what variance says of each, reckoned by hand.
#include "engine/questions/results.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace results_test {

using namespace acre::engine;

namespace {

VarianceRow row(const std::string& name, const std::string& label, double quoted, double actual,
                double by_rate) {
    VarianceRow out;
    out.quoted = {name, label, "", "$/h", "h", 1, quoted};
    out.from.log = actual != quoted;
    out.quoted_amount = quoted;
    out.actual_amount = actual;
    out.by_rate = by_rate;
    out.by_quantity = actual - quoted - by_rate;
    return out;
}

VarianceAnswer job(const std::string& quote, double price, double income,
                   std::vector<VarianceRow> rows) {
    VarianceAnswer out;
    out.quote = quote;
    out.price = price;
    out.income = income;
    out.overhead = 100;
    for (const VarianceRow& one : rows) {
        out.quoted_cost += one.quoted_amount;
        out.actual_cost += one.actual_amount;
    }
    out.rows = std::move(rows);
    return out;
}

} // namespace

TEST_CASE("finished jobs, least profit first, and their costs, most over first") {
    VarianceRow diesel = row("fuel", "diesel", 300, 420, 20);
    diesel.by_hours = 70;
    diesel.by_burn = 30;
    const ResultsAnswer answer =
        results({job("a", 1'000, 1'050, {row("wages", "", 200, 200, 0), diesel}),
                 job("b", 900, 700,
                     {row("hazel.fuel", "Hazel: diesel", 250, 260, 0),
                      row("walt.fuel", "Walt: diesel", 100, 90, -5),
                      row("tips", "tips", 50, 400, 350), row("none", "none", 0, 0, 0)})});
    REQUIRE(answer.jobs.size() == 2);
    CHECK(answer.jobs[0].quote == "b"); // 700 - 750 - 100 = -150; a: 1,050 - 620 - 100 = 330
    CHECK(answer.losses == 1);
    CHECK(answer.quoted_profit() == doctest::Approx(1'900 - 900 - 200));
    CHECK(answer.actual_profit() == doctest::Approx(330 - 150));
    REQUIRE(answer.costs.size() == 3);
    CHECK(answer.costs[0].label == "tips");
    CHECK(answer.costs[1].label == "diesel"); // of both jobs and every machine
    CHECK(answer.costs[1].jobs == 2);
    CHECK(answer.costs[1].quoted == doctest::Approx(650));
    CHECK(answer.costs[1].actual == doctest::Approx(770));
    CHECK(answer.costs[1].by_rate == doctest::Approx(15));
    CHECK(answer.costs[1].by_quantity == doctest::Approx(105));
    CHECK(answer.costs[2].label == "wages");
    CHECK(answer.by_hours == doctest::Approx(70));
    CHECK(answer.by_burn == doctest::Approx(30));
    CHECK(answer.by_fuel_price == doctest::Approx(20));
    CHECK(answer.as_quoted == doctest::Approx(200));
}

TEST_CASE("nothing finished made nothing") {
    const ResultsAnswer answer = results({});
    CHECK(answer.jobs.empty());
    CHECK(answer.costs.empty());
    CHECK(answer.actual_profit() == 0);
}

} // namespace results_test
