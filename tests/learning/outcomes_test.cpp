#include "engine/learning/outcomes.h"

#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/learning/wins.h"

namespace outcomes_test {

using namespace acre;
using namespace acre::engine;

namespace {

// One cost, $10 an acre over 100 acres, and marks as sealed: 5 % at $800 … 95 % at $1,200.
QuoteRecord quote() {
    QuoteRecord quote;
    quote.number = "2027-001";
    quote.title = "By the acre";
    quote.model = "Deep ripping";
    quote.price_cents = 150'000;
    quote.cost_total = 1'000;
    quote.overhead = 100;
    quote.per = "ac";
    quote.per_quantity = 100;
    quote.counted = {{"acres", "ac", Counting::Work, "", 100, {"work"}},
                     {"days", "day", Counting::Days, "", 2, {}}};
    quote.costs = {{"work", "work", "Costs", "$/ac", "ac", 10, 100, 1'000}};
    quote.lines = {{"site.way", "mi", "", 34}};
    quote.risk.trials = 4096;
    quote.risk.spreads = {{"cost",
                           1'000,
                           120,
                           {{0.05, 800},
                            {0.10, 850},
                            {0.25, 925},
                            {0.50, 1'000},
                            {0.75, 1'075},
                            {0.90, 1'150},
                            {0.95, 1'200}}}};
    return quote;
}
JobLog log_of(double acres, double money) {
    JobLog log;
    log.columns = {"acres"};
    LogRow& row = log.rows.emplace_back();
    row.date = "2027-05-03";
    row.counted["acres"] = acres;
    row.amounts["work"] = money;
    return log;
}

} // namespace

TEST_CASE("the cost of a finished job in its sealed marks") {
    // Between $925 (25 %) and $1,000 (50 %): $955 is two fifths of the way, 35 %.
    const CostOutcome middle = place_cost(quote(), log_of(100, 955), "");
    CHECK(middle.why_not.empty());
    CHECK(middle.cost == doctest::Approx(955));
    CHECK(middle.share == doctest::Approx(0.35));
    CHECK(place_cost(quote(), log_of(100, 700), "").below_all);
    CHECK(place_cost(quote(), log_of(100, 1'300), "").above_all);
    CHECK(place_cost(quote(), log_of(50, 500), "").why_not ==
          "its log has 50 % of the work that was quoted");
    CHECK(place_cost(quote(), log_of(100, 955), "change order 2027-001-C1 changed the work")
              .why_not == "change order 2027-001-C1 changed the work");
    QuoteRecord old = quote();
    old.risk = {};
    CHECK(place_cost(old, log_of(100, 955), "").why_not == "no risk was sealed with it");
    old = quote();
    std::erase_if(old.risk.spreads[0].quantiles,
                  [](const RecordQuantile& q) { return q.share == 0.25; });
    CHECK(place_cost(old, log_of(100, 955), "").why_not == "its sealed risk has no mark of 25 %");
    old.risk.spreads[0].quantiles = {{0.05, 800}, {0.95, 1'200}};
    CHECK(place_cost(old, log_of(100, 955), "").why_not == "its sealed risk has no mark of 25 %");
    old = quote();
    old.counted.clear();
    CHECK(place_cost(old, log_of(100, 955), "").why_not ==
          "nothing of quote 2027-001 can be held against a log");
    old = quote();
    old.risk.spreads[0].quantiles = {{0.05, 800}};
    CHECK(place_cost(old, log_of(100, 955), "").why_not == "no risk was sealed with it");
}

TEST_CASE("a cost at a mark lies at it, and at the last one above all") {
    const auto placed = [](double cost) { return place_cost(quote(), log_of(100, cost), ""); };
    CHECK(placed(800).share == doctest::Approx(0.05));
    CHECK_FALSE(placed(800).below_all);
    CHECK(placed(799).share == 0);
    CHECK(placed(1'000).share == doctest::Approx(0.50));
    CHECK(placed(1'175).share == doctest::Approx(0.925)); // half of the way from 90 % to 95 %
    CHECK_FALSE(placed(1'199).above_all);
    CHECK(placed(1'200).share == 1);
    CHECK(placed(1'200).above_all);
    CHECK(placed(955).at_mark[4] == 1'200);
    // A model that counts no work is placed whatever its log says.
    QuoteRecord uncounted = quote();
    uncounted.counted.erase(uncounted.counted.begin());
    CHECK(place_cost(uncounted, log_of(50, 955), "").why_not == "");
}

TEST_CASE("counts below the marks, and when a mark does not fit") {
    std::vector<CostOutcome> jobs;
    for (int i = 0; i < 20; ++i) // all above the median as quoted
        jobs.push_back(place_cost(quote(), log_of(100, 1'010 + i), ""));
    jobs.push_back(place_cost(quote(), log_of(50, 500), ""));
    const OutcomesAnswer answer = outcomes(std::move(jobs), {});
    CHECK(answer.placed == 20);
    CHECK(answer.marks[0].below == 0);
    CHECK(answer.marks[0].fits); // one in twenty was expected
    CHECK(answer.marks[2].below == 0);
    CHECK_FALSE(answer.marks[2].fits);
    CHECK(answer.marks[3].below == 20);
    CHECK_FALSE(answer.marks[3].fits);
    CHECK(answer.marks[4].fits);
}

TEST_CASE("a swing is too narrow when too many jobs fall outside of it") {
    FinishedJob job;
    Reading& reading = job.readings.readings.emplace_back();
    reading.tells = Tells::Burn;
    reading.name = "gallons";
    for (int i = 0; i <= 100; ++i)
        reading.range.push_back(40 + i / 100.0); // 40 to 41 gal/h
    reading.moved_by = {"crawler.load"};
    job.measures.push_back({true, 42, 0.01, 80, 0, 0});
    const std::vector<FinishedJob> one(1, job), four(4, job);
    CHECK_FALSE(outcomes({}, one).swings.at(0).too_narrow);
    // Four of four: at least 0.05^(1/4), 47 %, are outside.
    CHECK(outcomes({}, four).swings.at(0).above == 4);
    CHECK(outcomes({}, four).swings.at(0).outside.low == doctest::Approx(0.4729).epsilon(0.001));
    CHECK(outcomes({}, four).swings.at(0).too_narrow);
    CHECK(outcomes({}, four).swings.at(0).moved_by == std::vector<std::string>{"crawler.load"});
}

TEST_CASE("what wins, by band") {
    const DecidedQuote one = decided_quote(quote(), true);
    CHECK(one.price == doctest::Approx(15));
    CHECK(one.margin == doctest::Approx(400.0 / 1'500));
    CHECK(one.distance == 34);
    CHECK(one.size == 100);
    // Another option was taken: at its price, and nobody knows what it would have cost.
    QuoteRecord several = quote();
    RecordItem rows;
    rows.per = several.per;
    rows.quantity = 80;
    several.options = {{"rows", 96'000, {rows}}};
    CHECK(decided_quote(several, true).price == doctest::Approx(15));
    CHECK(decided_quote(several, true, "rows").price == doctest::Approx(12));
    CHECK(decided_quote(several, true, "rows").size == 80);
    CHECK(std::isnan(decided_quote(several, true, "rows").margin));
    CHECK(wins(std::vector<DecidedQuote>(7, one)).tables[0].bands.empty()); // too few for two bands
    std::vector<DecidedQuote> eight(8, one);
    for (int i = 0; i < 8; ++i)
        eight[static_cast<std::size_t>(i)].price = 10 + i;
    REQUIRE(wins(eight).tables[0].bands.size() == 2);
    CHECK(wins(eight).tables[0].bands[0].high == 13);
    QuoteRecord small = quote();
    small.per_quantity = 0.8; // of an acre
    CHECK(decided_quote(small, true).price == doctest::Approx(1'875));
    // Sixteen quotes: the cheap half all won, the dear half all lost; as far away, as large.
    std::vector<DecidedQuote> quotes;
    for (int i = 0; i < 16; ++i) {
        DecidedQuote next = one;
        next.price = 10 + i;
        next.won = i < 8;
        quotes.push_back(next);
    }
    const WinsAnswer answer = wins(quotes);
    CHECK(answer.won == 8);
    CHECK(answer.quotes == 16);
    // Wilson's interval of 8 of 16: 1/2 ± z √(16 / 4 + z² / 4) / (16 + z²), z = 1.6449 for 90 %.
    const double z = 1.6448536269514722;
    CHECK(answer.share.high - 0.5 ==
          doctest::Approx(z * std::sqrt(4 + z * z / 4) / (16 + z * z)).epsilon(1e-6));
    CHECK(answer.share.low + answer.share.high == doctest::Approx(1));
    REQUIRE(answer.tables[0].bands.size() == 4);
    CHECK(answer.tables[0].bands[0].quotes == 4);
    CHECK(answer.tables[0].bands[0].won == 4);
    CHECK(answer.tables[0].bands[3].won == 0);
    CHECK(answer.tables[0].says_something);
    CHECK(answer.tables[0].difference.low > 0);
    CHECK(answer.tables[2].bands.empty()); // all 34 miles: one band is none
    CHECK(answer.quotes_of_it == 16);
    // Eight cheap acres that were disced, all won: nothing of what ripping wins at.
    for (int i = 0; i < 8; ++i) {
        DecidedQuote next = one;
        next.work = "Disc and float";
        next.price = 1;
        next.size = 10;
        quotes.push_back(next);
    }
    const WinsAnswer mixed = wins(quotes);
    CHECK(mixed.quotes == 24);
    CHECK(mixed.work == "Deep ripping");
    CHECK(mixed.quotes_of_it == 16);
    CHECK(mixed.tables[0].of == "Deep ripping");
    CHECK(mixed.tables[0].without == 8);
    CHECK(mixed.tables[0].bands[0].low == 10);
    CHECK(mixed.tables[1].without == 0);
    CHECK(mixed.tables[1].of.empty());
    CHECK(mixed.tables[3].without == 8);
}

} // namespace outcomes_test
