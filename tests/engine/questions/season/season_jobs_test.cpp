// Jobs read for a season: the fast way and the whole way say the same, and what cannot be read is
// told.
#include "engine/questions/season/season_jobs.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <string>

#include "tests/support/memory_loader.h"

namespace season_jobs_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string crawler = "model \"crawler\"\ngiven paid = $230,000/yr\n"
                            "given hours_per_year = 2,300 h/yr\n"
                            "fixed_per_year : $/yr = paid\n"
                            "own_per_hour : $/h = paid / hours_per_year\n"
                            "fleet costs fixed_per_year over hours_per_year\n";
const std::string ripping = "model \"ripping\"\nuse \"crawler\"\n"
                            "given area = 10 ac  within 1 ac .. 500 ac  swing 5 ac .. 450 ac\n"
                            "given method = one_way | both\n"
                            "given pace = 2 ac/h  swing 79 % .. 121 % of it\n"
                            "require pace > 1.7 ac/h  \"too slow to bid on\"\n"
                            "hours : h = area * (when method is both then 2 otherwise 1) / pace\n"
                            "days : day = ceil(hours / 8 h * 1 day, 1 day)\n"
                            "cost own : $/h = crawler.own_per_hour over hours\n"
                            "count hours of crawler, area, days\n"
                            "price \"Ripping\" per ac of area\n  margin 20 %\n";

SeasonJobs reader() {
    return SeasonJobs([](const std::string&) {
        return std::make_unique<tests::MemoryLoader>(
            tests::Files{{"crawler.rate", crawler}, {"ripping.rate", ripping}});
    });
}
std::string job(const std::string& title, const std::string& rest) {
    return "job \"" + title + "\"\nmodel \"ripping\"\n" + rest;
}

} // namespace

TEST_CASE("jobs that set the same givens share a plan, and come to what they come to alone") {
    SeasonJobs together = reader();
    const std::string sets[] = {"date 2027-05-01\nset area = 40 ac\nset method = both\n",
                                "date 2027-06-01\nset area = 60 ac\nset method = one_way\n"
                                "note \"by the second gate\"\n: place = \"Block 4\"\n",
                                "date 2027-07-01\nset area = 17,424,000 ft^2\nset method = both\n"};
    for (const std::string& set : sets)
        CHECK_FALSE(together.add("a.job", job("a", set)).diagnostics.has_errors());
    CHECK(together.plans() == 1);
    CHECK(together.put_in() == 2); // the first makes the plan
    REQUIRE(together.jobs().size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        SeasonJobs alone = reader();
        // A block of its own makes the whole way necessary.
        REQUIRE_FALSE(alone.add("b.job", job("a", sets[i])).diagnostics.has_errors());
        const SeasonJob& fast = together.jobs()[i];
        const SeasonJob& slow = alone.jobs()[0];
        CHECK(fast.price == slow.price);
        CHECK(fast.cost == slow.cost);
        CHECK(fast.acres == slow.acres);
        REQUIRE(fast.uses.size() == 1);
        CHECK(fast.uses[0].hours == slow.uses[0].hours);
        CHECK(fast.fixed == slow.fixed);
        CHECK(fast.earliest == slow.earliest);
        CHECK(place(fast, fast.earliest).finish == place(slow, slow.earliest).finish);
    }
    // 40 ac both ways are 40 h at $100/h, 5 days; a margin of 20 % makes $5,000 of $4,000.
    CHECK(together.jobs()[0].uses.at(0).hours == doctest::Approx(40));
    CHECK(together.jobs()[0].fixed == doctest::Approx(4'000));
    CHECK(together.jobs()[0].days == 5);
    CHECK(together.jobs()[0].price == doctest::Approx(5'000));
    CHECK(together.jobs()[2].acres == doctest::Approx(400));
    CHECK(together.machines().at("crawler").fixed_per_year == 230'000);
}

TEST_CASE("what is not lawful is told the whole way, also by a job that could share a plan") {
    SeasonJobs jobs = reader();
    CHECK_FALSE(jobs.add("a.job", job("a", "date 2027-05-01\nset area = 40 ac\n"))
                    .diagnostics.has_errors());
    const auto code_of = [&](const std::string& rest) {
        const lang::Said said = jobs.add("b.job", job("b", rest));
        REQUIRE(said.diagnostics.has_errors());
        // Warnings of the model may come first.
        const auto& all = said.diagnostics.all();
        return std::find_if(
                   all.begin(), all.end(),
                   [](const lang::Diagnostic& d) { return d.severity() == lang::Severity::Error; })
            ->code;
    };
    CHECK(code_of("date 2027-05-01\nset area = 501 ac\n") == lang::Code::I602);
    CHECK(code_of("date 2027-05-01\nset area = 0.9 ac\n") == lang::Code::I602);
    CHECK(code_of("date 2027-05-01\nset pace = 1.7 ac/h\n") == lang::Code::E504);
    CHECK(code_of("date 2027-05-01\nset area = 5 h\n") == lang::Code::U304);
    // Of givens that the plan has seen, and values that it cannot take.
    for (const char* fair : {"set pace = 2 ac/h\n", "set method = both\n"})
        CHECK_FALSE(jobs.add("c.job", job("c", std::string("date 2027-05-01\n") + fair))
                        .diagnostics.has_errors());
    CHECK(code_of("date 2027-05-01\nset pace = 1.7 ac/h\n") == lang::Code::E504);
    code_of("date 2027-05-01\nset method = sideways\n");
    CHECK(jobs.put_in() == 0);
    CHECK(jobs.plans() == 3);
    CHECK(code_of("date 2027-05-01\nset nosuch = 5 h\n") == lang::Code::I601);
    CHECK(code_of("set area = 40 ac\n") == lang::Code::I603);
    CHECK(jobs.jobs().size() == 3);
    CHECK_FALSE(jobs.too_much());
}

TEST_CASE("what a price would warn of is told of every job that shares a plan") {
    SeasonJobs jobs = reader();
    // What the model itself is warned of, each job is.
    const std::size_t of_the_model =
        jobs.add("a.job", job("a", "date 2027-05-01\nset area = 40 ac\n")).diagnostics.all().size();
    for (const char* name : {"b.job", "c.job"}) {
        const lang::Said said = jobs.add(name, job("b", "date 2027-05-01\nset area = 470 ac\n"));
        const std::vector<lang::Diagnostic>& all = said.diagnostics.all();
        CHECK(all.size() == of_the_model + 1);
        CHECK(std::any_of(all.begin(), all.end(),
                          [](const lang::Diagnostic& d) { return d.code == lang::Code::L802; }));
    }
    CHECK(jobs.plans() == 1);
    CHECK(jobs.jobs().size() == 3);
}

TEST_CASE("a job that takes longer than ten years is refused, whichever way it is read") {
    // Eight acres a day.
    const std::string model = "model \"long\"\ngiven area = 8 ac\n"
                              "days : day = area / 8 ac * 1 day\ncount days\n"
                              "cost own : $/day = $100/day over days\n"
                              "price \"Long\" per ac of area\n";
    SeasonJobs jobs([&](const std::string&) {
        return std::make_unique<tests::MemoryLoader>(tests::Files{{"long.rate", model}});
    });
    const auto add = [&](const std::string& acres) {
        const lang::Said said = jobs.add("a.job", "job \"a\"\nmodel \"long\"\ndate 2027-05-01\nset "
                                                  "area = " +
                                                      acres + " ac\n");
        for (const lang::Diagnostic& d : said.diagnostics.all())
            if (d.code == lang::Code::Q006)
                return d.title;
        return std::string();
    };
    CHECK(add("29,280") == ""); // 3,660 days
    CHECK(add("29,288") == "`a.job` takes 3,661 days");
    for (const char* acres : {"1e9", "1e15", "8e300"}) // the last two have no price either
        add(acres);
    CHECK(jobs.jobs().size() == 1);
}

TEST_CASE("a job in other money is told and not taken, and a job without a date as it is asked") {
    const tests::Files files = {{"crawler.rate", crawler},
                                {"ripping.rate", ripping},
                                {"far.firm", "firm \"Far\"\nmoney AUD \"A$\" to $0.05\n"},
                                {"far.rate", "model \"far\"\nfirm \"far\"\nmoney AUD\n"
                                             "given area = 4 ac\n"
                                             "cost own : $/ac = 3 AUD/ac over area\n"
                                             "price \"Far\" per ac of area\n"}};
    const auto loader = [&](const std::string&) {
        return std::make_unique<tests::MemoryLoader>(files);
    };
    SeasonJobs jobs(loader);
    REQUIRE_FALSE(jobs.add("a.job", job("a", "date 2027-05-01\n")).diagnostics.has_errors());
    const lang::Said said = jobs.add("b.job", "job \"Outback\"\nmodel \"far\"\ndate 2027-06-01\n");
    REQUIRE(said.diagnostics.error_count() == 1);
    const auto& all = said.diagnostics.all();
    const auto told = std::find_if(all.begin(), all.end(), [](const lang::Diagnostic& d) {
        return d.code == lang::Code::U314;
    });
    REQUIRE(told != all.end());
    CHECK(told->title ==
          "\"Outback\" is in AUD, rounded to 0.05; the first is in USD, rounded to 0.01");
    CHECK(jobs.jobs().size() == 1);
    SeasonJobs dated(loader, SeasonJobs::Undated::LeftOut);
    CHECK_FALSE(dated.add("a.job", job("a", "")).diagnostics.has_errors());
    CHECK_FALSE(dated.add("b.job", job("b", "date 2027-05-01\n")).diagnostics.has_errors());
    CHECK(dated.left_out() == std::vector<std::string>{"a"});
    CHECK(dated.jobs().size() == 1);
}

TEST_CASE("a machine of the fleet that no job uses is a slip of the pen") {
    SeasonJobs jobs = reader();
    REQUIRE_FALSE(jobs.add("a.job", job("a", "date 2027-05-01\n")).diagnostics.has_errors());
    SeasonQuestion question;
    question.fleet["crawler"] = {2, {}};
    CHECK(ask(jobs, question));
    question.fleet["crawlr"] = {2, {}};
    const auto wrong = ask(jobs, question);
    REQUIRE_FALSE(wrong);
    const lang::Diagnostic& said = wrong.said.diagnostics.all().front();
    CHECK(said.code == lang::Code::Q001);
    REQUIRE(said.helps.size() == 1);
    CHECK(said.helps[0].text == "did you mean `crawler`?");
    question.fleet.clear();
    question.another = "grader";
    CHECK(ask(jobs, question).said.diagnostics.all().front().notes ==
          std::vector<std::string>{"machines of these jobs: crawler"});
    const SeasonJobs none = reader();
    CHECK(ask(none, question).said.diagnostics.all().front().notes ==
          std::vector<std::string>{"no model of these jobs says what a machine costs a year"});
}

TEST_CASE(
    "jobs of days for which the season sets other figures share another plan, and a plan that "
    "moves one there says so") {
    SeasonJobs jobs([](const std::string&) {
        return std::make_unique<tests::MemoryLoader>(
            tests::Files{{"crawler.rate", crawler},
                         {"ripping.rate", ripping},
                         {"2027.season", "season \"2027\"\nset method = one_way\n"
                                         "set method = both  within 2027-06-01 .. 2027-06-30\n"}});
    });
    const auto add = [&](const std::string& day) {
        return jobs.add("a.job", job("a", "season \"2027\"\ndate " + day + "\nset area = 40 ac\n"));
    };
    for (const char* day : {"2027-05-31", "2027-06-01", "2027-06-30", "2027-07-01", "2027-05-30"})
        CHECK(add(day).diagnostics.all().empty());
    CHECK(jobs.plans() == 2);
    const std::vector<SeasonJob>& all = jobs.jobs();
    REQUIRE(all.size() == 5);
    // Going both ways takes twice the hours.
    CHECK(all[1].cost == doctest::Approx(2 * all[0].cost).epsilon(1e-12));
    CHECK(all[2].cost == all[1].cost);
    CHECK(all[3].cost == all[0].cost);
    CHECK(all[4].cost == all[0].cost);
    const long june_1 = all[1].earliest;
    CHECK(priced_otherwise(all[0], june_1) == std::vector<std::string>{"method"});
    CHECK(priced_otherwise(all[0], june_1 + 30).empty());
    CHECK(priced_otherwise(all[1], june_1 + 29).empty());
    CHECK(priced_otherwise(all[1], june_1 + 30) == std::vector<std::string>{"method"});
}

} // namespace season_jobs_test
