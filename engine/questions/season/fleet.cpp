#include "engine/questions/season/fleet.h"

#include <algorithm>
#include <limits>
#include <set>
#include <tuple>

namespace acre::engine {
namespace {

constexpr long never = std::numeric_limits<long>::min();

// A stay of a job's machines, in the order of the days.
struct Stay {
    DaySpan days;
    std::size_t job = 0, use = 0;
};

std::vector<Stay> stays_of(const std::vector<SeasonJob>& jobs,
                           const std::vector<JobPlace>& places) {
    std::vector<Stay> stays;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        for (std::size_t u = 0; u < jobs[i].uses.size(); ++u)
            for (const DaySpan& days : places[i].held[u])
                stays.push_back({days, i, u});
    std::stable_sort(stays.begin(), stays.end(), [](const Stay& a, const Stay& b) {
        return std::tie(a.days.first, a.job) < std::tie(b.days.first, b.job);
    });
    return stays;
}

// `until`: by unit, the last day on which it is taken.
std::vector<std::size_t> units_for(std::vector<long>& until, const DaySpan& days, int wanted) {
    std::vector<std::size_t> chosen, busy;
    for (std::size_t k = 0; k < until.size(); ++k)
        (until[k] < days.first ? chosen : busy).push_back(k);
    std::stable_sort(busy.begin(), busy.end(),
                     [&](std::size_t a, std::size_t b) { return until[a] < until[b]; });
    chosen.insert(chosen.end(), busy.begin(), busy.end());
    const std::size_t there = chosen.size();
    for (std::size_t i = there; i < static_cast<std::size_t>(wanted); ++i)
        chosen.push_back(chosen[i % there]);
    chosen.resize(static_cast<std::size_t>(wanted));
    for (const std::size_t k : chosen)
        until[k] = std::max(until[k], days.last);
    return chosen;
}

// The share of the days of work of a use that fall into a stay of it.
double share_of_work(const std::vector<DaySpan>& runs, const DaySpan& stay) {
    long within = 0;
    for (const DaySpan& run : runs)
        within += std::max(0L, std::min(run.last, stay.last) - std::max(run.first, stay.first) + 1);
    return static_cast<double>(within) / static_cast<double>(days_in(runs));
}

int most_at_once(const std::vector<SeasonJob>& jobs, const std::vector<JobPlace>& places,
                 const std::string& machine) {
    std::map<long, int> change;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        for (std::size_t u = 0; u < jobs[i].uses.size(); ++u)
            if (jobs[i].uses[u].machine == machine)
                for (const DaySpan& days : places[i].held[u]) {
                    change[days.first] += jobs[i].uses[u].units;
                    change[days.last + 1] -= jobs[i].uses[u].units;
                }
    int now = 0, most = 0;
    for (const auto& [day, by] : change)
        most = std::max(most, now += by);
    return most;
}

MachineRow empty_row(const SeasonMachine& machine, const Owned& owned) {
    MachineRow row;
    row.machine = machine;
    row.owned = owned.count;
    row.fixed = machine.fixed_per_year * owned.count;
    row.idle_hour =
        machine.hours_per_year > 0 ? machine.fixed_per_year / machine.hours_per_year : 0;
    for (int k = 0; k < owned.count; ++k) {
        const auto at = static_cast<std::size_t>(k);
        row.units.emplace_back().name = at < owned.names.size() ? owned.names[at]
                                        : owned.count > 1       ? std::to_string(k + 1)
                                                                : std::string();
    }
    return row;
}

void finish_row(MachineRow& row) {
    for (UnitRow& unit : row.units) {
        const double assumed = row.machine.hours_per_year;
        unit.share = assumed > 0 ? unit.booked / assumed : 0;
        unit.fixed_at_booked = unit.booked > 0 ? row.machine.fixed_per_year / unit.booked : 0;
        unit.not_covered = row.machine.fixed_per_year - row.idle_hour * unit.booked;
        unit.idle = std::max(0.0, unit.not_covered);
        row.booked += unit.booked;
    }
    const double assumed = row.machine.hours_per_year * row.owned;
    row.share = assumed > 0 ? row.booked / assumed : 0;
    row.not_covered = row.fixed - row.idle_hour * row.booked;
}

} // namespace

Owned owned_of(const std::map<std::string, Owned>& fleet, const std::string& machine) {
    const auto found = fleet.find(machine);
    return found == fleet.end() ? Owned{} : found->second;
}

UnitsOfJobs assign_units(const std::vector<SeasonJob>& jobs, const std::vector<JobPlace>& places,
                         const std::map<std::string, Owned>& fleet) {
    UnitsOfJobs units(jobs.size());
    std::map<std::string, std::vector<long>> taken;
    for (const Stay& stay : stays_of(jobs, places)) {
        const MachineUse& use = jobs[stay.job].uses[stay.use];
        std::vector<long>& until = taken[use.machine];
        if (until.empty())
            until.assign(static_cast<std::size_t>(owned_of(fleet, use.machine).count), never);
        units[stay.job].push_back(
            {stay.use, stay.days,
             units_for(until, stay.days, std::clamp(use.units, 1, max_units))});
    }
    return units;
}

std::vector<MachineRow> machine_rows(const std::vector<SeasonJob>& jobs,
                                     const std::vector<JobPlace>& places,
                                     const std::vector<SeasonMachine>& machines,
                                     const std::map<std::string, Owned>& fleet,
                                     const UnitsOfJobs& units) {
    std::vector<MachineRow> rows;
    std::map<std::string, std::size_t> row_of;
    for (const SeasonMachine& machine : machines) {
        row_of.emplace(machine.name, rows.size());
        rows.push_back(empty_row(machine, owned_of(fleet, machine.name)));
        rows.back().most_wanted = most_at_once(jobs, places, machine.name);
    }
    for (std::size_t i = 0; i < jobs.size(); ++i)
        for (const UnitStay& stay : units[i]) {
            const MachineUse& use = jobs[i].uses[stay.use];
            const auto row = row_of.find(use.machine);
            if (row == row_of.end())
                continue;
            const double each = jobs[i].chance * use.hours *
                                share_of_work(places[i].runs[stay.use], stay.days) /
                                static_cast<double>(stay.units.size());
            for (const std::size_t k : stay.units)
                rows[row->second].units[k].booked += each;
            const std::set<std::size_t> once(stay.units.begin(), stay.units.end());
            for (const std::size_t k : once)
                rows[row->second].units[k].days_held += stay.days.days();
        }
    for (MachineRow& row : rows)
        finish_row(row);
    std::stable_sort(rows.begin(), rows.end(),
                     [](const MachineRow& a, const MachineRow& b) { return a.booked > b.booked; });
    return rows;
}

} // namespace acre::engine
