#include "engine/questions/season/order_by_moves.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

#include "engine/questions/season/yard.h"

namespace acre::engine {
namespace {

constexpr double half_a_cent = 0.005;
constexpr std::size_t nobody = static_cast<std::size_t>(-1);

// In which order jobs take their places, and which waits for which.
struct Order {
    std::vector<std::size_t> jobs;
    std::vector<std::size_t> behind; // by job: starts when that one is done; nobody: for none
};

// How an order turns out.
struct Tried {
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

    std::optional<Tried> run() {
        Order best = as_planned();
        Tried tried = try_out(best);
        // What the plan does not leave out stays in.
        if (tried.lost > plan_.lost + half_a_cent || tried.days != plan_.days_moved)
            return std::nullopt;
        // The road that saves most first; then whatever saves more.
        std::vector<const PricedRoad*> by_worth;
        for (const PricedRoad& road : roads_)
            if (road.why_not.empty() && road.saved() > half_a_cent)
                by_worth.push_back(&road);
        std::stable_sort(
            by_worth.begin(), by_worth.end(),
            [](const PricedRoad* a, const PricedRoad* b) { return a->saved() > b->saved(); });
        bool better = true, any = false;
        while (better && yard_.trials() < max_plan_trials) {
            better = false;
            for (const PricedRoad* road : by_worth)
                for (Order& order : with(*road, best)) {
                    Tried other = try_out(order);
                    if (!is_better(other, tried))
                        continue;
                    best = std::move(order);
                    tried = std::move(other);
                    better = any = true;
                    break;
                }
        }
        if (!any)
            return std::nullopt;
        return tried;
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

    // The job and those that already stand behind it one by one, or before it, in their order.
    static std::vector<std::size_t> row_of(const Order& order, std::size_t job, bool after) {
        std::vector<std::size_t> row = {job};
        for (bool more = true; more && row.size() <= order.jobs.size();) {
            more = false;
            const auto next = std::find(order.behind.begin(), order.behind.end(), row.back());
            if (after && next != order.behind.end())
                row.push_back(static_cast<std::size_t>(next - order.behind.begin())), more = true;
            if (!after && order.behind[row.front()] != nobody)
                row.insert(row.begin(), order.behind[row.front()]), more = true;
        }
        return row;
    }

    // `to`, with what stands behind it, right behind `from`; or `from`, with what stands before
    // it, right before `to`. None: they stand in one row already.
    static std::vector<Order> with(const PricedRoad& road, const Order& order) {
        std::vector<Order> orders;
        for (const bool after : {true, false}) {
            Order moved = order;
            std::replace(moved.behind.begin(), moved.behind.end(), road.from, nobody);
            moved.behind[road.to] = nobody;
            const std::vector<std::size_t> row = row_of(moved, after ? road.to : road.from, after);
            const std::size_t beside = after ? road.from : road.to;
            if (std::find(row.begin(), row.end(), beside) != row.end())
                continue;
            std::erase_if(moved.jobs, [&](std::size_t job) {
                return std::find(row.begin(), row.end(), job) != row.end();
            });
            const auto at = std::find(moved.jobs.begin(), moved.jobs.end(), beside);
            moved.jobs.insert(after ? at + 1 : at, row.begin(), row.end());
            moved.behind[road.to] = road.from;
            orders.push_back(std::move(moved));
        }
        return orders;
    }

    static bool is_better(const Tried& a, const Tried& b) {
        if (a.lost > b.lost + half_a_cent)
            return false;
        const double gained = (a.saved - a.lost) - (b.saved - b.lost);
        return gained > half_a_cent || (gained > -half_a_cent && a.days < b.days);
    }

    // The days on which machines of both jobs wait at the ranch, so that no third job takes them.
    JobPlace stay_between(std::size_t from, const JobPlace& first, std::size_t to,
                          const JobPlace& second) const {
        JobPlace stay;
        stay.held.resize(jobs_[to].uses.size());
        for (std::size_t u = 0; u < stay.held.size(); ++u)
            for (const MachineUse& use : jobs_[from].uses)
                if (use.machine == jobs_[to].uses[u].machine && first.finish + 1 < second.start)
                    stay.held[u] = {{first.finish + 1, second.start - 1}};
        return stay;
    }

    Tried try_out(const Order& order) {
        Tried tried;
        tried.places.resize(jobs_.size());
        std::vector<JobPlace> at(jobs_.size());
        std::vector<std::pair<std::size_t, JobPlace>> stays;
        for (const std::size_t job : order.jobs) {
            const std::size_t before = order.behind[job];
            const bool waits = before != nobody && tried.places[before];
            std::optional<JobPlace>& here = tried.places[job];
            here = yard_.first_place(
                job, latest(job), waits ? tried.places[before]->finish + 1 : jobs_[job].earliest);
            if (here) {
                yard_.put(job, *here);
                if (waits)
                    stays.emplace_back(job,
                                       stay_between(before, *tried.places[before], job, *here));
                if (waits)
                    yard_.put(job, stays.back().second);
                tried.days += here->start - jobs_[job].dated.start;
                at[job] = *here;
            } else {
                tried.lost += std::max(0.0, jobs_[job].chance * jobs_[job].left());
                at[job] = jobs_[job].dated;
                at[job].held.assign(jobs_[job].uses.size(), {});
            }
        }
        for (const std::size_t job : order.jobs)
            if (tried.places[job])
                yard_.take(job, *tried.places[job]);
        for (const auto& [job, stay] : stays)
            yard_.take(job, stay);
        tried.units = assign_units(jobs_, at, fleet_);
        for (const std::size_t road : taken_roads(jobs_, at, tried.units, roads_))
            if (roads_[road].why_not.empty())
                tried.saved += roads_[road].saved();
        return tried;
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
    std::optional<Tried> found = MoveOrder(jobs, fleet, plan, roads, first, last).run();
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
