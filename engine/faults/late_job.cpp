#include "engine/faults/late_job.h"

#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "engine/job/job_dates.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

class Dates {
  public:
    Dates(const PricedJob& job, lang::Diagnostics& diagnostics)
        : job_(job),
          info_(job.sheet().job),
          diagnostics_(diagnostics),
          calendar_(info_.closed),
          stages_(stages_of(job.sheet(), job.plan())) {}

    void run() {
        other_week();
        if (const std::optional<JobDates> dates = from(day_of(*info_.date));
            dates && dates->is_late())
            late(*dates);
    }

  private:
    std::optional<JobDates> from(long earliest) const {
        return job_dates(earliest,
                         info_.latest ? std::optional(day_of(*info_.latest)) : std::nullopt,
                         calendar_, stages_, job_.values().slot);
    }

    // The last day on which it can start and is still done in time: a later start is never done
    // sooner.
    std::optional<long> latest_start(const JobDates& late) const {
        static const long first = lang::day_number(lang::first_year, 1, 1);
        long good = late.earliest;
        for (long back = 1; good > first; back *= 2) {
            good = std::max(first, late.earliest - back);
            const std::optional<JobDates> dates = from(good);
            if (dates && !dates->is_late())
                break;
            if (good == first)
                return std::nullopt;
        }
        long bad = late.earliest;
        while (bad - good > 1) {
            const long middle = good + (bad - good) / 2;
            const std::optional<JobDates> dates = from(middle);
            (dates && !dates->is_late() ? good : bad) = middle;
        }
        return good;
    }

    void late(const JobDates& dates) {
        const long over = dates.finish - *dates.latest;
        const long closed = dates.calendar_days() - open_days(calendar_, dates.start, dates.finish);
        lang::Diagnostic d{
            lang::Code::L833,
            fmt::format("the job is done on {}, {} after its latest date",
                        lang::day_text(dates.finish), days_text(static_cast<double>(over))),
            {info_.latest->span, "the latest end"},
            {},
            {fmt::format("it takes {} of work from {} on{}", days_text(dates.work_days),
                         lang::day_text(dates.start),
                         closed > 0 ? fmt::format("; {} in between are closed or waited out",
                                                  days_text(static_cast<double>(closed)))
                                    : "")},
            {}};
        const std::string end = lang::date_text(*dates.latest);
        if (const std::optional<long> start = latest_start(dates))
            d.helps.push_back(
                help("start by " + lang::day_text(*start), lang::date_text(*start), end));
        d.helps.push_back(help("or agree to a later end", lang::date_text(dates.earliest),
                               lang::date_text(dates.finish)));
        diagnostics_.add(std::move(d));
    }
    lang::Help help(const std::string& what, const std::string& first,
                    const std::string& last) const {
        const lang::Span span{info_.date->span.file, info_.date->span.begin,
                              info_.latest->span.end};
        const std::string dates = first + " .. " + last;
        return {fmt::format("{}:  date {}", what, dates), lang::Edit{span, dates}};
    }
    static std::string days_text(double days) {
        return days == 1 ? "1 day" : lang::quantity_text(days, "days");
    }

    void other_week() {
        const int open = calendar_.open_weekdays();
        const lang::LineId line = days_per_week_of(job_.sheet());
        if (open == 7 || line == lang::none)
            return;
        const double counted = job_.value(line);
        if (!std::isfinite(counted) || counted == open)
            return;
        const std::string& name = job_.sheet().lines[line].name;
        lang::Diagnostic d{
            lang::Code::L834,
            fmt::format("the season is open {} days a week; the job counts on {}", open,
                        lang::number_text(counted)),
            {info_.date->span, "its dates go by the season"},
            {},
            {fmt::format("hours, nights and pay go by `{}`", name)},
            {{fmt::format("write  set {} = {}", name, open), std::nullopt},
             {"or write the days into the season on which you do not work, as in  closed sunday",
              std::nullopt}}};
        diagnostics_.add(std::move(d));
    }

    const PricedJob& job_;
    const lang::JobInfo& info_;
    lang::Diagnostics& diagnostics_;
    WorkCalendar calendar_;
    std::vector<Stage> stages_;
};

} // namespace

lang::LineId days_per_week_of(const lang::Sheet& sheet) {
    if (const lang::LineId own = sheet.find("days_per_week"); own != lang::none)
        return own;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id)
        if (sheet.lines[id].name.ends_with(".days_per_week"))
            return id;
    return lang::none;
}

void warn_of_dates(const PricedJob& job, lang::Diagnostics& diagnostics) {
    if (job.sheet().job.date)
        Dates(job, diagnostics).run();
}

} // namespace acre::engine
