#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/rate_card/card.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

std::string rate_text(double rate, const std::string& unit) {
    return std::isfinite(rate) ? lang::quantity_text(rate, unit) : "-";
}

std::string page_table(const RateCard& card, const CardPage& page, bool earns, bool color) {
    const std::size_t width = card.columns.at.size();
    std::vector<Column> heads = {{terminal_text(card.row_label), Align::Left, true}};
    for (const std::string& shown : card.columns.shown)
        heads.push_back({terminal_text(shown)});
    Table table(heads);
    for (std::size_t r = 0; r < card.rows.at.size(); ++r) {
        std::vector<std::string> rates = {terminal_text(card.rows.shown[r])};
        std::vector<std::string> left = {"  left over its cost"};
        for (std::size_t c = 0; c < width; ++c) {
            rates.push_back(rate_text(page.rate[r * width + c], card.unit));
            left.push_back(std::isfinite(page.left[r * width + c])
                               ? fmt::format("{:.1f} %", 100 * page.left[r * width + c])
                               : "-");
        }
        table.row(std::move(rates), true);
        if (earns)
            table.row(std::move(left));
    }
    return table.text(color, 100);
}

} // namespace

std::string card_text(const RateCard& card, bool earns, bool color) {
    std::string out =
        bold(fmt::format("{}, by {} and {}", terminal_text(card.item),
                         terminal_text(card.row_label), terminal_text(card.column_label)),
             color) +
        "\n" +
        fmt::format("  {}{}, {}\n", terminal_text(card.title),
                    card.season.empty() ? "" : ", season " + terminal_text(card.season), card.date);
    for (const CardPage& page : card.pages) {
        out += page.name.empty() ? "\n"
                                 : fmt::format("\n{}: {}\n", terminal_text(card.page_label),
                                               terminal_text(page.name));
        out += fmt::format("  across: {}\n", terminal_text(card.column_label)) +
               page_table(card, page, earns, color);
    }
    if (!card.bands.empty()) {
        out += fmt::format("\n{}, by {}\n", terminal_text(card.band_item),
                           terminal_text(card.band_label));
        Table table({{"", Align::Left}, {""}});
        for (const CardBand& band : card.bands)
            table.row({terminal_text(band.where),
                       std::isfinite(band.amount) ? lang::money_text(band.amount) : "-"});
        out += table.text(color);
    }
    out += "\n";
    if (std::any_of(card.pages.begin(), card.pages.end(), [](const CardPage& page) {
            return std::any_of(page.rate.begin(), page.rate.end(),
                               [](double rate) { return !std::isfinite(rate); });
        }))
        out += "  " +
               wrap("- : the model gives no price there: a requirement is not met. `price` with "
                    "the two values set says which.",
                    page_width - 2, 4) +
               "\n";
    if (!card.minimum.empty())
        out += fmt::format("  No job under {}.\n", card.minimum);
    for (const std::string& fact : card.fixed)
        out += "  " + wrap(terminal_text(fact), page_width - 2, 4) + "\n";
    return out;
}

std::string card_csv(const RateCard& card) {
    std::string out = fmt::format("{},{},{},rate,unit,left_over_cost\r\n",
                                  csv_field(card.page_label.empty() ? "page" : card.page_label),
                                  csv_field(card.row_label), csv_field(card.column_label));
    const std::size_t width = card.columns.at.size();
    for (const CardPage& page : card.pages)
        for (std::size_t r = 0; r < card.rows.at.size(); ++r)
            for (std::size_t c = 0; c < width; ++c) {
                const double rate = page.rate[r * width + c];
                out += fmt::format(
                    "{},{},{},{},{},{}\r\n", csv_field(page.name), csv_field(card.rows.shown[r]),
                    csv_field(card.columns.shown[c]),
                    std::isfinite(rate) ? fmt::format("{:.2f}", rate) : "", csv_field(card.unit),
                    std::isfinite(rate) ? fmt::format("{:.4f}", page.left[r * width + c]) : "");
            }
    return out;
}

std::string card_html(const RateCard& card) {
    std::string out =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
        "name=\"viewport\" content=\"width=device-width\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
        "'unsafe-inline'\">\n<title>" +
        markup_text(card.item) +
        "</title>\n<style>\n@page { size: letter; margin: 16mm; }\nbody { font: 11pt/1.4 Georgia, "
        "'Liberation Serif', serif; color: "
        "#1d1b17; max-width: 48em; "
        "margin: 2em auto; padding: 0 1em; }\nh1 { font-size: 18pt; margin: 0; border-bottom: "
        "2.5pt solid #6b4f2a; padding-bottom: .2em; "
        "}\n"
        "h2 { font-size: 12pt; color: #6b4f2a; margin: 1.2em 0 .3em; }\np { margin: .3em 0; "
        "}\ntable { border-collapse: collapse; width: "
        "100%; "
        "break-inside: avoid; }\nth, td { border-bottom: .5pt solid #c9bfa8; padding: .3em .5em; "
        "text-align: right; font-variant-numeric: "
        "tabular-nums; }\n"
        "th:first-child, td:first-child { text-align: left; }\nth { font-weight: normal; color: "
        "#57503f; }\nfooter { margin-top: 1.4em; "
        "font-size: 9pt; "
        "color: #57503f; }\n@media print { body { margin: 0; max-width: none; padding: 0; } "
        "}\n</style>\n</head>\n<body>\n";
    out += fmt::format(
        "<h1>{}</h1>\n<p>{}{}, from {}</p>\n", markup_text(card.item), markup_text(card.title),
        card.season.empty() ? "" : ", season " + markup_text(card.season), markup_text(card.date));
    const std::size_t width = card.columns.at.size();
    for (const CardPage& page : card.pages) {
        if (!page.name.empty())
            out += fmt::format("<h2>{}: {}</h2>\n", markup_text(card.page_label),
                               markup_text(page.name));
        out += fmt::format("<table>\n<tr><th>{} \u2193 &nbsp; {} \u2192</th>",
                           markup_text(card.row_label), markup_text(card.column_label));
        for (const std::string& shown : card.columns.shown)
            out += "<th>" + markup_text(shown) + "</th>";
        out += "</tr>\n";
        for (std::size_t r = 0; r < card.rows.at.size(); ++r) {
            out += "<tr><td>" + markup_text(card.rows.shown[r]) + "</td>";
            for (std::size_t c = 0; c < width; ++c)
                out +=
                    "<td>" + markup_text(rate_text(page.rate[r * width + c], card.unit)) + "</td>";
            out += "</tr>\n";
        }
        out += "</table>\n";
    }
    if (!card.bands.empty()) {
        out += fmt::format("<h2>{}</h2>\n<table>\n", markup_text(card.band_item));
        for (const CardBand& band : card.bands)
            out += fmt::format("<tr><td>{}: {}</td><td>{}</td></tr>\n",
                               markup_text(card.band_label), markup_text(band.where),
                               std::isfinite(band.amount) ? lang::money_text(band.amount) : "ask");
        out += "</table>\n";
    }
    if (!card.minimum.empty())
        out += "<p>No job under " + markup_text(card.minimum) + ".</p>\n";
    out += "<h2>What the rates take for granted</h2>\n<ul>\n";
    for (const std::string& fact : card.fixed)
        out += "<li>" + markup_text(fact) + "</li>\n";
    out += "</ul>\n<footer>A rate is no quote: a quote is made for the field, its ground and its "
           "move. Call the utility locating service "
           "before any "
           "ripping; permits and routes are the authorities' to say.</footer>\n</body>\n</html>\n";
    return out;
}

} // namespace acre::cli
