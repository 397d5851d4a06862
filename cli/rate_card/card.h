// The season's price list: the rate of one price item over two or three givens, and what each cell
// leaves over its cost.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/axis_words.h"
#include "cli/shared/job.h"

namespace acre::cli {

inline constexpr std::size_t max_card_cells =
    200'000; // of a card for people and other programs alike

struct CardRequest {
    std::string rows, columns, pages; // axes, as on the command line; pages may be empty
    std::string item;  // name of the price item; empty: the first one that is per unit
    std::string round; // "$5/ac": up to the next multiple; empty: as the model rounds
    std::string bands; // an axis for the lump item, "site.miles=10 mi,25 mi"; may be empty
};

struct CardPage {
    std::string name;         // "ground: hard"; empty without pages
    std::vector<double> rate; // by row, then column; NaN: no answer
    std::vector<double> left; // the share of the rate left over the item's cost
};
struct CardBand {
    std::string where; // "25 mi"
    double amount = 0; // NaN: no answer
};

struct RateCard {
    std::string title, season, date, item, unit; // unit of the rate: "$/ac"
    std::string row_label, column_label, page_label, band_label, band_item;
    AxisWords rows, columns;
    std::vector<CardPage> pages;
    std::vector<CardBand> bands;
    std::string minimum;            // "$7,500"; empty: none
    std::vector<std::string> fixed; // what the card takes as given: "run 1,250 ft"
};

// False: `reason` says what is wrong with the request.
bool make_card(const engine::PricedJob& job, const CardRequest& request, std::string date,
               RateCard& card, std::string& reason);

std::string card_text(const RateCard& card, bool earns, bool color);
std::string card_csv(const RateCard& card);
// The page to hand out: rates, bands and minimum; nothing of costs.
std::string card_html(const RateCard& card);
// Schema acrewright.rate-card/1.
std::string card_json(const RateCard& card);

} // namespace acre::cli
