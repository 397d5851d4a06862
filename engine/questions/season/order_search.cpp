#include "engine/questions/season/order_search.h"

#include <algorithm>
#include <limits>
#include <map>
#include <string>
#include <utility>

namespace acre::engine {
namespace {

constexpr double cent = 0.005;

OrderLoss sum(const OrderLoss& a, const OrderLoss& b) {
    return {a.money + b.money, a.days + b.days};
}

// One of several jobs that take turns on a machine: not before a day, for so many days at least.
struct Turn {
    long from = 0, days = 0;
};

// The least that the last days of all of them add up to where each may be broken off for another:
// whoever has least left goes first. Broken off or not, no order adds up to less.
long least_ends(std::vector<Turn> turns) {
    std::ranges::sort(turns, {}, &Turn::from);
    std::multiset<long> open; // days left of those that may go
    long sum_of_ends = 0, now = 0;
    std::size_t next = 0;
    while (next < turns.size() || !open.empty()) {
        if (open.empty())
            now = std::max(now, turns[next].from);
        for (; next < turns.size() && turns[next].from <= now; ++next)
            open.insert(turns[next].days);
        const long left = *open.begin();
        const long until =
            next < turns.size() ? std::min(now + left, turns[next].from) : now + left;
        open.erase(open.begin());
        if (now + left > until)
            open.insert(now + left - until);
        else
            sum_of_ends += until;
        now = until;
    }
    return sum_of_ends;
}

} // namespace

bool OrderLoss::operator<(const OrderLoss& other) const {
    if (money < other.money - cent || other.money < money - cent)
        return money < other.money;
    return days < other.days;
}

bool OrderSearch::run(std::vector<std::size_t> group, PlanPlaces& into) {
    places_ = &into;
    std::ranges::stable_sort(group, {}, [&](std::size_t job) { return jobs_[job].dated.start; });
    group_ = group;
    for (const Jobs& order : first_orders(group))
        in_order(order);
    if (group.size() <= max_searched_jobs)
        descend(group, {});
    else
        stopped_ = true;
    for (std::size_t i = 0; i < group_.size(); ++i)
        into[group_[i]] = best_places_[i];
    return !stopped_;
}

OrderLoss OrderSearch::loss_of(std::size_t job, const std::optional<JobPlace>& at) const {
    if (!at)
        return {std::max(0.0, jobs_[job].chance * jobs_[job].left()), 0};
    return {0, at->start - jobs_[job].dated.start};
}

// The least that any order loses by it: nothing where nobody misses what it leaves.
OrderLoss OrderSearch::least_of(std::size_t job, const std::optional<JobPlace>& first) const {
    return std::min(loss_of(job, first), loss_of(job, {}));
}

void OrderSearch::keep(const OrderLoss& loss) {
    if (have_ && !(loss < best_))
        return;
    have_ = true;
    best_ = loss;
    best_places_.clear();
    for (const std::size_t job : group_)
        best_places_.push_back((*places_)[job]);
}

// First answers: by date, by the latest day, the dearest jobs first.
std::vector<OrderSearch::Jobs> OrderSearch::first_orders(Jobs by_date) const {
    std::vector<Jobs> orders(3, std::move(by_date));
    std::ranges::stable_sort(
        orders[1], {}, [&](std::size_t job) { return latest_[job]; });
    std::stable_sort(orders[2].begin(), orders[2].end(),
                     [&](std::size_t a, std::size_t b) { return loss_of(b, {}) < loss_of(a, {}); });
    return orders;
}

// Each as early as it goes.
void OrderSearch::in_order(const Jobs& group) {
    OrderLoss loss;
    for (const std::size_t job : group) {
        (*places_)[job] = yard_.first_place(job, latest_[job]);
        loss = sum(loss, loss_of(job, (*places_)[job]));
        if ((*places_)[job])
            yard_.put(job, *(*places_)[job]);
    }
    keep(loss);
    for (const std::size_t job : group) {
        if ((*places_)[job])
            yard_.take(job, *(*places_)[job]);
        (*places_)[job].reset();
    }
}

std::vector<long> OrderSearch::standing() const {
    std::vector<long> key;
    for (const std::size_t job : group_)
        key.push_back((*places_)[job] ? (*places_)[job]->start : std::numeric_limits<long>::min());
    return key;
}

// All of these where each goes first: whether they stand there together, and no order from here on
// loses less. `least`: what that is at least.
bool OrderSearch::all_together(const Jobs& rest, OrderLoss& least, PlanPlaces& at) {
    OrderLoss loss = least;
    std::size_t put = 0;
    bool fit = true;
    at.resize(rest.size());
    for (std::size_t i = 0; i < rest.size(); ++i) {
        at[i] = yard_.first_place(rest[i], latest_[rest[i]]);
        loss = sum(loss, loss_of(rest[i], at[i]));
        least = sum(least, least_of(rest[i], at[i]));
    }
    for (; put < rest.size() && fit; ++put)
        if (at[put]) {
            fit = yard_.is_free(rest[put], *at[put]);
            yard_.put(rest[put], *at[put]);
        }
    for (std::size_t i = 0; i < put; ++i)
        if (at[i])
            yard_.take(rest[i], *at[i]);
    if (!fit)
        return false;
    for (std::size_t i = 0; i < rest.size(); ++i)
        (*places_)[rest[i]] = at[i];
    keep(loss);
    for (const std::size_t job : rest)
        (*places_)[job].reset();
    return !(least < loss);
}

// Whether `a`, where it stands, and `b`, where it goes first or later, may want one machine.
bool OrderSearch::may_meet(std::size_t a, const JobPlace& at, std::size_t b,
                           const JobPlace& first) const {
    for (std::size_t u = 0; u < jobs_[a].uses.size(); ++u)
        for (std::size_t v = 0; v < jobs_[b].uses.size(); ++v)
            if (jobs_[a].uses[u].machine == jobs_[b].uses[v].machine &&
                first.held[v].front().first <= at.held[u].back().last)
                return true;
    return false;
}

// A job that stands in nobody's way: no order gains by putting it anywhere else.
std::optional<std::size_t> OrderSearch::first_alone(const Jobs& rest, const PlanPlaces& at) const {
    for (std::size_t i = 0; i < rest.size(); ++i) {
        bool meets = !at[i];
        for (std::size_t k = 0; k < rest.size() && !meets; ++k)
            meets = k != i && at[k] && may_meet(rest[i], *at[i], rest[k], *at[k]);
        if (!meets)
            return i;
    }
    return std::nullopt;
}

// The least days that these start late in all but those that nobody misses, where those on one
// machine, of which there is one, take turns.
long OrderSearch::days_of_taking_turns(const Jobs& rest, const PlanPlaces& at) const {
    const auto counts = [&](std::size_t i) { return at[i] && loss_of(rest[i], {}).money > cent; };
    std::map<std::string, Jobs> by_machine; // into rest
    for (std::size_t i = 0; i < rest.size(); ++i)
        if (counts(i))
            for (const MachineUse& use : jobs_[rest[i]].uses)
                if (use.stages.empty() && yard_.owned(use.machine) == 1)
                    by_machine[use.machine].push_back(i);
    const Jobs* most = nullptr;
    for (const auto& [machine, of] : by_machine)
        if (most == nullptr || of.size() > most->size())
            most = &of;
    long days = 0;
    std::vector<Turn> turns;
    for (std::size_t i = 0; i < rest.size(); ++i) {
        if (!counts(i))
            continue;
        const bool takes_turns =
            most != nullptr && std::find(most->begin(), most->end(), i) != most->end();
        if (takes_turns) {
            turns.push_back({at[i]->start, std::max(1L, days_in(at[i]->work))});
            days -= turns.back().days + jobs_[rest[i]].dated.start;
        } else {
            days += at[i]->start - jobs_[rest[i]].dated.start;
        }
    }
    return days + least_ends(std::move(turns));
}

void OrderSearch::descend(const Jobs& rest, const OrderLoss& so_far) {
    if (stopped_ || (stopped_ = yard_.trials() >= limit_))
        return;
    OrderLoss least = so_far;
    PlanPlaces at;
    if (all_together(rest, least, at) || !(least < best_))
        return;
    // While nothing is lost but days, no job that leaves money may be left out.
    if (best_.money <= cent &&
        !(OrderLoss{least.money, so_far.days + days_of_taking_turns(rest, at)} < best_))
        return;
    const std::optional<std::size_t> alone = first_alone(rest, at);
    for (std::size_t i = alone.value_or(0); i < rest.size() && !stopped_; ++i) {
        const std::size_t job = rest[i];
        if (alone && i > *alone)
            return;
        // One that finds no place now finds none later: it is out of every order from here.
        if (!at[i])
            continue;
        yard_.put(job, *at[i]);
        (*places_)[job] = at[i];
        if (seen_.insert(standing()).second) {
            Jobs others = rest;
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
            descend(others, sum(so_far, loss_of(job, (*places_)[job])));
        }
        yard_.take(job, *(*places_)[job]);
        (*places_)[job].reset();
    }
}

} // namespace acre::engine
