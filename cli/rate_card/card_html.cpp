#include <cmath>

#include <fmt/format.h>

#include "cli/rate_card/card.h"
#include "cli/shared/html_page.h"
#include "cli/shared/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string head(const DatedCard& dated) {
    const engine::RateCard& card = dated.card;
    return html_head(card.item) +
           (dated.firm.empty() ? "" : "<p><strong>" + markup_text(dated.firm) + "</strong></p>\n") +
           fmt::format("<h1>{}</h1>\n<p>{}{}, from {}</p>\n", markup_text(card.item),
                       markup_text(card.title),
                       card.season.empty() ? "" : ", season " + markup_text(card.season),
                       lang::day_text(*lang::day_number(dated.date)));
}

std::string rates(const engine::RateCard& card, const engine::CardPage& page) {
    const std::size_t width = card.columns.places.size();
    std::vector<std::string> heads = {card.rows.label};
    for (std::size_t c = 0; c < width; ++c)
        heads.push_back(place_words(card.columns, c));
    HtmlTable table(std::move(heads), 1);
    for (std::size_t r = 0; r < card.rows.places.size(); ++r) {
        std::vector<std::string> cells = {place_words(card.rows, r)};
        for (std::size_t c = 0; c < width; ++c)
            cells.push_back(rate_words(page.rate[r * width + c], card.unit, "ask") +
                            note_marks(page, r * width + c));
        table.row(cells);
    }
    return "<p>across: " + markup_text(card.columns.label) + "</p>\n<div class=\"wide\">" +
           std::move(table).finish() + "</div>\n";
}

std::string bands(const engine::CardBands& bands) {
    HtmlTable table({bands.along.label, bands.item}, 1);
    for (std::size_t i = 0; i < bands.amount.size(); ++i)
        table.row({place_words(bands.along, i),
                   std::isfinite(bands.amount[i]) ? lang::money_text(bands.amount[i]) : "ask"});
    return "<h2>" + markup_text(bands.item) + "</h2>\n" + std::move(table).finish();
}

} // namespace

std::string card_html(const DatedCard& dated) {
    const engine::RateCard& card = dated.card;
    std::string out = head(dated);
    for (std::size_t i = 0; i < card.pages.size(); ++i) {
        if (card.along_pages)
            out += fmt::format("<h2>{}: {}</h2>\n", markup_text(card.along_pages->label),
                               markup_text(place_words(*card.along_pages, i)));
        out += rates(card, card.pages[i]);
    }
    if (!card.notes.empty())
        out += "<ol>\n";
    for (const std::string& note : card.notes)
        out += "<li>" + markup_text(note) + "</li>\n";
    if (!card.notes.empty())
        out += "</ol>\n";
    if (card.bands)
        out += bands(*card.bands);
    if (card.minimum)
        out += "<p>" + markup_text(minimum_words(card)) + "</p>\n";
    if (!card.fixed.empty())
        out += "<h2>What the rates assume</h2>\n<ul>\n";
    for (const engine::CardFact& fact : card.fixed)
        out += "<li>" + markup_text(fact_words(fact)) + "</li>\n";
    if (!card.fixed.empty())
        out += "</ul>\n";
    return out +
           "<footer>A rate is not a quote: a quote is made for one field, its ground and the "
           "move to it. Call the utility locating service before any ripping. The authorities "
           "decide "
           "on permits and routes.</footer>\n" +
           html_foot();
}

} // namespace acre::cli
