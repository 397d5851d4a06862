#include "engine/questions/season/months.h"

#include <algorithm>

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

    // Calls `take` with the row of each month and the share of the days that fall into it.
    template <class Take> void spread(const std::vector<DaySpan>& days, Take take) {
        const auto all = static_cast<double>(days_in(days));
        for (const DaySpan& span : days)
            for (long day = span.first; day <= span.last;) {
                const int month = lang::month_count(day);
                const long next =
                    lang::day_number((month + 1) / 12, (month + 1) % 12 + 1, 1); // first of it
                const long last = std::min(span.last, next - 1);
                take(at(day), static_cast<double>(last - day + 1) / all);
                day = last + 1;
            }
    }

    std::vector<MonthRow> all() const {
        std::vector<MonthRow> result;
        if (rows_.empty())
            return result;
        double so_far = 0;
        for (int index = rows_.begin()->first; index <= rows_.rbegin()->first; ++index) {
            const auto row = rows_.find(index);
            MonthRow& now = result.emplace_back(row == rows_.end() ? MonthRow{} : row->second);
            now.year = index / 12;
            now.month = index % 12 + 1;
            so_far += now.left;
            now.left_so_far = so_far;
        }
        return result;
    }

  private:
    std::map<int, MonthRow> rows_;
};

} // namespace

std::vector<MonthRow> month_rows(const std::vector<SeasonJob>& jobs,
                                 const std::vector<JobPlace>& places, long net_days) {
    Months months;
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        const SeasonJob& job = jobs[i];
        months.spread(places[i].work, [&](MonthRow& row, double share) {
            row.job_days += job.chance * static_cast<double>(days_in(places[i].work)) * share;
            row.acres += job.chance * job.acres * share;
            row.gallons += job.chance * job.gallons * share;
            row.spent += job.chance * job.cost * share;
            row.left += job.chance * job.left() * share;
        });
        for (std::size_t u = 0; u < job.uses.size(); ++u)
            months.spread(places[i].runs[u], [&](MonthRow& row, double share) {
                row.hours[job.uses[u].machine] += job.chance * job.uses[u].hours * share;
            });
        months.at(places[i].finish).billed += job.chance * job.price;
        months.at(places[i].finish + net_days).received += job.chance * job.price;
    }
    return months.all();
}

} // namespace acre::engine
