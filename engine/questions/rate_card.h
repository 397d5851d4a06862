// The season's price list: the rate of one price item over two or three givens, and the margin
// of each cell: what its rate leaves after direct cost and overhead, over the rate.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_card_cells =
    200'000; // of a card for people and other programs alike

struct CardAlong { // what is asked for along a given
    std::string given;
    std::vector<double> at; // in the unit of the given; of a choice: which options
};

struct CardQuestion {
    CardAlong rows, columns;
    std::optional<CardAlong> pages; // one table for each place
    std::optional<CardAlong> bands; // the lump item over a given
    std::string item;               // name of the price item; empty: the first that is per unit
    double round = 0;               // up to whole multiples, in the unit of the rate; 0: as it is
};

struct CardAxis {
    std::string given, label;        // label: the name where the model gives none
    std::vector<std::string> places; // "4 ft", or the identifier of an option
    bool is_choice = false;
};
struct CardPage {
    std::vector<double> rate;                    // by row, then column; NaN: no answer
    std::vector<double> margin;                  // profit over price
    std::vector<std::vector<std::size_t>> notes; // by cell, into RateCard::notes
};
struct CardBands {
    std::string item; // the title of the lump item
    CardAxis along;
    std::vector<double> amount; // by place, $; NaN: no answer
};
struct CardFact { // a given that is the same in every cell, as the job has it
    std::string label, value;
    bool is_choice = false; // value: the identifier of an option
};

struct RateCard {
    std::string title, season, item, unit; // unit of the rate: "$/ac"
    CardAxis rows, columns;
    std::optional<CardAxis> along_pages; // by page; empty: there is one page
    std::vector<CardPage> pages;
    std::optional<CardBands> bands;
    std::vector<std::string> notes; // why a cell has no rate, cautions that not all cells bring up
    std::optional<double> minimum;  // no job below it, $
    std::vector<CardFact> fixed;
};

// Q001: no such price item or given, or no price per unit. Q006: too many cells.
lang::Outcome<RateCard> ask(const PricedJob& job, const CardQuestion& question);

// The unit of the item's rate, for who reads what to round to; Q001 as above.
lang::Outcome<std::string> card_unit(const PricedJob& job, const std::string& item);

} // namespace acre::engine
