// Seasons drawn at random, as the program is told of them and as they are lived day by day.
#pragma once

#include <chrono>
#include <memory>
#include <string>

#include "tests/engine/questions/season/by_the_day.h"
#include "tests/support/dice.h"

namespace acre::tests {

using namespace acre::engine;

inline constexpr long year_start = 20'819; // January 1, 2027

struct Drawn { // a season, as the program is told of it and as it is lived
    Lived lived;
    std::vector<LivedJob> jobs;
    std::vector<SeasonJob> told;
    std::vector<SeasonMachine> machines;
    SeasonQuestion question;
};

class Draw {
  public:
    explicit Draw(Dice dice) : dice_(dice) {}
    int whole(int low, int high) {
        return low + static_cast<int>(dice_.below(static_cast<std::size_t>(high - low + 1)));
    }
    double money(int low, int high) { return whole(low * 100, high * 100) / 100.0; }

    Drawn season(int jobs) {
        Drawn drawn;
        std::vector<lang::ast::Closed> closed;
        const auto off = static_cast<unsigned>(whole(0, 15));
        for (unsigned day = 0; day < 7; ++day) // mostly Sunday, or the days that the bits are of
            if (off < 8 ? day == 0 && off > 0 : (off + day) % 3 == 0 && day < off - 7) {
                drawn.lived.weekdays_off.insert(day);
                closed.push_back({static_cast<int>(day), {}, {}, {}});
            }
        for (int i = whole(0, 4); i > 0; --i) {
            const long first = year_start + whole(100, 200);
            const long last = first + whole(0, 12);
            for (long day = first; day <= last; ++day)
                drawn.lived.holidays.insert(day);
            closed.push_back({{}, date(first), date(last), {}});
        }
        const auto calendar = std::make_shared<const WorkCalendar>(closed);
        for (const char* name : {"crawler", "loader", "walt.rig"}) {
            drawn.machines.push_back({name, "", money(10'000, 120'000), money(800, 2'400), false});
            if (whole(0, 1) == 1)
                drawn.question.fleet[name] = {whole(1, 3), {}};
        }
        for (int i = 0; i < jobs; ++i)
            one_job(drawn, calendar);
        drawn.question.net_days = whole(0, 60);
        if (whole(0, 1) == 1)
            drawn.question.overhead = money(20'000, 200'000);
        return drawn;
    }

  private:
    Dice dice_;

    static lang::ast::Date date(long day) {
        const std::chrono::year_month_day of{std::chrono::sys_days{std::chrono::days{day}}};
        return {static_cast<int>(of.year()),
                static_cast<int>(static_cast<unsigned>(of.month())),
                static_cast<int>(static_cast<unsigned>(of.day())),
                {}};
    }

    void one_job(Drawn& drawn, const std::shared_ptr<const WorkCalendar>& calendar) {
        LivedJob job;
        job.from = year_start + whole(110, 175);
        for (int s = whole(1, 4); s > 0; --s)
            job.stages.push_back({whole(0, 19), whole(0, 3) == 0});
        if (whole(0, 3) == 0) {
            job.has_latest = true;
            job.latest = job.from + whole(10, 40);
        }
        job.price = money(10'000, 200'000);
        job.cost = money(8'000, 190'000);
        job.overhead = money(0, 15'000);
        job.fixed = money(0, 9'000);
        job.acres = whole(0, 300);
        job.gallons = whole(0, 3'000);
        if (whole(0, 4) == 4)
            job.chance = whole(1, 99) / 100.0;
        SeasonJob told;
        told.title = "job " + std::to_string(drawn.jobs.size());
        for (std::size_t m = 0; m < drawn.machines.size(); ++m) {
            if (whole(0, 1) == 0)
                continue;
            LivedUse use{drawn.machines[m].name, whole(1, 4) == 4 ? 2 : 1, money(5, 200), {}};
            if (whole(0, 1) == 1)
                for (std::size_t s = 0; s < job.stages.size(); ++s)
                    if (whole(0, 1) == 1)
                        use.stages.insert(s);
            told.uses.push_back(
                {use.machine, use.units, use.hours, {use.stages.begin(), use.stages.end()}});
            job.uses.push_back(std::move(use));
        }
        told.earliest = job.from;
        if (job.has_latest)
            told.latest = job.latest;
        for (const LivedStage& stage : job.stages)
            told.stages.push_back({static_cast<double>(stage.parts) / parts_of_a_day, stage.waits});
        told.calendar = calendar;
        told.price = job.price;
        told.cost = job.cost;
        told.overhead = job.overhead;
        told.fixed = job.fixed;
        told.acres = job.acres;
        told.gallons = job.gallons;
        told.chance = job.chance;
        told.who = std::string(std::size_t{1}, static_cast<char>('a' + whole(0, 3)));
        if (whole(0, 1) == 1)
            told.boundary = whole(0, 1) == 1 ? "north.geojson" : "south.geojson";
        drawn.jobs.push_back(std::move(job));
        drawn.told.push_back(std::move(told));
    }
};

inline int owned(const Drawn& drawn, const std::string& machine) {
    const auto found = drawn.question.fleet.find(machine);
    return found == drawn.question.fleet.end() ? 1 : found->second.count;
}

// Where the program put a job: it sorts them. Past all jobs: it is lost.
inline std::size_t told_of(const Season& season, std::size_t job) {
    const std::string title = "job " + std::to_string(job);
    std::size_t at = 0;
    while (at < season.jobs.size() && season.jobs[at].title != title)
        ++at;
    return at;
}

} // namespace acre::tests
