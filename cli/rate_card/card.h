// The season's price list as words, CSV, JSON, and the page to hand out.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/rate_card.h"

namespace acre::cli {

struct DatedCard {
    engine::RateCard card;
    std::string date; // from when it holds, "2027-01-15"
    std::string firm; // whose card it is; may be empty
};

// `earns`: below each rate what it leaves over its cost.
std::string card_text(const DatedCard& dated, bool earns, bool color);
std::string card_csv(const DatedCard& dated);
// The page to hand out: rates, bands and minimum; nothing of costs.
std::string card_html(const DatedCard& dated);
// Schema acrewright.rate-card/2. Field by field in cli/README.md.
Document card_json(const DatedCard& dated);

// A place of an axis and a fact as people read them; make them safe where they go.
std::string place_words(const engine::CardAxis& axis, std::size_t place);
std::string fact_words(const engine::CardFact& fact);
// The minimum charge, which is that of the item alone: a move is charged beside it.
std::string minimum_words(const engine::RateCard& card);
// "" or " 1, 3": the notes that stand at a cell.
std::string note_marks(const engine::CardPage& page, std::size_t cell);
// "$557.00/ac"; `none` where there is no answer.
std::string rate_words(double rate, const std::string& unit, const char* none);

} // namespace acre::cli
