// Seasons made by hand: jobs of a crawler and of a tractor, on days and with money of their own.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/season/report.h"
#include "lang/units/calendar.h"

namespace made_season {

using namespace acre;

inline long day(const std::string& date) {
    return *lang::day_number(date);
}

// So many days of work by one machine, $1,000 a day charged, $600 a day spent, a tenth of it the
// fixed cost of the machine; 10 acres, 50 gallons and 10 hours a day.
inline engine::SeasonJob made_job(const std::string& title, const std::string& start, double days,
                                  const std::string& machine = "crawler", int units = 1) {
    engine::SeasonJob job;
    job.file = title + ".job";
    job.title = title;
    job.earliest = day(start);
    job.days = days;
    job.price = 1000 * days;
    job.cost = 600 * days;
    job.overhead = 100 * days;
    job.fixed = 60 * days;
    job.acres = 10 * days;
    job.gallons = 50 * days;
    job.uses = {{machine, units, 10 * days * units}};
    return job;
}

inline const std::vector<engine::SeasonMachine>& made_machines() {
    static const std::vector<engine::SeasonMachine> machines = {{"crawler", "", 100'000, 1'000},
                                                                {"tractor", "Walt", 20'000, 500}};
    return machines;
}

inline engine::Season season_of(std::vector<engine::SeasonJob> jobs,
                                const engine::SeasonQuestion& question = {}) {
    return engine::season(std::move(jobs), made_machines(), question);
}

inline cli::SeasonNames names_of(cli::Counted counted = cli::Counted::Jobs) {
    return {"summer", counted, {}, {}, 20, {}};
}

// From a line that begins so to the next empty one.
inline std::string section(const std::string& page, const std::string& head) {
    const std::size_t at = page.find("\n" + head);
    if (at == std::string::npos)
        return {};
    return page.substr(at + 1, page.find("\n\n", at + 1) - at);
}

} // namespace made_season
