#include "engine/book/past_plan.h"

#include <fmt/format.h>

#include "engine/job/job_dates.h"
#include "lang/units/calendar.h"

namespace acre::engine {

std::optional<lang::Diagnostic> planned_before(const PricedJob& job, long day) {
    const lang::JobInfo& info = job.sheet().job;
    const std::optional<lang::ast::Date>& last = info.latest ? info.latest : info.date;
    if (!last || day_of(*last) >= day)
        return std::nullopt;
    lang::Diagnostic d{lang::Code::L843,
                       fmt::format("the work is planned for {}, and the quote is of {}",
                                   lang::day_text(day_of(*last)), lang::day_text(day)),
                       {last->span, "past by then"},
                       {},
                       {},
                       {}};
    d.helps.push_back({"write the day on which the work can begin now, or give the quote its day "
                       "with `--date`",
                       std::nullopt});
    return d;
}

} // namespace acre::engine
