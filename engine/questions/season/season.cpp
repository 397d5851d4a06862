#include "engine/questions/season/season.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lang/units/calendar.h"

namespace acre::engine {
namespace {

class Months {
  public:
    MonthRow& at(long day) {
        const int index = lang::month_count(day);
        MonthRow& row = rows_[index];
        row.year = index / 12;
        row.month = index % 12 + 1;
        return row;
    }
    std::vector<MonthRow> all() const {
        std::vector<MonthRow> result;
        if (rows_.empty())
            return result;
        for (int index = rows_.begin()->first; index <= rows_.rbegin()->first; ++index) {
            const auto row = rows_.find(index);
            result.push_back(row != rows_.end()
                                 ? row->second
                                 : MonthRow{index / 12, index % 12 + 1, 0, 0, 0, 0, 0, {}});
        }
        return result;
    }

  private:
    std::map<int, MonthRow> rows_;
};

// A job's work falls evenly on the days that are open.
void spread(const SeasonJob& job, long net_days, Months& months) {
    const auto closed_before = [&job](long day) {
        return std::lower_bound(job.closed.begin(), job.closed.end(), day) - job.closed.begin();
    };
    const auto open = [&](long from, long end) { // `end` is past the last
        return static_cast<double>(end - from - (closed_before(end) - closed_before(from)));
    };
    const double days = open(job.start, job.finish + 1);
    for (long day = job.start; day <= job.finish;) {
        MonthRow& row = months.at(day);
        long end = day;
        while (end <= job.finish && lang::month_count(end) == lang::month_count(day))
            ++end;
        const double share = open(day, end) / days;
        row.job_days += job.days * share;
        row.gallons += job.gallons * share;
        row.acres += job.acres * share;
        row.spent += job.cost * share;
        for (const auto& [machine, hours] : job.hours)
            row.hours[machine] += hours * share;
        day = end;
    }
    months.at(job.finish + net_days).billed += job.price;
}

std::vector<Clash> clashes_of(const std::vector<SeasonJob>& jobs, const std::string& machine,
                              int fleet) {
    std::vector<Clash> clashes;
    std::vector<std::size_t> at_work;
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        const auto hours = jobs[i].hours.find(machine);
        if (hours == jobs[i].hours.end() || hours->second <= 0)
            continue;
        std::erase_if(at_work, [&](std::size_t k) { return jobs[k].finish < jobs[i].start; });
        if (static_cast<int>(at_work.size()) >= fleet) {
            // It waits for whichever is done first; the days until then are the clash.
            const std::size_t first = *std::min_element(
                at_work.begin(), at_work.end(),
                [&](std::size_t a, std::size_t b) { return jobs[a].finish < jobs[b].finish; });
            clashes.push_back(
                {machine, first, i, jobs[i].start, std::min(jobs[first].finish, jobs[i].finish)});
        }
        at_work.push_back(i);
    }
    return clashes;
}

MachineRow machine_row(const SeasonMachine& machine, const std::vector<SeasonJob>& jobs) {
    MachineRow row;
    row.machine = machine;
    for (const SeasonJob& job : jobs)
        if (const auto hours = job.hours.find(machine.name); hours != job.hours.end())
            row.booked += hours->second;
    const double planned = machine.hours_per_year;
    row.share = planned > 0 ? row.booked / planned : 0;
    row.idle_hour = planned > 0 ? machine.fixed_per_year / planned : 0;
    row.not_earned = machine.fixed_per_year - row.idle_hour * row.booked;
    row.fixed_at_booked = row.booked > 0 ? machine.fixed_per_year / row.booked : 0;
    return row;
}

} // namespace

Season season(std::vector<SeasonJob> jobs, const std::vector<SeasonMachine>& machines,
              const std::map<std::string, int>& fleet, long net_days) {
    Season result;
    std::stable_sort(jobs.begin(), jobs.end(),
                     [](const SeasonJob& a, const SeasonJob& b) { return a.start < b.start; });
    Months months;
    for (SeasonJob& job : jobs)
        if (job.finish < job.start)
            job.finish = job.start + std::max(0L, static_cast<long>(std::ceil(job.days)) - 1);
    for (const SeasonJob& job : jobs) {
        spread(job, net_days, months);
        result.price += job.price;
        result.cost += job.cost;
        result.overhead += job.overhead;
        result.acres += job.acres;
    }
    result.months = months.all();
    result.left_for_machines = result.price - result.cost - result.overhead;
    for (const SeasonMachine& machine : machines) {
        MachineRow& row = result.machines.emplace_back(machine_row(machine, jobs));
        result.fixed += machine.fixed_per_year;
        result.left_for_machines += row.idle_hour * row.booked;
        const auto count = fleet.find(machine.name);
        const std::vector<Clash> clashes =
            clashes_of(jobs, machine.name, count == fleet.end() ? 1 : count->second);
        result.clashes.insert(result.clashes.end(), clashes.begin(), clashes.end());
    }
    std::stable_sort(
        result.machines.begin(), result.machines.end(),
        [](const MachineRow& a, const MachineRow& b) { return a.booked > b.booked; });
    std::stable_sort(result.clashes.begin(), result.clashes.end(),
                     [](const Clash& a, const Clash& b) { return a.from < b.from; });
    if (result.left_for_machines > 0)
        result.break_even_acres = result.acres * result.fixed / result.left_for_machines;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        result.by_day_pay.push_back(i);
    std::stable_sort(result.by_day_pay.begin(), result.by_day_pay.end(),
                     [&](std::size_t a, std::size_t b) {
                         return jobs[a].profit_a_day() < jobs[b].profit_a_day();
                     });
    result.jobs = std::move(jobs);
    return result;
}

} // namespace acre::engine
