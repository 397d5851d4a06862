// Moves from ranch to ranch, by hand.
#include "engine/questions/season/chain.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

namespace chain_test {

using namespace acre::engine;

namespace {

Season two_jobs(long between) {
    std::vector<SeasonJob> jobs(2);
    jobs[0].file = "north/a.job";
    jobs[0].title = "a";
    jobs[0].earliest = 20'940;
    jobs[1].file = "north/b.job";
    jobs[1].title = "b";
    jobs[1].earliest = 20'950 + between;
    for (SeasonJob& job : jobs) {
        job.days = 10;
        job.price = 10'000;
        job.uses = {{"crawler", 1, 100, {}}};
    }
    return season(jobs, {{"crawler", "", 100'000, 2'000, false}}, SeasonQuestion{});
}

// Both ways $10,000 and $8,000 of it cost; in alone $7,000 and $5,600; in from the other ranch
// $5,000 and $4,200.
std::optional<MoveMoney> money(std::size_t, const GivenSets& sets) {
    const bool road = std::any_of(
        sets.begin(), sets.end(), [](const auto& set) { return set.first == "site.miles"; });
    const bool once = std::any_of(sets.begin(), sets.end(), [](const auto& set) {
        return set.first == "moves" && set.second == "1";
    });
    return road   ? MoveMoney{5'000, 4'200}
           : once ? MoveMoney{7'000, 5'600}
                  : MoveMoney{10'000, 8'000};
}
MoveChain chain_of(Season season, const char* text, const Reprice& reprice = money) {
    const auto roads = read_roads(text, "roads.csv");
    REQUIRE(roads);
    return chain(season, {}, *price_roads(season.jobs, *roads, "moves", reprice));
}

} // namespace

TEST_CASE("a crawler that goes on saves the way home and the way in from the yard") {
    const MoveChain result = chain_of(two_jobs(2), "from,to,site.miles\na,b,3 mi\n");
    REQUIRE(result.jobs.size() == 2);
    CHECK(result.jobs[0].before == 1);
    CHECK(result.jobs[0].chained.price == 7'000);
    CHECK(result.jobs[1].after == 0);
    CHECK(result.jobs[1].chained.price == 8'000); // in by the road, and home
    CHECK(result.cost_saved == doctest::Approx(2'400 + 1'400));
    CHECK(result.charged_less == doctest::Approx(3'000 + 2'000));
    CHECK(result.why_not.empty());
}

TEST_CASE("nothing is chained without a road, after a month, or where moves are set already") {
    const char* there = "from,to,site.miles\na,b,3 mi\n";
    Season fixed = two_jobs(2);
    fixed.plan->last_day = 0; // no day is left to put b before a
    CHECK(chain_of(fixed, "from,to,site.miles\nb,a,3 mi\n").jobs.empty());
    CHECK(chain_of(two_jobs(30), there).jobs.size() == 2);
    const MoveChain late = chain_of(two_jobs(31), there);
    CHECK(late.jobs.empty());
    CHECK(late.why_not == std::vector<std::string>{
                              "\"a\" to \"b\": 31 days lie between them, and a machine waits 30 "
                              "at a ranch at most"});
    Season paid = two_jobs(2);
    paid.jobs[0].price = 7'000;
    const MoveChain set_already = chain_of(paid, there);
    CHECK(set_already.jobs.empty());
    CHECK(
        set_already.why_not ==
        std::vector<std::string>{"\"a\" to \"b\": one of them does not pay two moves by `moves`"});
    CHECK_FALSE(
        price_roads(two_jobs(2).jobs, *read_roads(there, "roads.csv"), "moves",
                    [](std::size_t, const GivenSets&) { return std::optional<MoveMoney>(); }));
}

TEST_CASE("jobs are put where a road saves, and are told by the day on which they start") {
    // On the crawler a, then b, then c by their dates; on the rig d and e beside them.
    std::vector<SeasonJob> jobs(5);
    const long starts[] = {20'940, 20'946, 20'952, 20'940, 20'946};
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        jobs[i].title = std::string(1, static_cast<char>('a' + i));
        jobs[i].file = jobs[i].title + ".job";
        jobs[i].earliest = starts[i];
        jobs[i].days = 5;
        jobs[i].price = 10'000;
        jobs[i].uses = {{i < 3 ? "crawler" : "rig", 1, 40, {}}};
    }
    Season told = season(jobs, {}, SeasonQuestion{});
    const auto roads = read_roads("from,to,site.miles\na,c,3 mi\nd,e,3 mi\n", "roads.csv");
    REQUIRE(roads);
    REQUIRE(told.plan);
    told.plan->last_day = 20'999;
    const auto priced = price_roads(told.jobs, *roads, "moves", money);
    REQUIRE(priced);
    const MoveChain result = chain(told, {}, *priced);
    CHECK(told.plan->by_roads); // b waits for c
    std::string order;
    for (const ChainedJob& job : result.jobs)
        order += told.jobs[job.job].title;
    CHECK(order == "adec"); // two on the first day, as they stand in the season; c last
    CHECK(result.cost_saved == doctest::Approx(2 * (2'400 + 1'400)));
}

TEST_CASE("of rows that say one road the first counts; roads from and to a job are several") {
    std::vector<SeasonJob> jobs(4);
    const char* files[] = {"north/a.job", "b.job", "quote 2027-004", "c.job"};
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        jobs[i].file = files[i];
        jobs[i].price = 10'000;
    }
    std::vector<std::string> asked; // the ways in
    const Reprice reprice = [&](std::size_t job, const GivenSets& sets) {
        for (const auto& [name, value] : sets)
            if (name == "site.miles")
                asked.push_back(value);
        return money(job, sets);
    };
    const auto roads = read_roads("from,to,site.miles\na,b,3 mi\na,b,4 mi\nc,b,5 mi\n"
                                  "a,2027-004,6 mi\nb,a,7 mi\na,a,8 mi\na,d,9 mi\nd,a,9 mi\n"
                                  "c,b,9 mi\n",
                                  "roads.csv");
    REQUIRE(roads);
    const auto priced = price_roads(jobs, *roads, "moves", reprice);
    REQUIRE(priced);
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    for (const PricedRoad& road : *priced)
        pairs.emplace_back(road.from, road.to);
    CHECK(pairs ==
          std::vector<std::pair<std::size_t, std::size_t>>{{0, 1}, {3, 1}, {0, 2}, {1, 0}});
    CHECK(asked == std::vector<std::string>{"3 mi", "5 mi", "6 mi", "7 mi"});
    // In from the yard cost $5,600, home $2,400; in from the other ranch $4,200.
    CHECK(priced->at(0).way_home.cost == doctest::Approx(2'400));
    CHECK(priced->at(0).way_in.cost == doctest::Approx(1'400));
    CHECK(priced->at(0).saved() == doctest::Approx(3'800));
}

TEST_CASE("a file of roads that is none is told") {
    for (const char* text :
         {"", "to,from,site.miles\na,b,3 mi\n", "from,to\na,b\n", "from,to,site.miles\na,b\n",
          "from,to,site.miles\na,,3 mi\n", "from,to,site.miles\na,b,\n", "from,to,\"site\n"})
        CHECK_FALSE(read_roads(text, "roads.csv"));
    CHECK(read_roads("from,to,site.miles,site.counties\na,b,3 mi,1\n", "roads.csv")->at(0).way_in ==
          GivenSets{{"site.miles", "3 mi"}, {"site.counties", "1"}});
}

} // namespace chain_test
