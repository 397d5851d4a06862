#include <algorithm>

#include <fmt/format.h>

#include "cli/season/days_svg.h"
#include "cli/season/season_words.h"
#include "cli/shared/chart/columns.h"
#include "cli/shared/html_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/page.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t machines_drawn = 4; // in one chart
constexpr std::size_t most_said = 200;    // doubles, clashes

std::string said(const std::vector<std::string>& sentences) {
    std::string out;
    for (const std::string& sentence : sentences)
        out += "<p>" + markup_text(sentence) + "</p>\n";
    return out;
}

ColumnChart chart_of(const engine::Season& season, const char* title, const char* unit) {
    ColumnChart chart{title, unit, {}, {}, {}};
    for (const engine::MonthRow& month : season.months) {
        chart.places.push_back(lang::month_text(month.year, month.month).substr(0, 3));
        chart.below.push_back(chart.below.empty() || month.month == 1 ? std::to_string(month.year)
                                                                      : std::string());
    }
    return chart;
}

std::string hours_charts(const engine::Season& season) {
    std::string out;
    ColumnChart chart = chart_of(season, "Machine hours by month", "h");
    const auto finish = [&] {
        if (!chart.series.empty())
            out += columns_svg(chart);
        chart = chart_of(season, "Machine hours by month, continued", "h");
    };
    for (const engine::MachineRow& row : season.machines) {
        if (row.booked <= 0)
            continue;
        ColumnSeries& one = chart.series.emplace_back();
        one.name = machine_words(row.machine);
        one.fill = series(chart.series.size() - 1).ink;
        for (const engine::MonthRow& month : season.months) {
            const auto hours = month.hours.find(row.machine.name);
            one.value.push_back(hours == month.hours.end() ? 0 : hours->second);
        }
        if (chart.series.size() == machines_drawn)
            finish();
    }
    finish();
    return out;
}

std::string money_chart(const engine::Season& season) {
    ColumnChart chart = chart_of(season, "Money by month", "$");
    ColumnSeries spent{"spent: direct cost of the work done", Ink::Paper, Ink::Ink, {}};
    ColumnSeries billed{"billed: jobs done", Ink::Ground, Ink::Ink, {}};
    ColumnSeries received{"received: paid by the growers", Ink::Tint, Ink::Ink, {}};
    for (const engine::MonthRow& month : season.months) {
        spent.value.push_back(month.spent);
        billed.value.push_back(month.billed);
        received.value.push_back(month.received);
    }
    chart.series = {std::move(spent), std::move(billed), std::move(received)};
    return columns_svg(chart);
}

std::string machines_table(const engine::Season& season) {
    HtmlTable table({"machine", "hours booked", "hours assumed", "fixed cost a year",
                     "an hour, as priced", "an hour, at hours booked", "not covered this year"},
                    1);
    for (const engine::MachineRow& row : season.machines)
        for (std::size_t k = 0; k < row.units.size(); ++k) {
            const engine::UnitRow& unit = row.units[k];
            table.row({unit_words(row, k), fixed_quantity(unit.booked, 0, "h"),
                       fixed_quantity(row.machine.hours_per_year, 0, "h"),
                       whole_dollars(row.machine.fixed_per_year),
                       lang::money_text(row.idle_hour) + "/h",
                       unit.booked > 0 ? lang::money_text(unit.fixed_at_booked) + "/h" : "-",
                       whole_dollars(unit.not_covered)});
        }
    return std::move(table).finish();
}

std::string jobs_table(const engine::Season& season) {
    HtmlTable table(
        {"", "start", "done", "job", "days", "price", "contribution", "profit", "profit a day"}, 4);
    for (const std::size_t i : season.by_day_pay) {
        const engine::SeasonJob& job = season.jobs[i];
        table.row({count_text(i + 1), lang::day_text(job.dated.start),
                   lang::day_text(job.dated.finish), job_title(season, i),
                   lang::number_text(static_cast<double>(job.work_days())),
                   whole_dollars(job.price), whole_dollars(job.contribution()),
                   whole_dollars(job.profit()), whole_dollars(job.profit_a_day())});
    }
    return std::move(table).finish();
}

std::string months_table(const engine::Season& season) {
    HtmlTable table({"month", "days", "acres", "gallons", "spent", "billed", "received",
                     "left by the work", "left so far", "of the year covered"},
                    1);
    for (const engine::MonthRow& month : season.months)
        table.row({lang::month_text(month.year, month.month), whole_text(month.job_days),
                   whole_text(month.acres), whole_text(month.gallons), whole_dollars(month.spent),
                   whole_dollars(month.billed), whole_dollars(month.received),
                   whole_dollars(month.left), whole_dollars(month.left_so_far),
                   season.cover.need() > 0
                       ? percent_text(month.left_so_far / season.cover.need(), 0)
                       : "-"});
    return std::move(table).finish();
}

std::string cover_table(const engine::Season& season) {
    const engine::Cover& cover = season.cover;
    HtmlTable table({"", "booked", "needed"}, 1);
    table.row(
        {"left for machines and office", whole_dollars(cover.left), whole_dollars(cover.need())});
    if (cover.left > 0) {
        table.row({"prices", whole_dollars(season.sums.price), whole_dollars(cover.price)});
        if (season.sums.acres > 0)
            table.row({"acres, as each job counts them", whole_text(season.sums.acres) + " ac",
                       whole_text(cover.acres) + " ac"});
        if (!cover.machine.empty())
            table.row({"hours of " + machine_words(season, cover.machine),
                       fixed_quantity(season.machines.front().booked, 0, "h"),
                       fixed_quantity(cover.hours, 0, "h")});
    }
    return fmt::format("<p>Fixed cost of the machines owned, a year: {}. Overhead: {}.</p>\n",
                       whole_dollars(cover.fixed), whole_dollars(cover.overhead)) +
           std::move(table).finish();
}

std::string clashes_html(const engine::Season& season) {
    std::string out = "<h2>Wanted twice</h2>\n";
    const std::vector<ClashGroup> groups = clash_groups(season);
    if (groups.empty())
        out += "<p>No machine is wanted by more jobs at once than there are of it.</p>\n";
    for (std::size_t i = 0; i < std::min(most_said, groups.size()); ++i)
        out += "<p>" + markup_text(clash_words(season, groups[i])) + ".</p>\n";
    if (groups.size() > most_said || !season.clashes.all)
        out += "<p>There are more; the answer as JSON lists them.</p>\n";
    return out;
}

std::string doubles_html(const engine::Season& season) {
    if (season.doubles.listed.empty())
        return {};
    std::string out = "<h2>One customer's work that may be told twice</h2>\n";
    for (std::size_t i = 0; i < std::min(most_said, season.doubles.listed.size()); ++i)
        out += "<p>" + markup_text(double_words(season, season.doubles.listed[i])) + ".</p>\n";
    return out + "<p>Each counts in full. Leave one out with <code>--without</code>.</p>\n";
}

} // namespace

std::string season_html(const engine::Season& season, const SeasonNames& names) {
    std::string out = html_head("Season: " + names.title);
    out += fmt::format("<h1>Season: {}</h1>\n<p>{}</p>\n<p>{}</p>\n<p>{}, {} in prices, {} "
                       "profit.</p>\n",
                       markup_text(names.title), firms_own,
                       markup_text(counted_words(season, names)), job_count(season.jobs.size()),
                       whole_dollars(season.sums.price), whole_dollars(season.sums.profit()));
    if (names.counted == Counted::Folder)
        out += doubles_html(season);
    out += "<h2>What covers the year</h2>\n" + said(cover_sentences(season)) + cover_table(season);
    out += days_svg(season, season.units, "Who is where, as dated");
    out += clashes_html(season);
    out += "<h2>A plan that fits</h2>\n" + said(plan_sentences(season));
    if (season.plan && season.plan->moved > 0)
        out += days_svg(season, season.plan->units, "Who is where, as planned");
    if (names.chain)
        out += "<h2>Moves from ranch to ranch, by the plan</h2>\n" +
               said(chain_sentences(season, *names.chain));
    if (season.another)
        out += "<h2>" + markup_text("One more " + machine_words(season, season.another->machine)) +
               "</h2>\n" + said(another_sentences(season));
    out += hours_charts(season) + money_chart(season);
    out += fmt::format("<p>Received: {} after a job's last day.</p>\n", day_count(names.net_days));
    out += "<h2>Months</h2>\n" + months_table(season);
    out += "<h2>Machines owned</h2>\n" + machines_table(season);
    if (const std::string hired = hired_words(season); !hired.empty())
        out += "<p>" + markup_text(hired) + "</p>\n";
    out += "<h2>Jobs, least profit a day first</h2>\n" + jobs_table(season);
    return out + html_foot();
}

} // namespace acre::cli
