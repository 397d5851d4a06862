#include "engine/questions/log_services.h"

#include <algorithm>
#include <set>

#include "engine/log/row_work.h"

namespace acre::engine {

LogServices::LogServices(const std::vector<CountedLine>& counted, const JobLog& log,
                         const LogTotals& totals)
    : counted_(counted),
      log_(log),
      several_(counts_several_services(counted) &&
               std::any_of(log.work.begin(), log.work.end(),
                           [](const std::string& column) { return !service_of(column).empty(); })) {
    if (!several_)
        return;
    for (const CountedLine& line : counted)
        if (log.work.contains(line.name) && line.quoted > 0)
            if (const auto done = totals.counted.find(line.name); done != totals.counted.end())
                shares_.emplace(service_of(line.name),
                                done->second * filled(totals, line.name) / line.quoted);
    std::map<std::string, ByService> meters; // of each machine
    std::set<std::string> without;           // services with a meter and no column of their work
    std::set<std::string> same;              // machines with two meters in one service
    for (const CountedLine& line : counted) {
        if (line.how != Counting::Meter)
            continue;
        const std::string service(service_of(line.name));
        if (!meters[line.machine].emplace(service, &line).second)
            same.insert(line.machine);
        if (std::none_of(log.work.begin(), log.work.end(),
                         [&](const std::string& column) { return service_of(column) == service; }))
            without.insert(service);
    }
    // A column of the job's own work is of the only service that has none.
    if (without.size() == 1 && shares_.contains("")) {
        own_ = *without.begin();
        shares_[own_] = shares_[""];
    }
    for (const auto& [machine, lines] : meters)
        if (lines.size() > 1 && !same.contains(machine))
            find_hours(machine, lines, meters.size() == 1);
}

void LogServices::find_hours(const std::string& machine, const ByService& meters,
                             bool only_machine) {
    std::map<const CountedLine*, double> hours;
    double all = 0, told = 0; // rows without any work are like the others
    for (const LogRow& row : log_.rows) {
        if (!(row.hours > 0) || (!only_machine && !names_machine(row.of, machine)))
            continue;
        std::set<std::string, std::less<>> services = row.services;
        if (services.size() > 1)
            services.erase(""); // the acres of the job beside the yards of a service
        all += row.hours;
        if (services.empty())
            continue;
        if (services.size() > 1)
            return;
        told += row.hours;
        const auto of = meters.find(services.begin()->empty() ? own_ : *services.begin());
        if (of == meters.end())
            return;
        hours[of->second] += row.hours;
    }
    if (!hours.empty())
        for (const auto& [service, line] : meters)
            hours_[line] = hours[line] * all / told;
}

std::optional<double> LogServices::hours(const CountedLine& meter) const {
    const auto found = hours_.find(&meter);
    return found == hours_.end() ? std::nullopt : std::optional(found->second);
}

double LogServices::share(std::string_view service) const {
    const auto found = shares_.find(service);
    return found == shares_.end() ? 0 : found->second;
}

double LogServices::share_of_all() const {
    double all = 0, done = 0;
    for (const CountedLine& line : counted_)
        if (line.how == Counting::Meter) {
            all += line.quoted;
            done += line.quoted * std::min(1.0, share(service_of(line.name)));
        }
    return all > 0 ? done / all : share("");
}

} // namespace acre::engine
