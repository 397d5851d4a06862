#include "engine/questions/variance.h"

#include <cmath>
#include <string>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "lang/diag/codes.h"

namespace variance_test {

using namespace acre;
using namespace acre::engine;

namespace {

// Machine hours, acres, gallons and days, as most models count them.
std::vector<CountedLine> usual(double hours, double acres) {
    return {{"machine_hours", "h", Counting::Meter, "crawler", hours, {}},
            {"acres", "ac", Counting::Work, "", acres, {}},
            {"gallons", "gal", Counting::Fuel, "", 0, {}},
            {"days", "day", Counting::Days, "", 0, {}}};
}
std::optional<JobLog> read(const std::string& text, std::string* code = nullptr,
                           std::uint32_t* line = nullptr,
                           const std::vector<CountedLine>& counted = usual(1, 1)) {
    const lang::Outcome<JobLog> log = read_job_log("log.csv", text, counted);
    const std::vector<lang::Diagnostic>& said = log.said.diagnostics.all();
    if (code != nullptr && !said.empty()) {
        *code = std::string(lang::name_of(said[0].code));
        const lang::Span at = said[0].primary.span;
        if (line != nullptr)
            *line = log.said.sources->file(at.file).position(at.begin).line;
    }
    return log.value;
}
JobLog must_read(const std::string& text, const std::vector<CountedLine>& counted = usual(1, 1)) {
    const std::optional<JobLog> log = read(text, nullptr, nullptr, counted);
    REQUIRE(log);
    return *log;
}
VarianceAnswer variance(const Quoted& quoted, const JobLog& log) {
    const lang::Outcome<VarianceAnswer> answer = ask(quoted, log);
    REQUIRE(answer.value.has_value());
    return *answer;
}
const std::string head = "date,machine,meter_start,meter_stop,acres,gallons,fuel_price,down_hours,"
                         "down_cause,amount.steel\n";

} // namespace

TEST_CASE("a log is read, quoted cells and money included") {
    const JobLog log = must_read(
        head + "2027-03-01,\"Walt, old\",100.0,110.5,9.4,455,$4.10,1.5,parts,\"$1,400.50\"\r\n"
               "\r\n2027-03-02,\"Walt, old\",110.5,120.5,10.1,445,4.30,,,\n");
    REQUIRE(log.rows.size() == 2);
    CHECK(log.rows[0].machine == "Walt, old");
    const LogTotals sum = totals(log);
    CHECK(sum.days == 2);
    CHECK(sum.hours == doctest::Approx(20.5));
    CHECK(sum.counted.at("gallons") == doctest::Approx(900));
    CHECK(sum.counted.at("acres") == doctest::Approx(19.5));
    CHECK(sum.fuel_price == doctest::Approx((455 * 4.10 + 445 * 4.30) / 900));
    CHECK(sum.amounts.at("steel") == doctest::Approx(1400.50));
    CHECK(sum.down.at("parts") == doctest::Approx(1.5));
}

TEST_CASE("a bad log is an error with its row") {
    struct {
        std::string text, code;
        std::uint32_t line;
    } const cases[] = {
        {"", "J001", 1},
        {"date,meter_start,meter_stop,acres\n", "J001", 1},
        {"date,meter_start,meter_stop\n2027-01-01,1,2\n", "J001", 1},
        {"date,meter_start,meter_stop,acres,colour\n2027-01-01,1,2,3,red\n", "J001", 1},
        {"date,date,meter_start,meter_stop,acres\n2027-01-01,2027-01-01,1,2,3\n", "J001", 1},
        {"date,meter_start,meter_stop,acres\n2027-01-01,1,2,\"3\n", "J001", 3},
        {"date,meter_start,meter_stop,acres\n2027-01-01,1,2,x\n", "J002", 2},
        {"date,meter_start,meter_stop,acres\n2027-01-01,1,2,nan\n", "J002", 2},
        {"date,meter_start,meter_stop,acres\n2027-01-01,1,2,-3\n", "J002", 2},
        {"date,meter_start,meter_stop,acres\n2027-01-01,1,2,3,4\n", "J002", 2},
        {"date,meter_start,meter_stop,acres\n2027-02-29,1,2,3\n", "J003", 2},
        {"date,meter_start,meter_stop,acres\n,1,2,3\n", "J003", 2},
        {"date,meter_start,meter_stop,acres\n2027-01-01,2,1,3\n", "J004", 2},
        {"date,meter_start,meter_stop,acres\n2027-01-01,2,,3\n", "J004", 2},
        {"date,meter_start,meter_stop,acres\n2027-01-01,10,40,3\n", "J004", 2},
        {"date,meter_start,meter_stop,acres\n2027-01-01,10,20,3\n2027-01-02,19,25,3\n", "J004", 3},
        {"date,machine,meter_start,meter_stop,acres\n2027-01-01,Hazel,10,20,3\n2027-01-01,HAZEL,10,"
         "20,3\n",
         "J004", 3},
        {"date,machine,meter_start,meter_stop,acres\n2027-01-01,Hazel,10,20,3\n2027-01-01,,10,20,"
         "3\n",
         "J004", 3},
    };
    for (const auto& [text, code, line] : cases) {
        CAPTURE(text);
        std::string got;
        std::uint32_t at = 0;
        CHECK(!read(text, &got, &at));
        CHECK(got == code);
        CHECK(at == line);
    }
}

TEST_CASE("price and quantity parts are those of published examples") {
    // Direct materials of a managerial-accounting exercise printed with its answer (qammunity.org
    // 8059627): standard 185,000 lb at $6.00, actual 183,200 lb at $5.80: price -36,640, quantity
    // -10,800, total -47,440.
    Quoted quoted;
    quoted.counted = usual(1, 1);
    quoted.costs = {{"material", "", "", "$/gal", "gal", 6.00, 185'000}};
    VarianceAnswer result =
        variance(quoted, must_read("date,meter_start,meter_stop,acres,gallons,fuel_"
                                   "price\n2027-01-01,0,1,1,183200,5.80\n"));
    CHECK(result.rows[0].by_rate == doctest::Approx(-36'640));
    CHECK(result.rows[0].by_quantity == doctest::Approx(-10'800));
    CHECK(result.actual_cost - result.quoted_cost == doctest::Approx(-47'440));
    // Exercise 23-5 printed with its answer (accountingqa.blogspot.com, November 2018): standard
    // 430 units at $6.90, actual 450 units for $2,925: price -180, quantity +138, total -42.
    quoted.costs = {{"steel", "", "", "$/gal", "gal", 6.90, 430}};
    result = variance(quoted, must_read("date,meter_start,meter_stop,acres,gallons,amount."
                                        "steel\n2027-01-01,0,1,1,450,\"$2,925\"\n"));
    CHECK(result.rows[0].by_rate == doctest::Approx(-180));
    CHECK(result.rows[0].by_quantity == doctest::Approx(138));
}

TEST_CASE("fuel falls into hours, burn and price, adding up exactly") {
    Quoted quoted;
    quoted.counted = usual(150, 150);
    quoted.price = 120'000;
    quoted.overhead = 3'000;
    quoted.costs = {{"fuel", "", "", "$/gal", "gal", 4.00, 4'950},
                    {"operators", "", "", "$/h", "h", 60, 150},
                    {"move", "", "", "$/move", "move", 5'000, 1},
                    {"lowbed", "", "Move", "$/h", "h", 170, 8}};
    const VarianceAnswer result =
        variance(quoted, must_read("date,meter_start,meter_stop,acres,gallons,fuel_price\n"
                                   "2027-01-01,0,20,18,700,4.20\n2027-01-02,20,40,21,760,4."
                                   "20\n2027-01-03,40,60,19,720,4.20\n"));
    const VarianceRow& fuel = result.rows[0];
    // hours 150 to 60, burn 33 to 36.333…, price 4.00 to 4.20; each at what stands before it in the
    // list is already actual
    CHECK(*fuel.by_hours == doctest::Approx((60.0 - 150) * 33 * 4));
    CHECK(*fuel.by_burn == doctest::Approx(60 * (2180 / 60.0 - 33) * 4));
    CHECK(fuel.by_rate == doctest::Approx(2180 * 0.20));
    CHECK(*fuel.by_hours + *fuel.by_burn + fuel.by_rate ==
          doctest::Approx(fuel.actual_amount - fuel.quoted_amount).epsilon(1e-14));
    CHECK(result.rows[1].quantity == doctest::Approx(60));
    CHECK(result.rows[1].by_rate == doctest::Approx(0));
    CHECK(result.rows[2].by_quantity == 0);
    CHECK(result.rows[3].by_quantity ==
          0); // the hours of a truck in another part are not the machine's
    const double quoted_left = 120'000 - 19'800 - 9'000 - 5'000 - 1'360;
    CHECK(result.quoted_contribution() == doctest::Approx(quoted_left));
    CHECK(result.quoted_profit() == doctest::Approx(quoted_left - 3'000));
    // Fuel cost 2,180 gal at $4.20, operators 60 h at $60: overhead stays as quoted.
    CHECK(result.actual_profit() ==
          doctest::Approx(120'000 - 2'180 * 4.20 - 3'600 - 5'000 - 1'360 - 3'000));
}

TEST_CASE("hours in another part are the machine's only if they are as many") {
    std::string days = "date,meter_start,meter_stop,acres\n"; // 200 hours in ten days
    for (int day = 0; day < 10; ++day)
        days += fmt::format("2027-01-{:02},{},{},15\n", day + 1, 20 * day, 20 * day + 20);
    for (const double hours : {150.0, 149.0, 150.001}) {
        Quoted quoted;
        quoted.counted = usual(150, 150);
        quoted.costs = {{"operators", "", "", "$/h", "h", 60, 150},
                        {"loader", "", "Cleanup", "$/h", "h", 90, hours}};
        const VarianceAnswer result = variance(quoted, must_read(days));
        CHECK(result.rows[0].by_quantity == doctest::Approx(50 * 60));
        CHECK(result.rows[1].by_quantity == doctest::Approx(hours == 150 ? 50 * 90 : 0));
    }
}

TEST_CASE("a learned ratio has the error of the ratio estimator") {
    // By hand: ratio 58/60; residuals of the days 18 - 19.333…, 21 - 19.333…, 19 - 19.333…; sum of
    // squares 4.6667.
    const Learned pace = learned_per_hour(
        must_read("date,meter_start,meter_stop,acres\n2027-01-01,0,20,18\n2027-01-02,"
                  "20,40,21\n2027-01-03,40,60,19\n"),
        "acres");
    CHECK(pace.days == 3);
    CHECK(pace.value == doctest::Approx(58.0 / 60));
    CHECK(pace.standard_error == doctest::Approx(std::sqrt(4.666666667 / 6) / 20));
    CHECK(learned_per_hour(must_read("date,meter_start,meter_stop,acres\n2027-01-01,0,20,18\n"),
                           "acres")
              .standard_error == 0);
}

TEST_CASE("money spent on a cost the quote does not have is told") {
    Quoted quoted;
    quoted.counted = usual(1, 1);
    const VarianceAnswer result = variance(
        quoted, must_read("date,meter_start,meter_stop,acres,amount.gate\n2027-01-01,0,1,1,50\n"));
    CHECK(result.unknown_costs == std::vector<std::string>{"gate"});
}

TEST_CASE("a quote whose model counts nothing cannot be held against a log") {
    Quoted quoted;
    quoted.quote = "2027-007";
    quoted.costs = {{"tips", "", "", "$/ac", "ac", 2, 3}};
    const lang::Outcome<VarianceAnswer> refused = ask(quoted, JobLog{});
    REQUIRE(!refused);
    CHECK(lang::name_of(refused.said.diagnostics.all()[0].code) == "Q001");
}

TEST_CASE("the log has a column for what the job counts, by its name, and needs no other") {
    const std::vector<CountedLine> trees = {{"trees", "tree", Counting::Work, "", 400, {"pulling"}},
                                            {"move.truck_hours", "h", Counting::Work, "", 9, {}}};
    std::string code;
    CHECK(!read("date,stumps\n2027-01-01,40\n", &code, nullptr, trees));
    CHECK(code == "J001");
    CHECK(!read("date,note\n2027-01-01,wet\n", &code, nullptr, trees)); // its own work is missing
    CHECK(code == "J001");
    const JobLog log =
        must_read("date,trees,move.truck_hours\n2027-01-01,240,\n2027-01-02,260,7.5\n", trees);
    Quoted quoted;
    quoted.counted = trees;
    quoted.costs = {{"pulling", "", "Pulling", "$/tree", "tree", 6, 400},
                    {"hands", "", "Pulling", "$/h", "h", 30, 20},
                    {"stakes", "", "Pulling", "$/tree", "tree", 1, 800}};
    const VarianceAnswer answer = variance(quoted, log);
    CHECK(answer.rows[0].quantity == 500);                   // what the log counts
    CHECK(answer.rows[1].quantity == 20);                    // hours that no meter tells
    CHECK(answer.rows[2].quantity == doctest::Approx(1000)); // two a tree, as quoted
    CHECK(answer.log.days == 2);
    REQUIRE(answer.counted.size() == 2);
    CHECK(answer.counted[1].logged == doctest::Approx(7.5));
    CHECK(!answer.counted[0].per_hour); // no machine hours to hold it against
}

TEST_CASE("of two machines each cost follows the hours of its own, where the log names them") {
    const std::vector<CountedLine> two = {
        {"first_hours", "h", Counting::Meter, "crawler", 100, {"first"}},
        {"second_hours", "h", Counting::Meter, "second", 50, {"second"}}};
    Quoted quoted;
    quoted.counted = two;
    quoted.costs = {{"first", "", "Ripping", "$/h", "h", 200, 100},
                    {"second", "", "Ripping", "$/h", "h", 150, 50},
                    {"mechanic", "", "Ripping", "$/h", "h", 20, 30}};
    const VarianceAnswer named =
        variance(quoted, must_read("date,machine,meter_start,meter_stop\n2027-01-01,crawler,0,20\n"
                                   "2027-01-02,crawler,20,40\n2027-01-01,second,0,15\n",
                                   two));
    CHECK(named.rows[0].quantity == doctest::Approx(40));
    CHECK(named.rows[1].quantity == doctest::Approx(15));
    CHECK(named.rows[2].quantity == doctest::Approx(30.0 * 55 / 150));
    // A log that calls them otherwise tells the hours of both together.
    const VarianceAnswer together =
        variance(quoted, must_read("date,machine,meter_start,meter_stop\n2027-01-01,Hazel,0,20\n"
                                   "2027-01-02,Hazel,20,40\n2027-01-01,Walt,0,15\n",
                                   two));
    CHECK(together.rows[0].quantity == doctest::Approx(100.0 * 55 / 150));
    CHECK(together.rows[1].quantity == doctest::Approx(50.0 * 55 / 150));
    // No hour is lost for a name that is misspelled or missing: it is shared out as quoted, 100 to
    // 50. Where the log names one of the two, all others are hours of the other.
    for (const std::string name : {"secnd", ""}) {
        const VarianceAnswer misspelled = variance(
            quoted, must_read("date,machine,meter_start,meter_stop\n2027-01-01,crawler,0,20\n"
                              "2027-01-02,second,20,40\n2027-01-01," +
                                  name + ",0,15\n",
                              two));
        CHECK(misspelled.rows[0].quantity == doctest::Approx(30));
        CHECK(misspelled.rows[1].quantity == doctest::Approx(25));
    }
    const VarianceAnswer other =
        variance(quoted, must_read("date,machine,meter_start,meter_stop\n2027-01-01,crawler,0,20\n"
                                   "2027-01-01,Walt,0,15\n",
                                   two));
    CHECK(other.rows[0].quantity == doctest::Approx(20));
    CHECK(other.rows[1].quantity == doctest::Approx(15));
}

TEST_CASE("parts that share a machine's hours between them follow it") {
    // 10 h of discing and 6 h of floating are the tractor's 16 h; 3 h of a truck are not.
    const std::vector<CountedLine> tractor = {
        {"tractor_hours", "h", Counting::Meter, "tractor", 16, {}}};
    Quoted quoted;
    quoted.counted = tractor;
    quoted.costs = {{"disc_tractor", "", "Discing", "$/h", "h", 100, 10},
                    {"disc_operator", "", "Discing", "$/h", "h", 40, 10},
                    {"float_tractor", "", "Floating", "$/h", "h", 100, 6},
                    {"truck", "", "Move", "$/h", "h", 90, 3}};
    const JobLog log = must_read("date,meter_start,meter_stop\n2027-01-01,0,20\n", tractor);
    const VarianceAnswer answer = variance(quoted, log);
    CHECK(answer.rows[0].quantity == doctest::Approx(12.5));
    CHECK(answer.rows[1].quantity == doctest::Approx(12.5));
    CHECK(answer.rows[2].quantity == doctest::Approx(7.5));
    CHECK(answer.rows[3].as_quoted());
    // Where 6 h of a truck would do as well nobody knows which they are.
    quoted.costs[3].quantity = 6;
    CHECK(variance(quoted, log).rows[0].as_quoted());
}

TEST_CASE("costs of a part follow the machine whose hours they are") {
    const std::vector<CountedLine> two = {{"pulling", "h", Counting::Meter, "excavator", 26, {}},
                                          {"grinding", "h", Counting::Meter, "grinder", 17, {}},
                                          {"loading", "h", Counting::Meter, "loader", 33, {}}};
    Quoted quoted;
    quoted.counted = two;
    quoted.costs = {{"excavators", "", "Pulling", "$/h", "h", 108, 26},
                    {"grinders", "", "Grinding", "$/h", "h", 600, 17},
                    {"spreaders", "", "Spreading", "$/h", "h", 130, 16}};
    const VarianceAnswer answer =
        variance(quoted, must_read("date,machine,meter_start,meter_stop\n"
                                   "2027-01-01,excavator,0,20\n2027-01-02,excavator,20,39\n"
                                   "2027-01-03,grinder,0,17\n2027-01-03,loader,0,22\n",
                                   two));
    CHECK(answer.rows[0].quantity == doctest::Approx(39));
    CHECK(answer.rows[1].quantity == doctest::Approx(17));
    // The loader's hours without those in which it feeds the grinder: 22 less 17, 33 less 17
    // quoted.
    CHECK(answer.rows[2].quantity == doctest::Approx(22 - 17));
}

} // namespace variance_test
