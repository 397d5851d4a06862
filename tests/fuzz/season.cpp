// Bytes throw the dice of tests/engine/questions/season/drawn_seasons.h: jobs with stages and
// waits, machines, closed days, offers. The season is lived through day by day, and the plan of few
// jobs is held against every order of them.
#include "engine/job/job_dates.h"
#include "tests/engine/questions/season/lived_plan.h"
#include "tests/fuzz/target.h"

namespace season_fuzz {

using namespace acre;

namespace {

// Days of work and closed days, one by one.
void hold_calendar(const tests::Drawn& drawn) {
    for (std::size_t i = 0; i < drawn.told.size(); ++i) {
        const engine::WorkCalendar& calendar = *drawn.told[i].calendar;
        const long first = drawn.jobs[i].from;
        long open = 0;
        for (long day = first; day < first + 60; ++day) {
            HOLDS(calendar.is_open(day) == drawn.lived.open(day));
            HOLDS(calendar.why_closed(day).empty() == drawn.lived.open(day));
            open += drawn.lived.open(day) ? 1 : 0;
            HOLDS(engine::open_days(calendar, first, day) == open);
        }
        HOLDS(calendar.open_weekdays() == 7 - static_cast<int>(drawn.lived.weekdays_off.size()));
    }
}

} // namespace

ACREWRIGHT_TARGET(season, bytes) {
    tests::Draw draw(tests::Dice{bytes});
    const int jobs = draw.whole(1, 9);
    tests::Drawn drawn = draw.season(jobs);
    if (jobs <= 4)
        drawn.question.until = tests::year_start + draw.whole(180, 240);
    hold_calendar(drawn);
    const engine::Season season = engine::season(drawn.told, drawn.machines, drawn.question);
    const std::string amiss = tests::amiss_in(drawn, season);
    HOLDS_FOR(amiss.empty(), amiss);
    if (jobs <= 4) {
        const std::string plan = tests::amiss_in_plan(drawn, season);
        HOLDS_FOR(plan.empty(), plan);
    }
    fuzz::show(std::to_string(season.clashes.listed.size()) + " clashes");
}

} // namespace season_fuzz
