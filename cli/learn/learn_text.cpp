#include <algorithm>
#include <charconv>
#include <string>

#include <fmt/format.h>

#include "cli/learn/learn_page.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "engine/learning/proposal.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using engine::Tells;
using lang::terminal_text;

std::string spaced(std::string name) {
    std::replace(name.begin(), name.end(), '_', ' ');
    return terminal_text(name);
}

// Four digits are enough to compare two figures.
std::string figure(double value, const std::string& unit) {
    double rounded = value;
    const std::string digits = fmt::format("{:.4g}", value);
    std::from_chars(digits.data(), digits.data() + digits.size(), rounded);
    return lang::quantity_text(rounded, unit);
}

void compared_table(const engine::LearnAnswer& answer, bool color, std::string& out) {
    Table table({{"", Align::Left, true}, {"season"}, {"logs"}, {"logs/season"}, {"jobs"}});
    for (const engine::ComparedReading& row : answer.compared) {
        const std::string unit = terminal_text(row.unit);
        table.row({terminal_text(row.label), figure(row.said, unit), figure(row.measured, unit),
                   row.said > 0 ? percent_text(row.measured / row.said, 0) : "-",
                   count_text(row.jobs)});
    }
    if (table.empty())
        return;
    out += "\nWhat the season works out for these jobs, and what their logs have\n";
    out += table.text(color);
}

void figures_table(const engine::LearnAnswer& answer, bool color, std::string& out) {
    out += "\nFigures of the season\n";
    if (answer.figures.empty()) {
        out += paragraph("The logs move none of them: they are too few, or agree with the season.");
        return;
    }
    Table table({{"", Align::Left, true},
                 {"season"},
                 {"learned"},
                 {"90 % from"},
                 {"to"},
                 {"jobs"},
                 {"", Align::Left}});
    bool any_end = false;
    for (const engine::LearnedFigure& row : answer.figures) {
        const std::string unit = terminal_text(row.unit);
        table.row({terminal_text(row.name), lang::quantity_text(row.value, unit),
                   terminal_text(engine::learned_text(row)), figure(row.low, unit),
                   figure(row.high, unit), count_text(row.jobs), row.at_end ? "*" : ""});
        any_end = any_end || row.at_end;
    }
    out += table.text(color);
    if (any_end)
        out += paragraph("* At the end of its swing: the swing may be too narrow, or something "
                         "else is wrong that this figure has to stand for.");
}

void methods(const engine::LearnAnswer& answer, std::string& out) {
    std::vector<std::string> told;
    for (const engine::LearnedFigure& row : answer.figures) {
        const std::string line = row.told_by + ": " + engine::method_of(row.tells);
        if (std::find(told.begin(), told.end(), line) == told.end())
            told.push_back(line);
    }
    for (const std::string& line : told)
        out += remark("- " + terminal_text(line));
}

void grounds_table(const engine::LearnAnswer& answer, bool color, std::string& out) {
    if (answer.grounds.empty())
        return;
    Table table({{"hardest layer, depth", Align::Left, true},
                 {"jobs"},
                 {"logs"},
                 {"learned"},
                 {"90 % from"},
                 {"to"}});
    for (const engine::GroundPace& row : answer.grounds)
        table.row({fmt::format("{}, {} to {}", spaced(row.layer), lang::number_text(row.from),
                               lang::quantity_text(row.to, terminal_text(row.depth_unit))),
                   count_text(row.jobs), percent_text(row.ratio, 0), percent_text(row.learned, 0),
                   percent_text(row.low, 0), percent_text(row.high, 0)});
    out += "\nPace by ground and depth, in percent of what the season works out\n";
    out += table.text(color);
    out += paragraph(fmt::format("Each ground is drawn toward all jobs, the more so the fewer it "
                                 "has. Jobs on one ground differ by {}. A season holds no figure "
                                 "for a single ground: set `tuning` or `speed` in the job.",
                                 percent_text(answer.ground_spread, 0)));
}

std::string names(const std::vector<std::string>& list) {
    std::string text;
    for (const std::string& name : list)
        text += (text.empty() ? "" : ", ") + terminal_text(name);
    return text;
}

} // namespace

std::string learn_text(const LearnPage& page, bool color) {
    const engine::LearnAnswer& answer = page.answer;
    const std::size_t jobs = answer.quotes.size();
    std::string out =
        heading(fmt::format("What {} finished {} of {}", count_text(jobs),
                            jobs == 1 ? "job says" : "jobs say", terminal_text(page.season)),
                color) +
        not_for_the_customer(color);
    if (jobs == 0)
        out += paragraph("No finished job has a log that can be used: the season stays as it is.");
    compared_table(answer, color, out);
    if (jobs > 0) {
        figures_table(answer, color, out);
        methods(answer, out);
    }
    grounds_table(answer, color, out);
    if (!answer.untold.empty())
        out += "\n" + paragraph("Not told by these logs: " + names(answer.untold) + ".", "");
    if (!answer.several.empty())
        out += "\n" + paragraph("Several services under one log, so no pace and no burn: " +
                                    names(answer.several) + ".",
                                "");
    if (!answer.refused.empty())
        out += "\n" + paragraph("Within its swings the season mostly refuses this work, so what "
                                "its logs measured of it tells nothing: " +
                                    names(answer.refused) + ".",
                                "");
    out += left_out_text(page.left_out);
    if (!page.written.empty())
        out += "\n" + paragraph("Proposed season: " + terminal_text(page.written) +
                                    ". Before you use it, `acrewright book --season` shows what "
                                    "it does to open quotes, `acrewright bridge NUMBER again "
                                    "--season` why.",
                                "");
    return out;
}

} // namespace acre::cli
