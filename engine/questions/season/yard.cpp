#include "engine/questions/season/yard.h"

#include <algorithm>
#include <utility>

namespace acre::engine {
namespace {

constexpr std::size_t max_kept_places = 50'000;

} // namespace

Yard::Yard(const std::vector<SeasonJob>& jobs, const std::map<std::string, Owned>& fleet,
           long first, long last)
    : jobs_(jobs),
      first_(first),
      last_(last),
      known_(jobs.size()) {
    for (const SeasonJob& job : jobs) {
        std::vector<std::size_t>& of = machines_.emplace_back();
        for (const MachineUse& use : job.uses) {
            if (machine_.emplace(use.machine, owned_.size()).second)
                owned_.push_back(owned_of(fleet, use.machine).count);
            of.push_back(machine_.at(use.machine));
        }
    }
    out_.assign(owned_.size(),
                std::vector<int>(static_cast<std::size_t>(std::max(0L, last - first + 1))));
}

const JobPlace& Yard::place_from(std::size_t job, long day) {
    auto& known = known_[job];
    const auto found = known.find(day);
    if (found != known.end())
        return found->second;
    if (kept_ >= max_kept_places)
        return passing_ = place(jobs_[job], day);
    ++kept_;
    return known.emplace(day, place(jobs_[job], day)).first->second;
}

// Empty: it is free. Else the first day worth trying: a machine that stays from the first day of a
// job to its last meets a day that is taken whenever the job starts before the day is over.
std::optional<long> Yard::try_next(std::size_t job, const JobPlace& at) const {
    std::optional<long> next;
    for (std::size_t u = 0; u < jobs_[job].uses.size(); ++u) {
        const MachineUse& use = jobs_[job].uses[u];
        const std::size_t machine = machines_[job][u];
        for (const DaySpan& days : at.held[u])
            for (long day = days.last; day >= days.first; --day) {
                if (out_[machine][static_cast<std::size_t>(day - first_)] + use.units <=
                    owned_[machine])
                    continue;
                next = std::max(next.value_or(0), use.stages.empty() ? day + 1 : at.start + 1);
                break;
            }
    }
    return next;
}

std::optional<JobPlace> Yard::first_place(std::size_t job, long latest, long from) {
    for (std::size_t u = 0; u < jobs_[job].uses.size(); ++u)
        if (jobs_[job].uses[u].units > owned_[machines_[job][u]])
            return std::nullopt;
    for (from = std::max(from, jobs_[job].earliest); !is_worn_out();) {
        ++trials_;
        const JobPlace& at = place_from(job, from);
        if (at.finish > std::min(latest, last_))
            return std::nullopt;
        const std::optional<long> next = try_next(job, at);
        if (!next)
            return at;
        from = *next;
    }
    return std::nullopt;
}

void Yard::add(std::size_t job, const JobPlace& at, int by) {
    for (std::size_t u = 0; u < jobs_[job].uses.size(); ++u) {
        std::vector<int>& out = out_[machines_[job][u]];
        for (const DaySpan& days : at.held[u])
            for (long day = days.first; day <= days.last; ++day)
                out[static_cast<std::size_t>(day - first_)] += by * jobs_[job].uses[u].units;
    }
}

} // namespace acre::engine
