// The best order of a few jobs, each as early as it goes, no matter what other jobs do. All orders
// are gone through but for those that cannot lose less; it stops at a limit of places tried.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <set>
#include <vector>

#include "engine/questions/season/yard.h"

namespace acre::engine {

// More jobs than these that stand in each other's way are put by date, by latest day and by worth,
// and no further order is tried.
inline constexpr std::size_t max_searched_jobs = 40;

// What an order of jobs loses: first what the jobs leave that do not fit, then days.
struct OrderLoss {
    double money = 0;
    long days = 0;
    bool operator<(const OrderLoss& other) const;
};

using PlanPlaces = std::vector<std::optional<JobPlace>>; // by job; empty: left out

class OrderSearch {
  public:
    OrderSearch(const std::vector<SeasonJob>& jobs, const std::vector<long>& latest, Yard& yard,
                std::uint64_t limit)
        : jobs_(jobs),
          latest_(latest),
          yard_(yard),
          limit_(limit) {}

    // Whether no order loses less. Puts the places into `into`.
    bool run(std::vector<std::size_t> group, PlanPlaces& into);

  private:
    using Jobs = std::vector<std::size_t>;

    const std::vector<SeasonJob>& jobs_;
    const std::vector<long>& latest_;
    Yard& yard_;
    std::uint64_t limit_;
    PlanPlaces* places_ = nullptr;
    Jobs group_;
    PlanPlaces best_places_; // by place in the group
    OrderLoss best_;
    bool have_ = false, stopped_ = false;
    std::set<std::vector<long>> seen_; // what stands already, whichever way it came there

    OrderLoss loss_of(std::size_t job, const std::optional<JobPlace>& at) const;
    OrderLoss least_of(std::size_t job, const std::optional<JobPlace>& first) const;
    void keep(const OrderLoss& loss);
    std::vector<Jobs> first_orders(Jobs by_date) const;
    void in_order(const Jobs& group);
    std::vector<long> standing() const;
    bool all_together(const Jobs& rest, OrderLoss& least, PlanPlaces& at);
    bool may_meet(std::size_t a, const JobPlace& at, std::size_t b, const JobPlace& first) const;
    std::optional<std::size_t> first_alone(const Jobs& rest, const PlanPlaces& at) const;
    long days_of_taking_turns(const Jobs& rest, const PlanPlaces& at) const;
    void descend(const Jobs& rest, const OrderLoss& so_far);
};

} // namespace acre::engine
