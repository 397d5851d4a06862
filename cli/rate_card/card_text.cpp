#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/rate_card/card.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "engine/words/choice_label.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

std::string place(const engine::CardAxis& axis, std::size_t i) {
    return terminal_text(place_words(axis, i));
}

std::string page_table(const engine::RateCard& card, const engine::CardPage& page, bool earns,
                       bool color) {
    const std::size_t width = card.columns.places.size();
    std::vector<Column> heads = {{terminal_text(card.rows.label), Align::Left, true}};
    for (std::size_t c = 0; c < width; ++c)
        heads.push_back({place(card.columns, c)});
    Table table(heads);
    for (std::size_t r = 0; r < card.rows.places.size(); ++r) {
        std::vector<std::string> rates = {place(card.rows, r)};
        std::vector<std::string> margin = {"  margin"};
        for (std::size_t c = 0; c < width; ++c) {
            const double share = page.margin[r * width + c];
            rates.push_back(terminal_text(rate_words(page.rate[r * width + c], card.unit, "-")) +
                            note_marks(page, r * width + c));
            margin.push_back(std::isfinite(share) ? percent_text(share) : "-");
        }
        table.row(std::move(rates), true);
        if (earns)
            table.row(std::move(margin));
    }
    return table.text(color);
}

std::string bands_table(const engine::CardBands& bands, bool color) {
    std::string out = "\n" + paragraph(fmt::format("{}, by {}", terminal_text(bands.item),
                                                   terminal_text(bands.along.label)),
                                       "");
    Table table({{"", Align::Left, true}, {""}});
    for (std::size_t i = 0; i < bands.amount.size(); ++i)
        table.row({place(bands.along, i),
                   std::isfinite(bands.amount[i]) ? lang::money_text(bands.amount[i]) : "-"});
    return out + table.text(color);
}

std::string head(const DatedCard& dated, bool color) {
    const engine::RateCard& card = dated.card;
    const std::string title =
        fmt::format("{}, by {} and {}", terminal_text(card.item), terminal_text(card.rows.label),
                    terminal_text(card.columns.label));
    const std::string from =
        fmt::format("{}{}, from {}", terminal_text(card.title),
                    card.season.empty() ? "" : ", season " + terminal_text(card.season),
                    lang::day_text(*lang::day_number(dated.date)));
    return (dated.firm.empty() ? "" : heading(terminal_text(dated.firm), color)) +
           heading(title, color) + paragraph(from);
}

bool lacks_a_rate(const engine::RateCard& card) {
    return std::any_of(
        card.pages.begin(), card.pages.end(),
        [](const engine::CardPage& page) {
            return std::any_of(
                page.rate.begin(), page.rate.end(),
                [](double rate) { return !std::isfinite(rate); });
        });
}

} // namespace

std::string place_words(const engine::CardAxis& axis, std::size_t place) {
    return axis.is_choice ? engine::choice_label(axis.places[place]) : axis.places[place];
}

std::string minimum_words(const engine::RateCard& card) {
    return fmt::format("At least {} for {} on any job.", lang::money_text(*card.minimum),
                       card.item);
}

std::string fact_words(const engine::CardFact& fact) {
    return fact.label + ": " + (fact.is_choice ? engine::choice_label(fact.value) : fact.value);
}

std::string note_marks(const engine::CardPage& page, std::size_t cell) {
    std::string marks;
    for (const std::size_t note : page.notes[cell])
        marks += fmt::format("{}({})", marks.empty() ? " " : "", note + 1);
    return marks;
}

std::string rate_words(double rate, const std::string& unit, const char* none) {
    return std::isfinite(rate) ? lang::quantity_text(rate, unit) : none;
}

std::string card_text(const DatedCard& dated, bool earns, bool color) {
    const engine::RateCard& card = dated.card;
    std::string out = head(dated, color);
    for (std::size_t i = 0; i < card.pages.size(); ++i) {
        out += "\n";
        if (card.along_pages)
            out += paragraph(fmt::format("{}: {}", terminal_text(card.along_pages->label),
                                         place(*card.along_pages, i)),
                             "");
        out += paragraph("across: " + terminal_text(card.columns.label)) +
               page_table(card, card.pages[i], earns, color);
    }
    if (card.bands)
        out += bands_table(*card.bands, color);
    out += "\n";
    for (std::size_t i = 0; i < card.notes.size(); ++i)
        out += paragraph(terminal_text(card.notes[i]), fmt::format("  ({}) ", i + 1));
    if (card.notes.empty() && lacks_a_rate(card))
        out += paragraph(
            "- : there is no price: a requirement is not met, or a value is outside its allowed "
            "range. `price` with the two values set says which.");
    if (card.minimum)
        out += paragraph(terminal_text(minimum_words(card)));
    for (const engine::CardFact& fact : card.fixed)
        out += paragraph(terminal_text(fact_words(fact)));
    return out;
}

std::string card_csv(const DatedCard& dated) {
    const engine::RateCard& card = dated.card;
    std::string out = fmt::format("{},{},{},rate,unit,margin\r\n",
                                  csv_field(card.along_pages ? card.along_pages->label : "page"),
                                  csv_field(card.rows.label), csv_field(card.columns.label));
    const std::size_t width = card.columns.places.size();
    for (std::size_t p = 0; p < card.pages.size(); ++p)
        for (std::size_t i = 0; i < card.pages[p].rate.size(); ++i) {
            out += fmt::format(
                "{},{},{},{},{},{}\r\n",
                csv_field(card.along_pages ? card.along_pages->places[p] : std::string()),
                csv_field(card.rows.places[i / width]), csv_field(card.columns.places[i % width]),
                bare_text(card.pages[p].rate[i], 2), csv_field(card.unit),
                bare_text(card.pages[p].margin[i], 4));
        }
    return out;
}

} // namespace acre::cli
