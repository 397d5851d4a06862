#include "cli/season/calendar_svg.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/season/report.h"
#include "cli/shared/chart/axis.h"
#include "cli/shared/text/figures.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

// The day after the last one of the job.
long end_of(const engine::SeasonJob& job) {
    return job.finish + 1;
}

class Picture {
  public:
    explicit Picture(const engine::Season& season) : s_(season), paper_("Calendar of jobs") {
        for (const engine::SeasonJob& job : s_.jobs) {
            days_.take(static_cast<double>(job.start));
            days_.take(static_cast<double>(end_of(job)));
        }
        plot_ = {paper_edge, paper_width - paper_edge, paper_.below_title() + 26, 0};
        y_ = plot_.top;
        plot_.bottom = plot_.top + height();
    }

    std::string draw() {
        months();
        for (const engine::MachineRow& machine : s_.machines)
            if (machine.booked > 0)
                jobs_of(machine);
        if (left_out_ > 0) {
            y_ += 16;
            y_ = paper_.lines(paper_edge, y_, paper_width - 2 * paper_edge,
                              fmt::format("{} more jobs are not drawn; the table lists them all.",
                                          whole_text(static_cast<double>(left_out_))),
                              Ink::Soft);
        }
        if (!s_.clashes.empty()) {
            paper_.box(paper_edge, y_ + 12, 24, 13, Ink::Paper, Ink::Fault);
            paper_.text(paper_edge + 32, y_ + 24, "booked twice");
            y_ += 30;
        }
        return std::move(paper_).finish(y_ + 8);
    }

  private:
    static constexpr double head = 26, row = 22, bar = 15;
    const engine::Season& s_;
    Paper paper_;
    Extent days_;
    Plot plot_;
    double y_ = 0;
    std::size_t rows_ = 0, left_out_ = 0;

    bool works(const engine::MachineRow& machine, const engine::SeasonJob& job) const {
        return job.hours.contains(machine.machine.name);
    }
    double height() const {
        double all = 0;
        std::size_t rows = 0;
        for (const engine::MachineRow& machine : s_.machines) {
            if (machine.booked <= 0 || rows >= calendar_rows)
                continue;
            all += head;
            for (const engine::SeasonJob& job : s_.jobs)
                if (works(machine, job) && rows++ < calendar_rows)
                    all += row;
        }
        return all;
    }

    double x(long day) const { return plot_.x(days_.share(static_cast<double>(day))); }

    void months() {
        double taken = 0;
        for (const engine::MonthRow& month : s_.months) {
            const auto first =
                lang::day_number(fmt::format("{:04}-{:02}-01", month.year, month.month));
            if (!first || x(*first) > plot_.right)
                continue;
            const double at = std::max(plot_.left, x(*first));
            if (at > plot_.left)
                paper_.path(fmt::format("M{:.1f} {:.1f}V{:.1f}", at, plot_.top - 6, plot_.bottom),
                            Ink::Rule);
            const std::string name = lang::month_text(month.year, month.month);
            for (const std::string& shown : {name, name.substr(0, 3)}) {
                if (at < taken || at + drawn_width(shown) > paper_width - paper_edge)
                    continue;
                const bool whole = taken == 0 || month.month == 1;
                if (shown == name && !whole)
                    continue;
                paper_.text(at, plot_.top - 10, shown, Anchor::Start, Ink::Soft);
                taken = at + drawn_width(shown) + 6;
                break;
            }
        }
    }

    void jobs_of(const engine::MachineRow& machine) {
        if (rows_ < calendar_rows) {
            y_ += 18;
            const std::string hours = fixed_quantity(machine.booked, 0, "h");
            paper_.text(paper_edge, y_,
                        fitting(machine_words(machine.machine.name), paper_width / 2, Weight::Bold),
                        Anchor::Start, Ink::Ink, Weight::Bold);
            paper_.text(paper_width - paper_edge, y_, hours, Anchor::End, Ink::Soft);
            y_ += head - 18;
        }
        for (std::size_t i = 0; i < s_.jobs.size(); ++i) {
            if (!works(machine, s_.jobs[i]))
                continue;
            if (++rows_ > calendar_rows) {
                ++left_out_;
                continue;
            }
            job_bar(i, machine.machine.name);
        }
    }

    // The bar, and the name of the job where there is most room: beside it or on it.
    void job_bar(std::size_t i, const std::string& machine) {
        const engine::SeasonJob& job = s_.jobs[i];
        const double from = x(job.start);
        const double to = std::max(from + 2, x(end_of(job)));
        paper_.box(from, y_, to - from, bar, Ink::Tint, Ink::Ground);
        for (const engine::Clash& clash : s_.clashes)
            if (clash.machine == machine && (clash.first == i || clash.second == i))
                paper_.box(x(clash.from), y_, std::max(3.0, x(clash.to + 1) - x(clash.from)), bar,
                           Ink::Paper, Ink::Fault);
        const double right = plot_.right - to;
        const double left = from - plot_.left;
        if (to - from > std::max(right, left))
            paper_.text(from + 6, y_ + 12, fitting(job.title, to - from - 12));
        else if (right >= left)
            paper_.text(to + 6, y_ + 12, fitting(job.title, right - 6));
        else
            paper_.text(from - 6, y_ + 12, fitting(job.title, left - 6), Anchor::End);
        y_ += row;
    }
};

} // namespace

std::string calendar_svg(const engine::Season& season) {
    return Picture(season).draw();
}

} // namespace acre::cli
