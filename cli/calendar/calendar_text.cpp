#include <fmt/format.h>

#include "cli/calendar/calendar_page.h"
#include "cli/shared/text/dates.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

std::string day_words(const std::string& date) {
    return lang::weekday_text(*lang::day_number(date));
}

class Calendar {
  public:
    Calendar(const engine::CalendarAnswer& answer, bool color) : a_(answer), color_(color) {}

    std::string draw() {
        head();
        days();
        return std::move(out_);
    }

  private:
    void head() {
        out_ = heading(terminal_text(a_.job.title.empty() ? a_.job.model : a_.job.title), color_);
        Table table({{"", Align::Left}, {"", Align::Left, true}});
        const auto add = [&](const char* what, const std::string& text) {
            if (!text.empty())
                table.row({what, terminal_text(text)});
        };
        add("for", a_.job.who);
        add("option", a_.job.option);
        add("season", a_.job.season);
        add("starts", day_words(a_.dates.start));
        add("done", day_words(a_.dates.finish));
        if (!a_.dates.latest.empty())
            add("latest end",
                day_words(a_.dates.latest) + (a_.dates.late ? ": the job is late" : ": in time"));
        add("days",
            fmt::format(
                "{}, {}{}", count_of_days(a_.dates.work_days, " of work"),
                count_of_days(static_cast<double>(a_.dates.calendar_days), " from start to finish"),
                a_.dates.closed_days == 0 ? "" : fmt::format(", {} closed", a_.dates.closed_days)));
        out_ += table.text(color_);
    }

    // What is done that day, and by when it must begin if that is its first.
    std::string work_of(const engine::DayRow& day) const {
        std::string text;
        for (const std::size_t i : day.work) {
            const engine::StageRow& stage = a_.dates.stages[i];
            text += (text.empty() ? "" : ", ") + stage.label;
            if (stage.begin_by && day.date == stage.first)
                text += fmt::format(": {} {}, or it moves on {}", stage.begin_by_label,
                                    stage.begin_by_text, day_words(stage.else_on));
            else if (stage.waits && day.date == stage.first && stage.last != stage.first)
                text += fmt::format(", until {}", lang::day_text(stage.last));
        }
        return text;
    }

    void days() {
        out_ += "\n" + bold("Days", color_) + "\n";
        Table table({{"", Align::Left}, {"", Align::Left}, {"", Align::Left, true}});
        for (const engine::DayRow& day : a_.days) {
            std::string work = work_of(day);
            if (!day.closed.empty())
                work = (work.empty() ? "" : work + "; ") +
                       (day.closed == "closed" ? "closed" : "closed: " + day.closed);
            table.row({std::string(lang::short_weekday(day.weekday)),
                       lang::short_day_text(day.date), terminal_text(work)});
        }
        out_ += table.text(color_);
        if (a_.unlisted_year)
            out_ += remark(fmt::format("The season names no holidays of {0}: days of {0} are open "
                                       "here that may be closed.",
                                       *a_.unlisted_year));
    }

    const engine::CalendarAnswer& a_;
    bool color_;
    std::string out_;
};

} // namespace

std::string calendar_text(const engine::CalendarAnswer& answer, bool color) {
    return Calendar(answer, color).draw();
}

} // namespace acre::cli
