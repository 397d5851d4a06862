#include "cli/rate_card/card.h"
#include "cli/shared/json/value.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

Json axis_json(const engine::CardAxis& axis) {
    return {{"given", axis.given}, {"places", axis.places}, {"label", axis.label}};
}

Json page_json(const engine::RateCard& card, std::size_t number) {
    const engine::CardPage& page = card.pages[number];
    Json json = {{"name", card.along_pages ? card.along_pages->places[number] : std::string()},
                 {"rate", Json::array()},
                 {"margin", Json::array()},
                 {"notes", page.notes}};
    for (const double rate : page.rate)
        json["rate"].push_back(cli::number(rate));
    for (const double margin : page.margin)
        json["margin"].push_back(cli::number(margin));
    return json;
}

} // namespace

Document card_json(const DatedCard& dated) {
    const engine::RateCard& card = dated.card;
    Json out = {{"schema", "acrewright.rate-card/2"},
                {"money", money_json()},
                {"title", card.title},
                {"season", card.season},
                {"date", dated.date},
                {"item", card.item},
                {"unit", card.unit},
                {"rows", axis_json(card.rows)},
                {"columns", axis_json(card.columns)},
                {"pages", Json::array()},
                {"bands", Json::array()}};
    for (std::size_t i = 0; i < card.pages.size(); ++i)
        out["pages"].push_back(page_json(card, i));
    if (card.bands)
        for (std::size_t i = 0; i < card.bands->amount.size(); ++i)
            out["bands"].push_back({{"where", card.bands->along.places[i]},
                                    {"amount", number(card.bands->amount[i])}});
    out["notes"] = card.notes;
    out["minimum"] = card.minimum ? lang::quantity_text(*card.minimum, "$") : std::string();
    out["fixed"] = Json::array();
    for (const engine::CardFact& fact : card.fixed)
        out["fixed"].push_back(fact.label + ": " + fact.value);
    return answered(std::move(out));
}

} // namespace acre::cli
