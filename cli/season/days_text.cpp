#include "cli/season/days_text.h"

#include <algorithm>

#include "cli/season/days_grid.h"
#include "cli/season/season_words.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

constexpr std::size_t page_columns = 80, day_columns = 16, least_column = 11, most_at_once = 3;

// As much of it as a column holds.
std::string cut(const std::string& text, std::size_t width) {
    if (lang::text_columns(text) <= width)
        return text;
    std::size_t taken = 0, at = 0;
    while (at < text.size()) {
        const lang::Glyph glyph = lang::glyph_at(text, at);
        if (taken + glyph.columns > width)
            break;
        taken += glyph.columns;
        at += glyph.bytes;
    }
    std::string out = text.substr(0, at);
    while (out.ends_with(' ') || out.ends_with(',') || out.ends_with(':'))
        out.pop_back();
    return out;
}

std::string short_days(long first, long last) {
    const auto day = [](long of) {
        const std::string text = lang::short_day_text(lang::date_text(of));
        return text.substr(0, text.find(','));
    };
    return first == last ? day(first) : day(first) + " - " + day(last);
}

std::string cell(const engine::Season& season, const std::vector<std::size_t>& jobs,
                 std::size_t width) {
    if (jobs.empty())
        return ".";
    if (jobs.size() == 1)
        return cut(count_text(jobs[0] + 1) + " " + terminal_text(season.jobs[jobs[0]].title),
                   width);
    std::string text = "!";
    for (const std::size_t job : jobs)
        text += " " + count_text(job + 1);
    return cut(text, width);
}

} // namespace

std::string days_text(const engine::Season& season, const engine::UnitsOfJobs& units, bool color) {
    const DaysGrid grid = days_grid(season, units);
    if (grid.columns.empty())
        return "  no job says which machine it takes: its model counts no hours of one\n";
    std::string out;
    for (std::size_t from = 0; from < grid.columns.size(); from += most_at_once) {
        const std::size_t count = std::min(most_at_once, grid.columns.size() - from);
        const std::size_t width =
            std::max(least_column, (page_columns - 2 - day_columns) / count - 2);
        std::vector<Column> heads = {{"", Align::Left}};
        for (std::size_t c = from; c < from + count; ++c)
            heads.push_back({cut(terminal_text(unit_words(season.machines[grid.columns[c].machine],
                                                          grid.columns[c].unit)),
                                 width),
                             Align::Left});
        Table table(heads);
        for (const DaysGrid::Row& row : grid.rows) {
            std::vector<std::string> cells = {short_days(row.first, row.last)};
            bool any = false;
            for (std::size_t c = from; c < from + count; ++c) {
                cells.push_back(cell(season, row.jobs[c], width));
                any = any || !row.jobs[c].empty();
            }
            if (any)
                table.row(std::move(cells));
        }
        out += (from == 0 ? "" : "\n") + table.text(color);
    }
    out += remark("Numbers are those of the jobs above; ! : wanted by more than one.");
    if (!grid.all)
        out += remark("The later days of the season are not drawn; the jobs are listed above.");
    return out;
}

} // namespace acre::cli
