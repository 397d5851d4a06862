#include "engine/job/job_dates.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "lang/units/calendar.h"
#include "lang/units/clock.h"

namespace acre::engine {
namespace {

constexpr double hair = 1e-9; // of a day

// A place in the calendar: an open day, and how much of it is worked already.
class Cursor {
  public:
    Cursor(const WorkCalendar& calendar, long from)
        : calendar_(calendar),
          day_(calendar.next_open(from)) {}

    long day() const { return day_; }

    void work(StageDates& stage) {
        if (used_ > 1 - hair)
            turn();
        stage.first = day_;
        double left = stage.days;
        for (;;) {
            const double taken = std::min(1 - used_, left);
            used_ += taken;
            left -= taken;
            if (left < hair)
                break;
            turn();
        }
        stage.last = day_;
    }

    void wait(StageDates& stage) {
        stage.first = used_ > hair ? day_ + 1 : day_;
        stage.last = stage.first + static_cast<long>(std::ceil(stage.days - hair)) - 1;
        day_ = calendar_.next_open(stage.last + 1);
        used_ = 0;
    }

  private:
    void turn() {
        day_ = calendar_.next_open(day_ + 1);
        used_ = 0;
    }

    const WorkCalendar& calendar_;
    long day_;
    double used_ = 0;
};

Slot slot_named(const lang::Sheet& sheet, const Plan& plan, const std::string& name,
                std::string_view unit) {
    const lang::LineId id = sheet.find(name);
    return id == lang::none || sheet.lines[id].unit_text != unit ? no_slot : plan.line_slot[id];
}

std::string label_of(const lang::Line& line, std::string_view name) {
    if (!line.label.empty())
        return line.label;
    std::string words(name);
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

double value_at(Slot slot, std::span<const double> values) {
    return slot == no_slot ? NAN : values[slot];
}

} // namespace

std::vector<Stage> stages_of(const lang::Sheet& sheet, const Plan& plan) {
    std::vector<lang::LineId> lines;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
        const lang::Line& line = sheet.lines[id];
        const bool named = line.name.starts_with("stage_") || line.name.starts_with("wait_");
        if (named && line.unit_text == "day" && line.name.find('.') == std::string::npos)
            lines.push_back(id);
    }
    if (lines.empty()) // what the model counts in days, else what it calls so
        for (const lang::Counted& counted : sheet.counted)
            if (lines.empty() && counted.line != lang::none &&
                sheet.lines[counted.line].unit_text == "day")
                lines.push_back(counted.line);
    if (lines.empty())
        if (const lang::LineId days = sheet.find("days");
            days != lang::none && sheet.lines[days].unit_text == "day")
            lines.push_back(days);
    std::sort(lines.begin(), lines.end(), [&](lang::LineId a, lang::LineId b) {
        return sheet.lines[a].name_span.begin < sheet.lines[b].name_span.begin;
    });
    std::vector<Stage> stages;
    for (const lang::LineId id : lines) {
        const lang::Line& line = sheet.lines[id];
        Stage stage;
        const bool is_stage = line.name.starts_with("stage_") || line.name.starts_with("wait_");
        stage.label =
            label_of(line, is_stage ? line.name.substr(line.name.find('_') + 1) : line.name);
        stage.waits = line.name.starts_with("wait_");
        stage.line = id;
        stage.days = plan.line_slot[id];
        stage.by = slot_named(sheet, plan, line.name + "_by", lang::clock_unit);
        if (stage.by != no_slot)
            stage.by_label = sheet.lines[sheet.find(line.name + "_by")].label;
        stages.push_back(std::move(stage));
    }
    return stages;
}

std::optional<JobDates> job_dates(long earliest, std::optional<long> latest,
                                  const WorkCalendar& calendar, std::span<const Stage> stages,
                                  std::span<const double> values) {
    if (stages.empty())
        return std::nullopt;
    JobDates dates;
    dates.earliest = earliest;
    dates.latest = latest;
    double all = 0;
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const double days = value_at(stages[i].days, values);
        if (!std::isfinite(days) || days < 0)
            return std::nullopt;
        all += days;
        if (!stages[i].waits)
            dates.work_days += days;
        if (days > hair)
            dates.stages.push_back({i, days, 0, 0, {}});
    }
    if (all > max_job_days)
        return std::nullopt;
    Cursor cursor(calendar, dates.earliest);
    dates.start = dates.finish = cursor.day();
    for (StageDates& stage : dates.stages) {
        if (stages[stage.stage].waits)
            cursor.wait(stage);
        else
            cursor.work(stage);
        dates.finish = stage.last;
        if (const double by = value_at(stages[stage.stage].by, values); std::isfinite(by))
            stage.by = by;
    }
    if (!dates.stages.empty())
        dates.start = dates.stages.front().first;
    static const long last = lang::day_number(lang::last_year, 12, 31);
    if (dates.finish > last || dates.calendar_days() > max_calendar_days)
        return std::nullopt;
    return dates;
}

long open_days(const WorkCalendar& calendar, long first, long last) {
    long count = 0;
    for (long day = calendar.next_open(first); day <= last; day = calendar.next_open(day + 1))
        ++count;
    return count;
}

} // namespace acre::engine
