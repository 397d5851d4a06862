#include "cli/season/days_grid.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace acre::cli {
namespace {

struct Stay {
    long first = 0, last = 0;
    std::size_t column = 0, job = 0;
};

} // namespace

DaysGrid days_grid(const engine::Season& season, const engine::UnitsOfJobs& units) {
    DaysGrid grid;
    std::map<std::string, std::size_t> machine_of;
    for (std::size_t m = 0; m < season.machines.size(); ++m)
        machine_of.emplace(season.machines[m].machine.name, m);
    std::map<std::pair<std::size_t, std::size_t>, std::vector<Stay>> stays;
    for (std::size_t i = 0; i < season.jobs.size(); ++i)
        for (const engine::UnitStay& stay : units[i]) {
            const auto machine = machine_of.find(season.jobs[i].uses[stay.use].machine);
            if (machine == machine_of.end())
                continue;
            const std::set<std::size_t> once(stay.units.begin(), stay.units.end());
            for (const std::size_t unit : once)
                stays[{machine->second, unit}].push_back({stay.days.first, stay.days.last, 0, i});
        }
    std::vector<Stay> all;
    std::set<long> changes;
    for (auto& [of, here] : stays) {
        for (Stay& stay : here) {
            stay.column = grid.columns.size();
            changes.insert(stay.first);
            changes.insert(stay.last + 1);
            all.push_back(stay);
        }
        grid.columns.push_back({of.first, of.second});
    }
    std::sort(all.begin(), all.end(), [](const Stay& a, const Stay& b) {
        return a.first != b.first ? a.first < b.first : a.job < b.job;
    });
    std::vector<Stay> now;
    std::size_t next = 0;
    bool gap = false;
    for (auto change = changes.begin(); change != changes.end(); ++change) {
        std::erase_if(now, [&](const Stay& stay) { return stay.last < *change; });
        for (; next < all.size() && all[next].first == *change; ++next)
            now.push_back(all[next]);
        if (now.empty()) {
            gap = true;
            continue;
        }
        if (grid.rows.size() == most_grid_rows) {
            grid.all = false;
            break;
        }
        DaysGrid::Row row{*change, *std::next(change) - 1, {}, gap && !grid.rows.empty()};
        row.jobs.resize(grid.columns.size());
        for (const Stay& stay : now)
            row.jobs[stay.column].push_back(stay.job);
        grid.rows.push_back(std::move(row));
        gap = false;
    }
    return grid;
}

} // namespace acre::cli
