#include "engine/questions/season/order_by_moves.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

#include "engine/questions/season/yard.h"

namespace acre::engine {
namespace {

constexpr double cent = 0.005;
constexpr std::size_t nobody = static_cast<std::size_t>(-1);

// In which order jobs take their places, and which waits for which.
struct Order {
    std::vector<std::size_t> jobs;
    std::vector<std::size_t> behind; // by job: starts when that one is done; nobody: for none
};

// How an order turns out.
struct Outcome {
    std::vector<std::optional<JobPlace>> places; // by job; empty: it does not fit
    UnitsOfJobs units;
    double lost = 0;  // left by jobs that do not fit
    double saved = 0; // of moving
    long days = 0;    // later than dated, in all
};

class MoveOrder {
  public:
    MoveOrder(const std::vector<SeasonJob>& jobs, const std::map<std::string, Owned>& fleet,
              const SeasonPlan& plan, const std::vector<PricedRoad>& roads, long first, long last)
        : jobs_(jobs),
          fleet_(fleet),
          plan_(plan),
          roads_(roads),
          yard_(jobs, fleet, first, last) {}

    std::optional<Outcome> run() {
        Order best = as_planned();
        Outcome outcome = try_out(best);
        // What the plan does not leave out stays in.
        if (outcome.lost > plan_.lost + cent || outcome.days != plan_.days_moved)
            return std::nullopt;
        bool better = true, any = false;
        while (better && yard_.trials() < max_plan_trials) {
            better = false;
            for (const PricedRoad& road : roads_)
                if (road.why_not.empty() && road.saved() > cent)
                    for (Order& order : with(road, best)) {
                        Outcome other = try_out(order);
                        if (!is_better(other, outcome))
                            continue;
                        best = std::move(order);
                        outcome = std::move(other);
                        better = any = true;
                        break;
                    }
        }
        if (!any)
            return std::nullopt;
        return outcome;
    }

  private:
    const std::vector<SeasonJob>& jobs_;
    const std::map<std::string, Owned>& fleet_;
    const SeasonPlan& plan_;
    const std::vector<PricedRoad>& roads_;
    Yard yard_;

    long latest(std::size_t job) const { return jobs_[job].latest.value_or(plan_.last_day); }

    Order as_planned() const {
        Order order{std::vector<std::size_t>(jobs_.size()),
                    std::vector<std::size_t>(jobs_.size(), nobody)};
        std::iota(order.jobs.begin(), order.jobs.end(), std::size_t{0});
        std::stable_sort(order.jobs.begin(), order.jobs.end(), [&](std::size_t a, std::size_t b) {
            return plan_.jobs[a].at.start < plan_.jobs[b].at.start;
        });
        return order;
    }

    // `to` right behind `from`, or `from` brought forward to stand right before `to`.
    static std::vector<Order> with(const PricedRoad& road, const Order& order) {
        std::vector<Order> orders(2, order);
        for (std::size_t i = 0; i < orders.size(); ++i) {
            std::vector<std::size_t>& jobs = orders[i].jobs;
            const std::size_t moved = i == 0 ? road.to : road.from;
            const std::size_t beside = i == 0 ? road.from : road.to;
            jobs.erase(std::find(jobs.begin(), jobs.end(), moved));
            const auto at = std::find(jobs.begin(), jobs.end(), beside);
            jobs.insert(i == 0 ? at + 1 : at, moved);
            std::replace(orders[i].behind.begin(), orders[i].behind.end(), road.from, nobody);
            orders[i].behind[road.to] = road.from;
        }
        return orders;
    }

    static bool is_better(const Outcome& a, const Outcome& b) {
        if (a.lost > b.lost + cent)
            return false;
        const double gained = (a.saved - a.lost) - (b.saved - b.lost);
        return gained > cent || (gained > -cent && a.days < b.days);
    }

    Outcome try_out(const Order& order) {
        Outcome outcome;
        outcome.places.resize(jobs_.size());
        std::vector<JobPlace> at(jobs_.size());
        for (const std::size_t job : order.jobs) {
            const std::size_t before = order.behind[job];
            std::optional<JobPlace>& here = outcome.places[job];
            if (before != nobody && outcome.places[before])
                here = yard_.first_place(job, latest(job), outcome.places[before]->finish + 1);
            else
                here = yard_.first_place(job, latest(job), jobs_[job].earliest);
            if (here) {
                yard_.put(job, *here);
                outcome.days += here->start - jobs_[job].dated.start;
                at[job] = *here;
            } else {
                outcome.lost += std::max(0.0, jobs_[job].chance * jobs_[job].left());
                at[job] = jobs_[job].dated;
                at[job].held.assign(jobs_[job].uses.size(), {});
            }
        }
        for (const std::size_t job : order.jobs)
            if (outcome.places[job])
                yard_.take(job, *outcome.places[job]);
        outcome.units = assign_units(jobs_, at, fleet_);
        for (const std::size_t road : taken_roads(jobs_, at, outcome.units, roads_))
            if (roads_[road].why_not.empty())
                outcome.saved += roads_[road].saved();
        return outcome;
    }
};

} // namespace

SeasonPlan order_by_moves(const std::vector<SeasonJob>& jobs,
                          const std::map<std::string, Owned>& fleet, SeasonPlan plan,
                          const std::vector<PricedRoad>& roads) {
    long first = plan.last_day, last = plan.last_day;
    for (const SeasonJob& job : jobs) {
        first = std::min(first, job.earliest);
        last = std::max(last, job.latest.value_or(plan.last_day));
    }
    std::optional<Outcome> found = MoveOrder(jobs, fleet, plan, roads, first, last).run();
    if (!found)
        return plan;
    SeasonPlan ordered;
    ordered.units = std::move(found->units);
    ordered.last_day = plan.last_day;
    ordered.trials = plan.trials;
    ordered.proved = false;
    ordered.days_for_moves = found->days - plan.days_moved;
    ordered.by_roads = true;
    put_places(jobs, found->places, ordered);
    return ordered;
}

} // namespace acre::engine
