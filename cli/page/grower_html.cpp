#include "cli/page/grower_html.h"

#include "cli/field/report.h"
#include "cli/price/price_text.h"
#include "cli/shared/html_page.h"
#include "cli/shared/safe_text.h"
#include "engine/questions/field.h"
#include "engine/questions/shown.h"
#include "engine/words/billing.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string per_unit(const engine::Estimate& estimate) {
    return estimate.per.empty() || estimate.per_quantity == 0
               ? ""
               : lang::quantity_text(estimate.price_per_unit, "$/" + estimate.per);
}

std::string items(const engine::Estimate& estimate) {
    HtmlTable table({"Work", "Quantity", "Rate", "Amount"}, 1);
    for (const engine::ItemRow& item : estimate.items) {
        const bool lump = item.per.empty();
        table.row({item.title, lump ? "lump sum" : lang::quantity_text(item.quantity, item.per),
                   lump ? "" : engine::billed_rate_text(item.rate, item.per),
                   lang::cents_text(item.cents)});
    }
    table.row({"Total", "", per_unit(estimate), lang::cents_text(estimate.price_cents)});
    return std::move(table).finish();
}

std::string shown(const CollectedJob& job) {
    const engine::ShownAnswer shown = engine::ask(*job.job, engine::ShownQuestion{});
    if (shown.figures.empty())
        return {};
    HtmlTable table({"What it is based on", ""}, 1);
    for (const engine::ShownFigure& figure : shown.figures)
        table.row({figure.label, figure.text});
    return std::move(table).finish();
}

std::string options(const CollectedJob& job) {
    if (job.options.empty())
        return {};
    HtmlTable table({"Instead", "All in", "Total"}, 1);
    for (const OptionPrice& option : job.options)
        table.row({option.title, per_unit(option.estimate),
                   lang::cents_text(option.estimate.price_cents)});
    return "<h2>Other ways to do it</h2>\n" + std::move(table).finish();
}

std::string map(const CollectedJob& job) {
    std::string drawn;
    for (const engine::JobField& field : job.job->fields())
        drawn += field_svg(engine::field_answer(field.field));
    return drawn.empty() ? "" : "<h2>Where it is</h2>\n" + drawn;
}

std::string cautions(const engine::Estimate& estimate) {
    std::string html = "<h2>Please note</h2>\n<ul>\n";
    for (const engine::CautionRow& caution : estimate.cautions)
        if (!caution.tested_range) // that is about the firm's formulas
            html += "<li>" + markup_text(caution.text) + "</li>\n";
    return html + "</ul>\n<p>" + standing_line + "</p>\n";
}

} // namespace

std::string grower_html(std::span<const CollectedJob> jobs) {
    std::string html = html_head(jobs.front().price.job.title);
    for (const CollectedJob& job : jobs) {
        const engine::JobHead& head = job.price.job;
        html += "<h1>" + markup_text(head.title) + "</h1>\n<p>";
        html += head.who.empty() ? "" : "For " + markup_text(head.who);
        html += head.who.empty() || head.date.empty() ? "" : ", ";
        html += head.date.empty() ? "" : markup_text(lang::day_text(head.date));
        html += "</p>\n" + items(job.price.estimate) + shown(job) + options(job) + map(job) +
                cautions(job.price.estimate);
    }
    return html + html_foot();
}

} // namespace acre::cli
