#include "cli/variance/variance_text.h"

#include <cmath>

#include <fmt/format.h>

#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::money_text;
using lang::terminal_text;

std::string signed_money(double dollars) {
    return std::abs(dollars) < 0.005 ? "-" : (dollars > 0 ? "+" : "") + money_text(dollars);
}

std::string learned_text(const engine::Learned& learned, const char* unit) {
    if (learned.days == 0)
        return "nothing";
    std::string text = lang::quantity_text(learned.value, unit);
    if (learned.days > 1)
        text += fmt::format(", give or take {} (one standard error, {} days)",
                            lang::number_text(learned.standard_error), learned.days);
    return text;
}

void cost_table(const engine::Variance& variance, bool color, std::string& out) {
    Table table(
        {{"", Align::Left, true}, {"quoted"}, {"actual"}, {"over"}, {"by quantity"}, {"by rate"}});
    for (const engine::VarianceRow& row : variance.rows)
        table.row({terminal_text(row.quoted.label.empty() ? row.quoted.name : row.quoted.label),
                   money_text(row.quoted_amount), money_text(row.actual_amount),
                   signed_money(row.actual_amount - row.quoted_amount),
                   signed_money(row.by_quantity), signed_money(row.by_rate)});
    table.rule();
    table.row({"all costs", money_text(variance.quoted_cost), money_text(variance.actual_cost),
               signed_money(variance.actual_cost - variance.quoted_cost)},
              true);
    table.row({"left of the price", money_text(variance.quoted_margin),
               money_text(variance.actual_margin),
               signed_money(variance.actual_margin - variance.quoted_margin)},
              true);
    out += table.text(color);
}

void fuel(const engine::Variance& variance, std::string& out) {
    for (const engine::VarianceRow& row : variance.rows) {
        if (!row.by_hours)
            continue;
        Table table({{"", Align::Left, true}, {""}});
        table.row({"more or fewer hours", signed_money(*row.by_hours)});
        table.row({"burned more or less an hour", signed_money(*row.by_burn)});
        table.row({"diesel dearer or cheaper", signed_money(row.by_rate)});
        table.rule();
        table.row({"fuel", signed_money(row.actual_amount - row.quoted_amount)}, true);
        out += "\nWho ate the diesel\n" + table.text();
    }
}

} // namespace

std::string variance_text(const engine::Variance& variance, const VarianceNames& names,
                          bool color) {
    std::string out = bold(fmt::format("Quote {} against what happened: {}", names.quote,
                                       terminal_text(names.job)),
                           color) +
                      "\n";
    const engine::LogTotals& log = variance.log;
    out += fmt::format("  the log: {} days, {}, {}, {}\n\n", log.days,
                       lang::quantity_text(log.hours, "h"), lang::quantity_text(log.acres, "ac"),
                       lang::quantity_text(log.gallons, "gal"));
    cost_table(variance, color, out);
    fuel(variance, out);
    if (!log.down.empty()) {
        out += "\nDown\n";
        Table table({{"", Align::Left, true}, {""}});
        for (const auto& [cause, hours] : log.down)
            table.row({terminal_text(cause), lang::quantity_text(hours, "h")});
        out += table.text(color);
    }
    out += "\nWhat it teaches\n";
    out += "  acres an hour    " +
           wrap(learned_text(variance.acres_per_hour, "ac/h"), page_width, 19) + "\n";
    out += "  gallons an hour  " +
           wrap(learned_text(variance.gallons_per_hour, "gal/h"), page_width, 19) + "\n";
    for (const std::string& cost : variance.unknown_costs)
        out += "\nThe log has money for `" + terminal_text(cost) +
               "`, which is no cost of this quote: it is left out above.\n";
    out += "\n" +
           wrap("A quantity in machine hours, acres, gallons or days is the log's; any other, the "
                "move's too, is as quoted. A rate is the "
                "log's where it tells money "
                "or a fuel price, else as quoted.",
                page_width) +
           "\n";
    return out;
}

std::string season_proposal(const engine::Variance& variance, const VarianceNames& names) {
    const auto because = [&](const engine::Learned& learned) {
        std::string job;
        for (const char c : names.job)
            job += c == '"' || c == '\n' || c == '\r' ? ' ' : c;
        return fmt::format("because \"quote {}, {}: {} days, standard error {:.3g}\"", names.quote,
                           terminal_text(job), learned.days, learned.standard_error);
    };
    std::string out = fmt::format("season \"Proposed from quote {}\"\n# Read, compare with other "
                                  "jobs, and take over by hand what holds.\n",
                                  names.quote);
    if (variance.gallons_per_hour.days > 0)
        out += fmt::format("set crawler.burn = {:.4g} gal/h  {}\n", variance.gallons_per_hour.value,
                           because(variance.gallons_per_hour));
    if (variance.acres_per_hour.days > 0)
        out += fmt::format(
            "# the job went {:.4g} ac/h; set the speed or the minutes of work that give it  ({})\n",
            variance.acres_per_hour.value, because(variance.acres_per_hour));
    if (variance.log.fuel_price > 0)
        out += fmt::format("set season_prices.diesel = ${:.4g}/gal  because \"mean of the "
                           "deliveries of quote {}\"\n",
                           variance.log.fuel_price, names.quote);
    return out;
}

} // namespace acre::cli
