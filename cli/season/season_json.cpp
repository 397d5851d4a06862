#include "cli/season/report.h"
#include "cli/shared/json/value.h"
#include "lang/units/calendar.h"

namespace acre::cli {

Document season_json(const engine::Season& season) {
    Json out = {{"schema", "acrewright.season/3"}, {"money", money_json()},
                {"jobs", Json::array()},           {"machines", Json::array()},
                {"months", Json::array()},         {"clashes", Json::array()}};
    for (const engine::SeasonJob& job : season.jobs)
        out["jobs"].push_back({{"file", job.file},
                               {"title", job.title},
                               {"for", job.who},
                               {"start", lang::date_text(job.start)},
                               {"finish", lang::date_text(job.finish)},
                               {"days", number(job.days)},
                               {"closed_days", job.closed.size()},
                               {"price", number(job.price)},
                               {"direct_cost", number(job.cost)},
                               {"overhead", number(job.overhead)},
                               {"profit", number(job.profit())},
                               {"acres", number(job.acres)},
                               {"gallons", number(job.gallons)},
                               {"hours", job.hours}});
    for (const engine::MachineRow& row : season.machines)
        out["machines"].push_back({{"name", row.machine.name},
                                   {"booked", number(row.booked)},
                                   {"assumed", number(row.machine.hours_per_year)},
                                   {"fixed_at_booked", number(row.fixed_at_booked)},
                                   {"fixed_per_year", number(row.machine.fixed_per_year)},
                                   {"not_earned", number(row.not_earned)},
                                   {"idle_hour", number(row.idle_hour)}});
    for (const engine::MonthRow& row : season.months)
        out["months"].push_back({{"year", row.year},
                                 {"month", row.month},
                                 {"job_days", number(row.job_days)},
                                 {"acres", number(row.acres)},
                                 {"gallons", number(row.gallons)},
                                 {"spent", number(row.spent)},
                                 {"billed", number(row.billed)},
                                 {"hours", row.hours}});
    for (const engine::Clash& clash : season.clashes)
        out["clashes"].push_back({{"machine", clash.machine},
                                  {"first", season.jobs[clash.first].title},
                                  {"second", season.jobs[clash.second].title},
                                  {"from", lang::date_text(clash.from)},
                                  {"to", lang::date_text(clash.to)}});
    out["price"] = number(season.price);
    out["direct_cost"] = number(season.cost);
    out["overhead"] = number(season.overhead);
    out["contribution"] = number(season.price - season.cost);
    out["profit"] = number(season.price - season.cost - season.overhead);
    out["fixed"] = number(season.fixed);
    out["left_for_machines"] = number(season.left_for_machines);
    out["break_even_acres"] = number(season.break_even_acres);
    return answered(std::move(out));
}

} // namespace acre::cli
