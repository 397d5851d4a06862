#include <fmt/format.h>

#include "cli/season/calendar_svg.h"
#include "cli/season/report.h"
#include "cli/shared/chart/columns.h"
#include "cli/shared/html_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t machines_drawn = 4; // those with most hours

ColumnChart chart_of(const engine::Season& season, const char* title, const char* unit) {
    ColumnChart chart{title, unit, {}, {}, {}};
    for (const engine::MonthRow& month : season.months) {
        chart.places.push_back(lang::month_text(month.year, month.month).substr(0, 3));
        chart.below.push_back(chart.below.empty() || month.month == 1 ? std::to_string(month.year)
                                                                      : std::string());
    }
    return chart;
}

std::string hours_chart(const engine::Season& season) {
    ColumnChart chart = chart_of(season, "Machine hours by month", "h");
    for (const engine::MachineRow& row : season.machines) {
        if (row.booked <= 0 || chart.series.size() == machines_drawn)
            continue;
        ColumnSeries& one = chart.series.emplace_back();
        one.name = machine_words(row.machine.name);
        one.fill = series(chart.series.size() - 1).ink;
        for (const engine::MonthRow& month : season.months) {
            const auto hours = month.hours.find(row.machine.name);
            one.value.push_back(hours == month.hours.end() ? 0 : hours->second);
        }
    }
    return chart.series.empty() ? std::string() : columns_svg(chart);
}

std::string money_chart(const engine::Season& season) {
    ColumnChart chart = chart_of(season, "Money by month", "$");
    ColumnSeries spent{"spent", Ink::Paper, Ink::Ink, {}};
    ColumnSeries billed{"billed", Ink::Ground, Ink::Ink, {}};
    for (const engine::MonthRow& month : season.months) {
        spent.value.push_back(month.spent);
        billed.value.push_back(month.billed);
    }
    chart.series = {std::move(spent), std::move(billed)};
    return columns_svg(chart);
}

std::string machines_table(const engine::Season& season) {
    HtmlTable table({"machine", "hours booked", "hours assumed",
                     "fixed cost of owning, at hours assumed", "at hours booked",
                     "not covered this year"},
                    1);
    for (const engine::MachineRow& row : season.machines)
        table.row({machine_words(row.machine.name), fixed_quantity(row.booked, 0, "h"),
                   fixed_quantity(row.machine.hours_per_year, 0, "h"),
                   lang::money_text(row.idle_hour) + "/h",
                   row.booked > 0 ? lang::money_text(row.fixed_at_booked) + "/h" : "-",
                   whole_dollars(row.not_earned)});
    std::string out = std::move(table).finish();
    for (const engine::MachineRow& row : season.machines)
        if (const std::string words = idle_words(row); !words.empty())
            out += "<p>" + markup_text(words) + ".</p>\n";
    return out;
}

std::string jobs_table(const engine::Season& season) {
    HtmlTable table(
        {"start", "done", "job", "days", "price", "contribution", "profit", "profit a day"}, 3);
    for (const std::size_t i : season.by_day_pay) {
        const engine::SeasonJob& job = season.jobs[i];
        table.row({lang::day_text(job.start), lang::day_text(job.finish), job.title,
                   whole_text(job.days), whole_dollars(job.price),
                   whole_dollars(job.price - job.cost), whole_dollars(job.profit()),
                   whole_dollars(job.profit_a_day())});
    }
    return std::move(table).finish();
}

} // namespace

std::string season_html(const engine::Season& season, const SeasonNames& names) {
    std::string out = html_head("Season: " + names.title);
    out += fmt::format(
        "<h1>Season in {}</h1>\n<p>{}</p>\n<p>{} jobs, {} billed, {} profit; the fixed cost of "
        "the machines is {} a year.</p>\n",
        markup_text(names.title), firms_own, season.jobs.size(), whole_dollars(season.price),
        whole_dollars(season.price - season.cost - season.overhead), whole_dollars(season.fixed));
    if (season.break_even_acres > 0)
        out += fmt::format("<p>Booked: {} ac. Covering the year takes {} ac of such jobs.</p>\n",
                           whole_text(season.acres), whole_text(season.break_even_acres));
    out += calendar_svg(season) + hours_chart(season) + money_chart(season);
    out += fmt::format("<p>Billed: due {} days after a job's last day.</p>\n", names.net_days);
    out += "<h2>Machines</h2>\n" + machines_table(season);
    out += "<h2>Jobs, least profit a day first</h2>\n" + jobs_table(season);
    return out + html_foot();
}

} // namespace acre::cli
