// A season lived through day by day, in quarters of a day: who works, who holds which machine, what
// was spent. It knows the rules of the season from the language reference and nothing of how the
// program counts.
#pragma once

#include <chrono>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "engine/questions/season/season.h"

namespace acre::tests {

inline constexpr int parts_of_a_day = 4;

struct LivedStage {
    int parts = 0; // of a day of work, or of waiting
    bool waits = false;
};
struct LivedUse {
    std::string machine;
    int units = 1;
    double hours = 0;
    std::set<std::size_t> stages; // none: all of the job
};
struct LivedJob {
    long from = 0, latest = 0;
    bool has_latest = false;
    std::vector<LivedStage> stages;
    std::vector<LivedUse> uses;
    double price = 0, cost = 0, overhead = 0, fixed = 0, acres = 0, gallons = 0;
    double chance = 1;

    double left() const { return price - cost + fixed; }
};

// What one day of a job was.
struct LivedDay {
    bool work = false, open = false;
    std::set<std::size_t> stages; // it is in on that day, or stands in on a closed one
};
using LivedDays = std::map<long, LivedDay>; // from the first to the last

// 0: Sunday.
inline unsigned weekday(long day) {
    return std::chrono::weekday(std::chrono::sys_days{std::chrono::days{day}}).c_encoding();
}

class Lived {
  public:
    std::set<long> holidays;
    std::set<unsigned> weekdays_off;

    bool open(long day) const {
        return !holidays.contains(day) && !weekdays_off.contains(weekday(day));
    }

    // Day after day from the first on which anybody works.
    LivedDays live(const LivedJob& job, long from) const {
        LivedDays days;
        long day = from;
        while (!open(day))
            ++day;
        int used = 0; // parts of the day that are gone
        for (std::size_t s = 0; s < job.stages.size(); ++s) {
            int left = job.stages[s].parts;
            if (left == 0)
                continue;
            if (job.stages[s].waits) {
                if (used > 0) {
                    ++day;
                    used = 0;
                }
                for (int i = 0; i < left; i += parts_of_a_day)
                    days[day++].stages.insert(s);
                while (!open(day))
                    ++day;
                continue;
            }
            while (left > 0) {
                if (used == parts_of_a_day) {
                    used = 0;
                    for (++day; !open(day); ++day)
                        ;
                }
                days[day].stages.insert(s);
                days[day].work = true;
                ++used;
                --left;
            }
        }
        if (days.empty())
            days[day].work = true;
        for (long d = days.begin()->first; d < days.rbegin()->first; ++d)
            days[d]; // closed days between
        for (auto& [d, what] : days)
            what.open = open(d);
        return days;
    }

    // The days on which a use of the job holds its machines: from the first to the last of each run
    // of its stages that no open day parts, of other work or of waiting.
    static std::set<long> held(const LivedDays& days, const LivedUse& use) {
        std::set<long> all;
        std::vector<long> mine;
        for (const auto& [day, what] : days) {
            if (use.stages.empty()) {
                all.insert(day);
                continue;
            }
            for (const std::size_t stage : what.stages)
                if (use.stages.contains(stage) && (mine.empty() || mine.back() != day))
                    mine.push_back(day);
        }
        for (std::size_t i = 0; i < mine.size(); ++i) {
            all.insert(mine[i]);
            if (i + 1 == mine.size())
                break;
            bool parted = false;
            for (long day = mine[i] + 1; day < mine[i + 1]; ++day)
                parted = parted || days.at(day).open;
            if (!parted)
                for (long day = mine[i] + 1; day < mine[i + 1]; ++day)
                    all.insert(day);
        }
        if (!use.stages.empty() && all.empty())
            for (const auto& [day, what] : days)
                all.insert(day);
        return all;
    }

    static std::pair<int, unsigned> month(long day) {
        const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
        return {static_cast<int>(date.year()), static_cast<unsigned>(date.month())};
    }
};

} // namespace acre::tests
