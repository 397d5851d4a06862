#include "cli/page/page_html.h"

#include "cli/field/report.h"
#include "cli/page/parts.h"
#include "cli/page/policy.h"
#include "cli/price/price_text.h"
#include "cli/shared/html_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/page.h"
#include "engine/questions/field.h"
#include "engine/words/billing.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::string_view before_policy =
    "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\" "
    "content=\"width=device-width,initial-scale=1,viewport-fit=cover\">\n<meta "
    "http-equiv=\"Content-Security-Policy\" content=\"";

// What the script fills: band, changes.
constexpr std::string_view live = R"(<div id="live" hidden>
<p class="hidden" id="announce" role="status"></p>
<div class="band" id="band" role="region" aria-label="Price in sight">
<div class="wrap">
<p class="big" id="big"></p><dl id="figures"></dl><div class="note" id="note"></div>
</div></div>
<section class="changes no-print" id="changes" hidden aria-label="Changed since opened">
<div class="wrap"><h2>Changed since opened</h2><ul id="changed"></ul>
<div class="row-actions" id="changes-do"></div></div></section>
</div>
)";

std::string words(std::string_view text) {
    return markup_text(text);
}

std::string item_row(const engine::ItemRow& item) {
    const std::string quantity = item.per.empty()
                                     ? "lump sum"
                                     : lang::quantity_text(item.quantity, item.per) + " at " +
                                           engine::billed_rate_text(item.rate, item.per);
    return "<tr><th scope=\"row\">" + words(item.title) + "</th><td class=\"num\">" +
           words(quantity) + "</td><td class=\"num\">" + words(lang::cents_text(item.cents)) +
           "</td></tr>\n";
}

// The price as it was when the page was written: all that a mail preview shows.
std::string as_written(const engine::PriceAnswer& price) {
    const engine::Estimate& estimate = price.estimate;
    std::string html = "<div class=\"wrap\" id=\"written\">\n<div class=\"block\"><h2>Price</h2>\n"
                       "<table><caption class=\"hidden\">Price</caption>\n<tbody>\n";
    for (const engine::ItemRow& item : estimate.items)
        html += item_row(item);
    html += "</tbody>\n<tfoot><tr><th scope=\"row\">Total</th><td class=\"num\">";
    if (!estimate.per.empty() && estimate.per_quantity != 0)
        html +=
            words(lang::quantity_text(estimate.price_per_unit, "$/" + estimate.per)) + " all in";
    html += "</td><td class=\"num\">" + words(lang::cents_text(estimate.price_cents)) +
            "</td></tr></tfoot></table></div>\n<div class=\"block\"><h2>Cautions</h2>\n<ul "
            "class=\"cautions\">\n";
    for (const engine::CautionRow& caution : estimate.cautions)
        html += "<li>" + words(caution.text) + "</li>\n";
    return html + "</ul><p class=\"meta\">" + standing_line + "</p></div></div>\n";
}

std::string head_of_page(const engine::JobHead& job) {
    std::string whose = job.who.empty() ? "" : "For " + job.who;
    if (!job.date.empty())
        whose += (whose.empty() ? "" : ", ") + lang::day_text(job.date);
    return "<a class=\"skip\" href=\"#main\">Skip to the content</a>\n<header class=\"wrap "
           "head\"><div><p class=\"firm\">" +
           words(job.season.empty() ? job.model : job.model + ", season " + job.season) +
           "</p><h1 id=\"title\">" + words(job.title) + "</h1><p class=\"meta\" id=\"for\">" +
           words(whose) + "</p><p class=\"meta\">" + firms_own +
           "</p></div><nav class=\"places\" id=\"places\" "
           "aria-label=\"Places\"></nav></header>\n";
}

// No text of a stranger can end the element it stands in.
std::string inside_script(std::string json) {
    for (std::size_t at = json.find('<'); at != std::string::npos; at = json.find('<', at))
        json.replace(at, 1, "\\u003c");
    return json;
}

constexpr std::string_view drawn_width = " style=\"max-width:760px\"";

std::string maps(const Collected& collected) {
    std::string html;
    for (std::size_t i = 0; i < collected.jobs.size(); ++i) {
        std::string drawn;
        for (const engine::JobField& field : collected.jobs[i].job->fields())
            drawn += field_svg(engine::field_answer(field.field));
        // The policy of a page allows no style of an element by itself; its own styles size a map.
        for (std::size_t at; (at = drawn.find(drawn_width)) != std::string::npos;)
            drawn.erase(at, drawn_width.size());
        if (!drawn.empty())
            html += "<template id=\"map-" + std::to_string(i) + "\">" + drawn + "</template>\n";
    }
    return html;
}

std::string title_of(const engine::PriceAnswer& price) {
    const engine::Estimate& estimate = price.estimate;
    return price.job.title + ": " +
           (estimate.per.empty()
                ? lang::cents_text(estimate.price_cents)
                : lang::quantity_text(estimate.price_per_unit, "$/" + estimate.per));
}

} // namespace

std::string page_html(const Collected& collected, const std::string& module) {
    const engine::PriceAnswer& price = collected.jobs.front().price;
    std::string html = "<title>" + words(title_of(price)) + "</title>\n<style>";
    html.append(page_style()).append("</style></head>\n<body>\n");
    html += head_of_page(price.job);
    html.append(live);
    html += "<main id=\"main\" tabindex=\"-1\">\n<div class=\"wrap\" id=\"cannot\"></div>\n" +
            as_written(price) + "</main>\n" + maps(collected);
    html += "<script type=\"application/json\" id=\"texts\">" +
            inside_script(page_texts_json(collected.texts)) + "</script>\n";
    html += "<script type=\"text/plain\" id=\"module\">" + module + "</script>\n";
    html.append("<script id=\"engine\">").append(engine_script());
    html.append("</script>\n<script>").append(page_script()).append("</script>\n");
    return std::string(before_policy) + content_policy(html) + "\">\n" + html + "</body></html>\n";
}

} // namespace acre::cli
