// Two hundred firms whose truth is known: does an interval of 90 % hold it nine times in ten?
#include <map>
#include <string>

#include <fmt/format.h>

#include "engine/learning/binomial.h"
#include "tests/learning/firms.h"

namespace firms_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

constexpr std::size_t firms = 200, jobs_each = 15, draws = 2048;
// A true share of 90 % gives a count outside of this band once in ten thousand such tests.
constexpr double chance_of_a_false_alarm = 1e-4;

// Jobs of the trade: depth, ground, size, length of the pulls, distance.
std::vector<BaseJob> base_jobs(Assumptions& assumptions) {
    const Choices choices = with_models();
    std::vector<BaseJob> jobs;
    for (const char* sets :
         {"set area = 118 ac\nset site.miles = 34 mi\n",
          "set area = 60 ac\nset site.miles = 12 mi\nset depth = 5 ft\nset run = 600 ft\n",
          "set area = 200 ac\nset site.miles = 60 mi\nset depth = 4 ft\nset spacing = 6 ft\n",
          "set area = 45 ac\nset site.miles = 22 mi\nset run = 330 ft\nset depth = 5 ft\n",
          "set area = 150 ac\nset site.miles = 45 mi\nset pan.ground = strong_pan\nset depth = 5 "
          "ft\n",
          "set area = 90 ac\nset site.miles = 18 mi\nset pan.ground = clay\nset run = 900 ft\n",
          "set area = 75 ac\nset site.miles = 30 mi\nset method = tree_rows\nset run = 700 ft\n",
          "set area = 130 ac\nset site.miles = 52 mi\nset pan.ground = weak_pan\nset depth = 6.5 "
          "ft\n"})
        jobs.emplace_back(sets, choices, assumptions);
    return jobs;
}

struct Held {
    std::size_t times = 0, of = 0;
    double widths = 0; // of the interval, in swings
};

FinishedJob finished(const BaseJob& base, const Values& values, const Assumptions& assumptions,
                     const Firm& firm, Chance& chance) {
    const double fit = firm.truth[assumptions.find("crew.fit_days")] / 100;
    const JobLog log = LogWriter(base, values, chance).write(fit);
    FinishedJob job{"2027-001", base.readings, {}};
    job.measures = measures_of(log, job.readings, WorkCalendar(base.priced.sheet().job.closed));
    return job;
}

} // namespace

TEST_CASE("intervals of 90 % hold the truth of nine simulated firms in ten") {
    Assumptions assumptions(draws);
    const std::vector<BaseJob> bases = base_jobs(assumptions);
    std::map<std::string, Held> held;
    Chance chance(20270503);
    for (std::size_t f = 0; f < firms; ++f) {
        const Firm firm = firm_of(assumptions, chance);
        std::vector<FinishedJob> jobs;
        for (std::size_t tries = 0; jobs.size() < jobs_each && tries < 4 * jobs_each; ++tries) {
            const BaseJob& base = bases[tries % bases.size()];
            Values values;
            if (work_out(base, firm, chance, values))
                jobs.push_back(finished(base, values, assumptions, firm, chance));
        }
        for (const LearnedFigure& figure : learn(jobs, assumptions).figures) {
            const double truth = firm.truth[assumptions.find(figure.name)];
            Held& one = held[figure.name];
            one.times += figure.low <= truth && truth <= figure.high ? 1 : 0;
            one.widths += (figure.high - figure.low) / figure.swing.width();
            ++one.of;
        }
    }
    for (const auto& [name, one] : held) {
        INFO(name << ": " << one.times << " of " << one.of << ", mean width "
                  << one.widths / static_cast<double>(one.of) << " of the swing");
        CHECK(chance_of_at_most(one.times, one.of, learned_level) > chance_of_a_false_alarm / 2);
        CHECK(chance_of_at_least(one.times, one.of, learned_level) > chance_of_a_false_alarm / 2);
    }
    for (const char* name :
         {"crawler.load", "season_prices.diesel", "crew.fit_days", "tuning", "turn", "work_minutes",
          "crawler.tip_life", "crawler.shank_every", "site.loaded_speed"})
        CHECK_MESSAGE(held.contains(name), name << " is never learned");
    // Fuel is read off every day: it must be known far better than its swing. Whatever a log cannot
    // tell must not be said to be learned.
    CHECK(held["crawler.load"].widths / static_cast<double>(held["crawler.load"].of) < 0.15);
    for (const char* name :
         {"crawler.resale", "crawler.life", "season_prices.payroll", "broken_pull"})
        CHECK_MESSAGE(!held.contains(name), name << " cannot be learned from these logs");
}

} // namespace firms_test
