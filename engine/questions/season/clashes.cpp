#include "engine/questions/season/clashes.h"

#include <algorithm>
#include <tuple>

namespace acre::engine {
namespace {

struct Hold { // a stay of a job's machines on one run of days
    long first = 0, last = 0;
    std::size_t job = 0;
    int units = 1;
};

struct Short { // days on which more is wanted than is owned
    long first = 0, last = 0;
    int wanted = 0;
};

std::map<std::string, std::vector<Hold>> holds_by_machine(const std::vector<SeasonJob>& jobs,
                                                          const std::vector<JobPlace>& places) {
    std::map<std::string, std::vector<Hold>> holds;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        for (std::size_t u = 0; u < jobs[i].uses.size(); ++u)
            for (const DaySpan& days : places[i].held[u])
                holds[jobs[i].uses[u].machine].push_back(
                    {days.first, days.last, i, jobs[i].uses[u].units});
    for (auto& [machine, of] : holds)
        std::stable_sort(of.begin(), of.end(),
                         [](const Hold& a, const Hold& b) { return a.first < b.first; });
    return holds;
}

std::vector<Short> short_days(const std::vector<Hold>& holds, int owned) {
    std::map<long, int> change;
    for (const Hold& hold : holds) {
        change[hold.first] += hold.units;
        change[hold.last + 1] -= hold.units;
    }
    std::vector<Short> days;
    int now = 0;
    for (auto at = change.begin(); at != change.end(); ++at) {
        now += at->second;
        if (now <= owned)
            continue;
        const long last = std::next(at)->first - 1; // what begins also ends
        if (!days.empty() && days.back().last + 1 == at->first) {
            days.back().last = last;
            days.back().wanted = std::max(days.back().wanted, now);
        } else {
            days.push_back({at->first, last, now});
        }
    }
    return days;
}

class Finder {
  public:
    Finder(const std::vector<SeasonJob>& jobs, Clashes& into) : jobs_(jobs), into_(into) {}

    void machine(const std::string& name, const std::vector<Hold>& holds, int owned) {
        name_ = name;
        owned_ = owned;
        short_ = short_days(holds, owned);
        if (short_.empty())
            return;
        std::vector<const Hold*> there;
        for (const Hold& hold : holds) {
            if (!is_short(hold.first, hold.last))
                continue;
            std::erase_if(there, [&](const Hold* other) { return other->last < hold.first; });
            if (hold.units > owned)
                pair(hold, nullptr);
            for (const Hold* other : there)
                if (other->job != hold.job)
                    pair(*other, &hold);
            there.push_back(&hold);
            if (!into_.all)
                return;
        }
    }

  private:
    std::vector<Short>::const_iterator from_day(long day) const {
        return std::lower_bound(
            short_.begin(), short_.end(), day,
            [](const Short& s, long from) { return s.last < from; });
    }
    bool is_short(long first, long last) const {
        const auto days = from_day(first);
        return days != short_.end() && days->first <= last;
    }

    // The days on which both are there and too much is wanted, run by run.
    void pair(const Hold& first, const Hold* second) {
        const long from = second == nullptr ? first.first : second->first;
        const long to = second == nullptr ? first.last : std::min(first.last, second->last);
        for (auto days = from_day(from); days != short_.end() && days->first <= to; ++days) {
            if (into_.listed.size() == max_clashes) {
                into_.all = false;
                return;
            }
            Clash clash;
            clash.machine = name_;
            clash.first = first.job;
            clash.second = second == nullptr ? Clash::none : second->job;
            clash.from = std::max(from, days->first);
            clash.to = std::min(to, days->last);
            clash.wanted = days->wanted;
            clash.owned = owned_;
            clash.may_be =
                jobs_[first.job].chance < 1 || (second != nullptr && jobs_[second->job].chance < 1);
            into_.listed.push_back(std::move(clash));
        }
    }

    const std::vector<SeasonJob>& jobs_;
    Clashes& into_;
    std::string name_;
    int owned_ = 1;
    std::vector<Short> short_;
};

} // namespace

Clashes find_clashes(const std::vector<SeasonJob>& jobs, const std::vector<JobPlace>& places,
                     const std::map<std::string, Owned>& fleet) {
    Clashes clashes;
    Finder finder(jobs, clashes);
    for (const auto& [machine, holds] : holds_by_machine(jobs, places))
        finder.machine(machine, holds, owned_of(fleet, machine).count);
    std::stable_sort(clashes.listed.begin(), clashes.listed.end(),
                     [](const Clash& a, const Clash& b) {
                         return std::tie(a.from, a.machine, a.first, a.second) <
                                std::tie(b.from, b.machine, b.first, b.second);
                     });
    return clashes;
}

} // namespace acre::engine
