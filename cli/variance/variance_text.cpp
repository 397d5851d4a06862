#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "cli/variance/variance_page.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::money_text;
using lang::terminal_text;

std::string signed_money(double dollars) {
    return std::abs(dollars) < 0.005 ? "-" : dollar_change(dollars);
}

// "acres" of a line, "lowbed hours" of a used model's.
std::string column_words(const std::string& name) {
    std::string words = name.substr(name.rfind('.') + 1);
    std::replace(words.begin(), words.end(), '_', ' ');
    return terminal_text(words);
}

// What the log comes to: "5 days, 77.2 h, 80 ac".
std::string log_words(const engine::VarianceAnswer& variance) {
    std::string words =
        fmt::format("{} {}", variance.log.days, variance.log.days == 1 ? "day" : "days");
    if (variance.log.hours > 0)
        words += ", " + lang::quantity_text(variance.log.hours, "h");
    for (const engine::CountedRow& row : variance.counted)
        if (row.line.how == engine::Counting::Fuel || row.line.how == engine::Counting::Work)
            words += ", " + lang::quantity_text(row.logged, row.line.unit) +
                     (row.line.unit == "h" ? " (" + column_words(row.line.name) + ")" : "");
    return words;
}

std::string learned_text(const engine::Learned& learned, const std::string& unit) {
    if (learned.days == 0)
        return "nothing";
    std::string text = lang::quantity_text(learned.value, unit);
    if (learned.days > 1)
        text += fmt::format(", give or take {} (one standard error, {} days)",
                            lang::number_text(learned.standard_error), learned.days);
    return text;
}

const std::string& called(const engine::QuotedCost& cost) {
    return cost.label.empty() ? cost.name : cost.label;
}

void cost_table(const engine::VarianceAnswer& variance, bool color, std::string& out) {
    Table table(
        {{"", Align::Left, true}, {"quoted"}, {"actual"}, {"over"}, {"by quantity"}, {"by rate"}});
    for (const engine::VarianceRow& row : variance.rows) {
        if (row.quoted_amount == 0 && row.actual_amount == 0)
            continue; // nothing of it was quoted or spent
        table.row({terminal_text(called(row.quoted)) + (row.as_quoted() ? " *" : ""),
                   money_text(row.quoted_amount), money_text(row.actual_amount),
                   signed_money(row.actual_amount - row.quoted_amount),
                   signed_money(row.by_quantity), signed_money(row.by_rate)});
    }
    table.rule();
    const auto total = [&](const char* words, double quoted, double actual) {
        table.row({words, money_text(quoted), money_text(actual), signed_money(actual - quoted)},
                  true);
    };
    const double quoted = variance.quoted_cost, actual = variance.actual_cost;
    total("direct cost", quoted, actual);
    table.row({"income", money_text(variance.price), money_text(variance.income),
               signed_money(variance.income - variance.price)});
    total("contribution", variance.quoted_contribution(), variance.actual_contribution());
    table.row({"overhead, as quoted", money_text(variance.overhead), money_text(variance.overhead),
               signed_money(0)});
    total("profit", variance.quoted_profit(), variance.actual_profit());
    out += table.text(color);
    const bool any = std::any_of(variance.rows.begin(), variance.rows.end(), [](const auto& row) {
        return row.as_quoted() && row.quoted_amount != 0;
    });
    if (any)
        out += paragraph("* as quoted: the log does not say", "  ");
    const bool has_fuel = std::any_of(
        variance.counted.begin(), variance.counted.end(),
        [](const auto& row) { return row.line.how == engine::Counting::Fuel && row.logged > 0; });
    if (has_fuel && std::none_of(variance.rows.begin(), variance.rows.end(), [](const auto& row) {
            return row.from.log && row.from.how == engine::Counting::Fuel;
        }))
        out += paragraph("Fuel is in the rates by the hour, as quoted: what the log has of it "
                         "changes no cost here.");
    out +=
        paragraph("Income less direct cost is the contribution; less overhead, the profit.", "  ");
}

std::string income_words(const Income& income) {
    if (income.from == "bill")
        return "The income is the work in bill " + terminal_text(income.bill) + ".";
    if (income.from == "terms")
        return "The income is what the quote's terms bill for this log.";
    if (income.from == "terms without fuel steps")
        return "The income is what the quote's terms bill for this log, without fuel steps: "
               "`--posted FILE` has the prices that they go by.";
    if (!income.bill.empty())
        return fmt::format("The income is as agreed, for all of the work: the job is not finished. "
                           "Bill {} has {} of work so far; once the quote is marked finished, the "
                           "bill is the income.",
                           terminal_text(income.bill), money_text(income.billed));
    if (income.why.empty())
        return "The income is as agreed: the job is not finished.";
    return "The income is as agreed, for no bill can be made: " + terminal_text(income.why) + ".";
}

// What a figure of a part of the job is, and which figures were filled in.
void partly(const engine::VarianceAnswer& variance, std::string& out) {
    if (variance.by_service)
        out += remark(fmt::format("The job is not finished: the log has {} of its work. What it "
                                  "has of each service is multiplied to stand beside the whole "
                                  "of that service; one of which it has no work is as quoted.",
                                  percent_text(variance.share)));
    else if (variance.scaled_by != 1)
        out += remark(fmt::format("The job is not finished: the log has {} of its work, and every "
                                  "figure from it is multiplied by {} to stand beside the whole "
                                  "quote.",
                                  percent_text(variance.share),
                                  lang::number_text(variance.scaled_by)));
    else if (variance.work_share > 0 && std::abs(variance.work_share - 1) > 0.05)
        out += remark(fmt::format("The log has {} of the work that was quoted; it stands beside "
                                  "the whole quote.",
                                  percent_text(variance.work_share)));
    for (const auto& [column, left] : variance.log.unlogged)
        out += remark(fmt::format("`{}` is empty on {} with {} h of the meter; these are taken to "
                                  "be like the others.",
                                  terminal_text(column),
                                  left.days == 1 ? "a day" : fmt::format("{} days", left.days),
                                  lang::fixed_text(left.hours, 1)));
    for (const std::string& machine : variance.unlogged_machines)
        out += remark("No row of the log is of the machine `" + terminal_text(machine) +
                      "`: what goes by its hours is as quoted.");
    if (variance.waited_without_wages > 0)
        out += remark(fmt::format("The crew waited {} h. The quote has no wages for that: what it "
                                  "cost is not counted.",
                                  lang::fixed_text(variance.waited_without_wages, 1)));
    if (variance.log.of_no_service > 1e-9)
        out += remark(fmt::format("{} h of the meter are in rows without any work; these are "
                                  "shared among the services as the others are.",
                                  lang::fixed_text(variance.log.of_no_service, 1)));
}

void fuel(const engine::VarianceAnswer& variance, std::string& out) {
    for (const engine::VarianceRow& row : variance.rows) {
        if (!row.by_hours)
            continue;
        Table table({{"", Align::Left, true}, {""}});
        table.row({"hours", signed_money(*row.by_hours)});
        table.row({"fuel burned an hour", signed_money(*row.by_burn)});
        table.row({"fuel price", signed_money(row.by_rate)});
        table.rule();
        table.row({terminal_text(called(row.quoted)),
                   signed_money(row.actual_amount - row.quoted_amount)},
                  true);
        out += "\nFuel variance: hours, burn, price\n" + table.text();
    }
}

void learned(const engine::VarianceAnswer& variance, std::string& out) {
    std::size_t widest = 0;
    for (const engine::CountedRow& row : variance.counted)
        if (row.per_hour)
            widest = std::max(widest, column_words(row.line.name).size());
    if (widest == 0)
        return;
    out += "\nWhat this job tells us\n";
    for (const engine::CountedRow& row : variance.counted)
        if (row.per_hour)
            out += paragraph(learned_text(*row.per_hour, row.line.unit + "/h"),
                             fmt::format("  {:<{}}  ", column_words(row.line.name) + " an hour",
                                         std::min<std::size_t>(widest, 30) + 8));
}

} // namespace

std::string variance_text(const VariancePage& page, bool color) {
    const engine::VarianceAnswer& variance = page.variance;
    std::string out =
        heading(fmt::format("Quote {} against what happened: {}", terminal_text(variance.quote),
                            terminal_text(variance.job)),
                color) +
        not_for_the_customer(color);
    const engine::LogTotals& log = variance.log;
    out += paragraph("the log: " + log_words(variance));
    partly(variance, out);
    out += "\n";
    cost_table(variance, color, out);
    out += paragraph(income_words(page.income), "  ");
    fuel(variance, out);
    if (!log.down.empty()) {
        out += "\nDowntime\n";
        Table table({{"", Align::Left, true}, {""}});
        for (const auto& [cause, hours] : log.down)
            table.row({terminal_text(cause), lang::quantity_text(hours, "h")});
        out += table.text(color);
    }
    learned(variance, out);
    for (const std::string& cost : variance.unknown_costs)
        out +=
            "\n" + paragraph("The log has money for `" + terminal_text(cost) +
                                 "`, which is not a cost of this quote; it is not counted above.",
                             "");
    out += "\n" + paragraph("Quantities that go with what the job counts are from the log, crew "
                            "trips and nights by its days; the move is as quoted unless the log "
                            "has its hours or money. Rates are from the log where it has money or "
                            "a fuel price, otherwise as quoted.",
                            "");
    return out;
}

} // namespace acre::cli
