// Which machines a job has, how many, in which stages, and what it counts: by its models, with
// figures by hand.
#include "engine/questions/season/season_jobs.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/memory_loader.h"

namespace machines_of_jobs_test {

using namespace acre;
using namespace acre::engine;

namespace {

// A year of either costs $230,000 over 2,300 h, $100 an hour.
std::string machine(const std::string& name) {
    return "model \"" + name +
           "\"\ngiven paid = $230,000/yr\n"
           "given hours_per_year = 2,300 h/yr\n"
           "fixed_per_year : $/yr = paid\n"
           "own_per_hour : $/h = paid / hours_per_year\n"
           "fleet costs fixed_per_year over hours_per_year\n";
}

const tests::Files models = {
    {"crawler.rate", machine("Crawler")},
    {"loader.rate", machine("Loader")},
    // Each crawler of the list with a year of its own; the loader beside them.
    {"ripping.rate", "model \"Ripping\"\nuse \"crawler\"\nuse \"loader\"\nlist team\n"
                     "given area = 40 ac  within 0 ac .. 500 ac\n"
                     "part \"Units\" each team\n  given bought = $230,000/yr\n"
                     "  use \"crawler\" as rig with paid = bought\n"
                     "  hours : h = area / 2 ac/h / how_many(team)\n"
                     "part \"Costs\" each team\n"
                     "  cost own : $/h = rig.own_per_hour over hours\n"
                     "part \"Loading\"\n  given loaders = 2.2\n  load_hours : h = area / 4 ac/h\n"
                     "  diesel : L = area * 10 L/ac\n"
                     "  trees : 1 = 3\n  square : ft^2 = area\n  days : day = area / 20 ac/day\n"
                     "  cost load : $/h = loader.own_per_hour over load_hours\n"
                     "count hours of rig, load_hours of loaders loader\n"
                     "count trees, square, area, diesel, days\n"
                     "price \"All\" per ac of area\n  margin 20 %\n"},
    // Two kinds of work with the same crawler, in a job that waits between.
    {"pass.rate", "model \"Pass\"\nuse \"crawler\"\ngiven hours = 16 h\n"
                  "days : day = hours / 8 h/day\n"
                  "cost own : $/h = crawler.own_per_hour over hours\n"
                  "count hours of crawler\n"},
    {"grade.rate", "model \"Grade\"\nuse \"crawler\"\ngiven hours = 8 h\n"
                   "days : day = hours / 8 h/day\n"
                   "cost own : $/h = crawler.own_per_hour over hours\n"
                   "count hours of crawler\n"},
    {"twice.rate",
     "model \"Twice\"\nuse \"crawler\"\nuse \"loader\"\n"
     "use \"pass\" as rip with hours = 16 h\nuse \"grade\" as level with hours = 8 h\n"
     "given area = 10 ac\ngiven extra = 0 day\ngiven watch = 0 h\n"
     "stage_move_in : day = 1 day\nstage_level : day = extra + level.days\n"
     "wait_dry : day = 10 day\n"
     "stage_rip : day = when extra > 1 day then 9 day otherwise ceil(rip.days, 1 day)\n"
     "load_hours : h = 5 h\n"
     "cost load : $/h = loader.own_per_hour over load_hours\n"
     "cost watch_it : $/h = crawler.own_per_hour over watch\n"
     "count load_hours of loader, watch of crawler\n"
     "price \"All\" per ac of area\n"},
    {"open.season", "season \"open\"\nclosed sunday\n"},
    {"crew.rate", "model \"Crew\"\ngiven days_per_week = 6 day\ngiven area = 8 ac\n"
                  "days : day = area / 8 ac * 1 day\ncost crew : $/day = $100/day over days\n"
                  "price \"All\" per ac of area\n"},
};

SeasonJobs reader() {
    return SeasonJobs(
        [](const std::string&) { return std::make_unique<tests::MemoryLoader>(models); });
}

void add(SeasonJobs& jobs, const std::string& model, const std::string& rest = {}) {
    const lang::Said said =
        jobs.add("a.job", "job \"a\"\nmodel \"" + model + "\"\ndate 2027-05-03\n" + rest);
    for (const lang::Diagnostic& d : said.diagnostics.all())
        if (d.severity() == lang::Severity::Error)
            FAIL(d.title);
}
// Of the last job.
std::map<std::string, MachineUse> uses(const SeasonJobs& jobs) {
    std::map<std::string, MachineUse> by_name;
    for (const MachineUse& use : jobs.jobs().back().uses)
        CHECK(by_name.emplace(use.machine, use).second);
    return by_name;
}

} // namespace

TEST_CASE("crawlers of one year's cost are one machine; one with another year is its own") {
    SeasonJobs jobs = reader();
    add(jobs, "ripping", "team mine \"Own\"\nteam hired \"Hired\"\n  set bought = $115,000/yr\n");
    auto used = uses(jobs);
    REQUIRE(used.size() == 3);
    CHECK(used.at("crawler").hours == doctest::Approx(10)); // 40 ac at 2 ac/h, half of it each
    CHECK(used.at("crawler").fixed == doctest::Approx(1'000));
    CHECK(used.at("crawler").units == 1);
    CHECK(used.at("hired.rig").hours == doctest::Approx(10));
    CHECK(used.at("hired.rig").fixed == doctest::Approx(500)); // at $50
    CHECK(used.at("loader").hours == doctest::Approx(10));
    CHECK(used.at("loader").units == 3); // 2.2 of them
    CHECK(jobs.jobs().back().fixed == doctest::Approx(2'500));
    const auto& all = jobs.machines();
    REQUIRE(all.size() == 3);
    CHECK(all.at("hired.rig").label == "Hired");
    CHECK(all.at("hired.rig").fixed_per_year == 115'000);
    CHECK(all.at("crawler").label.empty());
    CHECK(all.at("loader").fixed_per_year == 230'000); // as dear as a crawler, and none
    // Both of one year: two crawlers side by side.
    add(jobs, "ripping", "team mine \"Own\"\nteam other \"Other\"\n");
    used = uses(jobs);
    REQUIRE(used.size() == 2);
    CHECK(used.at("crawler").hours == doctest::Approx(20));
    CHECK(used.at("crawler").units == 2);
}

TEST_CASE("of a machine of which jobs say different years the dearest counts") {
    SeasonJobs jobs = reader();
    const auto year = [&] { return jobs.machines().at("crawler"); };
    add(jobs, "twice");
    CHECK(year().fixed_per_year == 230'000);
    CHECK_FALSE(year().disputed);
    add(jobs, "twice", "set crawler.paid = $200,000/yr\n");
    CHECK(year().fixed_per_year == 230'000);
    CHECK(year().disputed);
    add(jobs, "twice", "set crawler.paid = $250,000/yr\nset crawler.hours_per_year = 2,000 h/yr\n");
    CHECK(year().fixed_per_year == 250'000);
    CHECK(year().hours_per_year == 2'000);
    // Of two that cost the same the first.
    add(jobs, "twice", "set crawler.paid = $250,000/yr\nset crawler.hours_per_year = 1,000 h/yr\n");
    CHECK(year().hours_per_year == 2'000);
    CHECK(year().disputed);
}

TEST_CASE("a machine of a used model is there in the stages that read it, another all along") {
    SeasonJobs jobs = reader();
    using Stages = std::vector<std::size_t>;
    add(jobs, "twice");
    auto used = uses(jobs);
    REQUIRE(used.size() == 2);
    CHECK(used.at("crawler").hours == doctest::Approx(24));
    CHECK(used.at("crawler").stages == Stages{1, 3}); // levels, and rips when the ground is dry
    CHECK(used.at("crawler").units == 1);
    CHECK(used.at("loader").stages.empty());
    const SeasonJob& job = jobs.jobs().back();
    REQUIRE(job.stages.size() == 4);
    CHECK(job.stages[1].days == doctest::Approx(1));
    CHECK_FALSE(job.stages[1].waits);
    CHECK(job.stages[2].days == doctest::Approx(10));
    CHECK(job.stages[2].waits);
    CHECK(job.stages[3].days == doctest::Approx(2));
    // A day of moving in, one of leveling, ten of waiting, two of ripping.
    const JobPlace at = place(job, job.earliest);
    CHECK(at.finish == at.start + 13);
    // Where the job's own model counts hours of it as well it stays.
    add(jobs, "twice", "set watch = 4 h\n");
    used = uses(jobs);
    CHECK(used.at("crawler").hours == doctest::Approx(28));
    CHECK(used.at("crawler").stages.empty());
}

TEST_CASE("acres are the first line of ground that a model counts, fuel and days what they are") {
    SeasonJobs jobs = reader();
    add(jobs, "ripping", "set area = 60 ac\n");
    const SeasonJob& job = jobs.jobs().back();
    CHECK(job.acres == doctest::Approx(60));                  // of 2,613,600 square feet, and once
    CHECK(job.gallons == doctest::Approx(600 / 3.785411784)); // liters in a US gallon, NIST HB 44
    CHECK(job.days == doctest::Approx(3));
    REQUIRE(job.stages.size() == 1);
    CHECK(job.stages[0].days == doctest::Approx(3));
}

TEST_CASE("a job whose week is not the season's is told so, also when it shares a plan") {
    SeasonJobs jobs = reader();
    const auto told = [&](const std::string& set) {
        const lang::Said said = jobs.add(
            "a.job", "job \"a\"\nmodel \"crew\"\nseason \"open\"\ndate 2027-05-03\n" + set);
        std::size_t count = 0;
        for (const lang::Diagnostic& d : said.diagnostics.all())
            count += d.code == lang::Code::L834 ? 1 : 0;
        return count;
    };
    CHECK(told("set days_per_week = 6 day\n") == 0);
    CHECK(told("set days_per_week = 6 day\n") == 0);
    CHECK(jobs.put_in() == 1);
    CHECK(told("set days_per_week = 5 day\n") == 1); // open on six
    CHECK(told("set days_per_week = 7 day\n") == 1);
    CHECK(jobs.put_in() == 1);
    CHECK(jobs.plans() == 1);
}

TEST_CASE("a set that is no plain number goes the whole way, and comes to the same") {
    SeasonJobs jobs = reader();
    for (const char* set :
         {"set area = 60 ac\n", "set area = 20 ac + 40 ac\n", "set area = --60 ac\n",
          "set area = 60 ac  swing 50 ac .. 70 ac\n", "set area = 0.5 * 120 ac\n"}) {
        CAPTURE(set);
        add(jobs, "ripping", set);
        CHECK(jobs.jobs().back().acres == doctest::Approx(60));
        CHECK(jobs.jobs().back().price == jobs.jobs().front().price);
    }
    // A choice that is there by another name of the model, and one that is not.
    const lang::Said said =
        jobs.add("b.job", "job \"b\"\nmodel \"ripping\"\ndate 2027-05-03\nset area = -60 ac\n");
    CHECK(said.diagnostics.has_errors());
}

} // namespace machines_of_jobs_test
