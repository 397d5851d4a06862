// The plan against every order of the jobs, each put where it goes by living through it day by day.
#include "tests/engine/questions/season/drawn_seasons.h"

#include <algorithm>
#include <numeric>
#include <optional>

namespace plan_by_the_day_test {

using namespace acre;
using namespace acre::engine;
using tests::Draw;
using tests::Drawn;
using tests::Lived;
using tests::LivedDays;
using tests::LivedJob;
using tests::LivedUse;
using tests::owned;
using tests::told_of;
using tests::year_start;

namespace {

// A place for each job in an order of them: the first day on which all its machines are free.
class Tried {
  public:
    Tried(const Drawn& drawn, long until) : drawn_(drawn), until_(until) {}

    std::pair<double, long> loss(const std::vector<std::size_t>& order) {
        std::map<std::pair<std::string, long>, int> out;
        double money = 0;
        long days = 0;
        for (const std::size_t i : order) {
            const LivedJob& job = drawn_.jobs[i];
            const long latest = job.has_latest ? job.latest : until_;
            const long dated = drawn_.lived.live(job, job.from).begin()->first;
            bool found = false;
            for (long from = job.from; from <= latest && !found; ++from) {
                const Placed& lived = placed(i, from);
                if (lived.last > latest)
                    break;
                if (!is_free(job, lived, out))
                    continue;
                found = true;
                days += lived.first - dated;
                for (std::size_t u = 0; u < job.uses.size(); ++u)
                    for (const long day : lived.held[u])
                        out[{job.uses[u].machine, day}] += job.uses[u].units;
            }
            if (!found)
                money += std::max(0.0, job.price - job.cost + job.fixed);
        }
        return {money, days};
    }

  private:
    struct Placed {
        long first = 0, last = 0;
        std::vector<std::set<long>> held; // by use
    };
    const Placed& placed(std::size_t i, long from) {
        const auto [at, added] = placed_.try_emplace({i, from});
        if (added) {
            const LivedDays days = drawn_.lived.live(drawn_.jobs[i], from);
            at->second = {days.begin()->first, days.rbegin()->first, {}};
            for (const LivedUse& use : drawn_.jobs[i].uses)
                at->second.held.push_back(Lived::held(days, use));
        }
        return at->second;
    }
    bool is_free(const LivedJob& job, const Placed& lived,
                 std::map<std::pair<std::string, long>, int>& out) const {
        for (std::size_t u = 0; u < job.uses.size(); ++u)
            for (const long day : lived.held[u])
                if (out[{job.uses[u].machine, day}] + job.uses[u].units >
                    owned(drawn_, job.uses[u].machine))
                    return false;
        return true;
    }
    const Drawn& drawn_;
    long until_;
    std::map<std::pair<std::size_t, long>, Placed> placed_;
};

// What the plan leaves of the machines on each day, and whether it keeps the dates.
void check_plan_holds(const Drawn& drawn, const Season& season) {
    std::map<std::pair<std::string, long>, int> out;
    for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
        const std::size_t at = told_of(season, i);
        const PlannedJob& planned = season.plan->jobs[at];
        if (!planned.fits)
            continue;
        const LivedJob& job = drawn.jobs[i];
        const LivedDays lived = drawn.lived.live(job, planned.at.start);
        CHECK(planned.at.start >= job.from);
        CHECK(planned.at.start == lived.begin()->first);
        CHECK(planned.at.finish == lived.rbegin()->first);
        CHECK(planned.at.finish <= (job.has_latest ? job.latest : season.plan->last_day));
        for (const LivedUse& use : job.uses)
            for (const long day : Lived::held(lived, use))
                CHECK((out[{use.machine, day}] += use.units) <= owned(drawn, use.machine));
    }
}

} // namespace

TEST_CASE("a plan keeps dates and machines, and no order of the jobs loses less") {
    int with_clashes = 0, left_out = 0;
    for (unsigned seed = 1'001; seed <= 1'080; ++seed) {
        CAPTURE(seed);
        Draw draw(seed);
        const Drawn drawn = draw.season(draw.whole(2, 5));
        SeasonQuestion question = drawn.question;
        question.until = year_start + draw.whole(180, 240);
        const Season season = engine::season(drawn.told, drawn.machines, question);
        REQUIRE(season.plan);
        CHECK(season.plan->proved);
        check_plan_holds(drawn, season);
        std::vector<std::size_t> order(drawn.jobs.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        Tried tried(drawn, *question.until);
        std::optional<std::pair<double, long>> best;
        do {
            const std::pair<double, long> loss = tried.loss(order);
            if (!best || loss.first < best->first - 0.005 ||
                (loss.first < best->first + 0.005 && loss.second < best->second))
                best = loss;
        } while (std::next_permutation(order.begin(), order.end()));
        double lost = 0;
        for (std::size_t i = 0; i < season.jobs.size(); ++i)
            if (!season.plan->jobs[i].fits)
                lost += std::max(0.0, season.jobs[i].left());
        CHECK(lost == doctest::Approx(best->first));
        CHECK(season.plan->days_moved == best->second);
        with_clashes += season.clashes.listed.empty() ? 0 : 1;
        left_out += season.plan->left_out > 0 ? 1 : 0;
    }
    CHECK(with_clashes > 20); // else the test says little
    CHECK(left_out > 5);
}

} // namespace plan_by_the_day_test
