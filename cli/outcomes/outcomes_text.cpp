#include <string>

#include <fmt/format.h>

#include "cli/outcomes/outcomes_page.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

std::string range_text(const engine::Range& range) {
    return percent_text(range.low, 0) + " to " + percent_text(range.high, 0);
}

std::string place_words(const engine::CostOutcome& job) {
    if (job.below_all)
        return "below the 5 % mark";
    return job.above_all ? "above the 95 % mark" : percent_text(job.share, 0);
}

void jobs_table(const engine::OutcomesAnswer& risk, bool color, std::string& out) {
    Table table({{"quote", Align::Left},
                 {"job", Align::Left, true},
                 {"cost"},
                 {"half below"},
                 {"percentile"}});
    for (const engine::CostOutcome& job : risk.jobs) {
        if (!job.why_not.empty())
            continue;
        lang::show_money(job.money);
        table.row({terminal_text(job.quote), terminal_text(job.title), lang::money_text(job.cost),
                   lang::money_text(job.at_mark[2]), place_words(job)});
    }
    if (!table.empty())
        out += table.text(color) +
               paragraph("Cost as far as the log knows it, the rest as quoted; its percentile "
                         "among the trials that were sealed with the quote.");
    for (const engine::CostOutcome& job : risk.jobs)
        if (!job.why_not.empty())
            out +=
                remark(terminal_text(job.quote) + " has no place: " + terminal_text(job.why_not));
}

void marks_table(const engine::OutcomesAnswer& risk, bool color, std::string& out) {
    if (risk.placed == 0)
        return;
    Table table({{"mark", Align::Right},
                 {"jobs below"},
                 {"expected"},
                 {"90 % interval"},
                 {"", Align::Left}});
    bool all = true;
    for (const engine::MarkCount& mark : risk.marks) {
        table.row({percent_text(mark.mark, 0), fmt::format("{} of {}", mark.below, risk.placed),
                   lang::fixed_text(mark.mark * static_cast<double>(risk.placed), 1),
                   range_text(mark.share), mark.fits ? "" : "does not fit"});
        all = all && mark.fits;
    }
    out += "\nOver all finished jobs\n" + table.text(color);
    out += paragraph(all ? "The counts agree with the risks as quoted; so few jobs would agree "
                           "with many others too: see the intervals."
                         : "Where a mark lies outside of its interval, the quoted risk was off.");
}

void swings_table(const engine::OutcomesAnswer& risk, bool color, std::string& out) {
    if (risk.swings.empty())
        return;
    out += "\nWhat the logs measured against what the swings allowed (5 % to 95 %)\n";
    Table table({{"", Align::Left, true},
                 {"jobs"},
                 {"below"},
                 {"above"},
                 {"outside, 90 %"},
                 {"", Align::Left}});
    for (const engine::SwingCount& swing : risk.swings)
        table.row({terminal_text(swing.label), count_text(swing.jobs), count_text(swing.below),
                   count_text(swing.above), range_text(swing.outside),
                   swing.too_narrow ? "too narrow" : ""});
    out += table.text(color);
    bool any = false;
    for (const engine::SwingCount& swing : risk.swings) {
        if (!swing.too_narrow)
            continue;
        any = true;
        std::string names;
        for (const std::string& name : swing.moved_by)
            names += (names.empty() ? "" : ", ") + name;
        out += remark("- " + terminal_text(swing.label) + " rests on the swings of " +
                      terminal_text(names));
    }
    if (!any)
        out += paragraph("One job in ten is expected outside. None is shown to be too narrow.");
}

std::string value_range(const engine::WinBand& band, const std::string& unit) {
    return lang::quantity_text(band.low, unit) + " to " + lang::quantity_text(band.high, unit);
}

void wins_text(const engine::WinsAnswer& wins, bool color, std::string& out) {
    out += "\nWhat wins\n";
    if (wins.quotes == 0) {
        out += paragraph("No quote was decided yet.");
        return;
    }
    out += paragraph(fmt::format(
        "{} of {} decided quotes were accepted: {} (90 % interval {}).", wins.won, wins.quotes,
        percent_text(static_cast<double>(wins.won) / static_cast<double>(wins.quotes), 0),
        range_text(wins.share)));
    if (wins.quotes_of_it < wins.quotes)
        out += paragraph(fmt::format("Price and size are of one kind of work, {}: {} of these "
                                     "quotes.",
                                     terminal_text(wins.work), count_text(wins.quotes_of_it)));
    for (const engine::WinTable& table : wins.tables) {
        if (table.bands.empty()) {
            out += remark("by " + table.what + ": too few to say");
            continue;
        }
        Table bands({{"by " + table.what, Align::Left}, {"quotes"}, {"won"}, {"share won, 90 %"}});
        for (const engine::WinBand& band : table.bands)
            bands.row({value_range(band, terminal_text(table.unit)), count_text(band.quotes),
                       count_text(band.won), range_text(band.share)});
        out += "\n" + bands.text(color);
        out += paragraph(!table.says_something
                             ? "too few to say: first and last band do not differ beyond chance"
                         : table.difference.low > 0 ? "the lowest band wins more than the highest"
                                                    : "the highest band wins more than the lowest");
    }
}

} // namespace

std::string outcomes_text(const OutcomesPage& page, bool color) {
    std::string out = heading("Where finished jobs fell in the risk that was quoted", color) +
                      not_for_the_customer(color);
    if (page.risk.jobs.empty())
        out += paragraph("No finished job has a log.");
    jobs_table(page.risk, color, out);
    marks_table(page.risk, color, out);
    swings_table(page.risk, color, out);
    out += left_out_text(page.left_out);
    wins_text(page.wins, color, out);
    return out;
}

} // namespace acre::cli
