#include "cli/rate_card/card.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

std::string card_json(const RateCard& card) {
    Json out = {{"schema", "acrewright.rate-card/1"},
                {"title", card.title},
                {"season", card.season},
                {"date", card.date},
                {"item", card.item},
                {"unit", card.unit},
                {"rows", {{"given", card.rows.given}, {"places", card.rows.shown}}},
                {"columns", {{"given", card.columns.given}, {"places", card.columns.shown}}},
                {"pages", Json::array()},
                {"bands", Json::array()}};
    for (const CardPage& page : card.pages) {
        Json entry = {{"name", page.name}, {"rate", Json::array()}, {"left", Json::array()}};
        for (const double rate : page.rate)
            entry["rate"].push_back(number(rate));
        for (const double left : page.left)
            entry["left"].push_back(number(left));
        out["pages"].push_back(std::move(entry));
    }
    for (const CardBand& band : card.bands)
        out["bands"].push_back({{"where", band.where}, {"amount", number(band.amount)}});
    out["minimum"] = card.minimum;
    out["fixed"] = card.fixed;
    return document(out);
}

} // namespace acre::cli
