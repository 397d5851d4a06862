// What a record says of a quote, as data: for lists, pages and variance, which need no JSON.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/job/priced_job.h"
#include "engine/questions/estimate.h"
#include "engine/questions/variance.h"
#include "lang/units/money.h"

namespace acre::engine {

struct RecordLine {
    std::string name, unit, choice; // `choice`: the option's name, of a line that chooses
    double value = 0;               // NaN: none
};
struct RecordCost {
    std::string name, label, part, rate_unit, quantity_unit;
    double rate = 0, quantity = 0, amount = 0; // amount: $
};
struct RecordItem {
    std::string title, name, per; // `per` empty: a lump sum
    double quantity = 0, rate = 0;
    std::int64_t cents = 0;
};
struct RecordPicture {
    std::string block, svg; // SVG made by this program
};

struct RecordBlock {                       // what the customer sees of one
    std::string label, acres, depth, soil; // as people read them; perhaps empty
    std::int64_t cents = 0;
};

struct QuoteRecord {
    std::string number, issued, valid_until, by, replaces; // "2027-014", "2027-06-21"
    std::string title, who, option;                        // of the job
    std::string start, finish; // its first and last day, 2027-06-21; empty: not known
    std::vector<RecordLine> lines;
    std::vector<std::string> inner; // names of lines that stay inside the firm
    // Names of lines that the customer may read. Nothing of records from before models said so:
    // there it is every line that is not inner.
    std::optional<std::vector<std::string>> shown;
    std::vector<CountedLine> counted; // what a log counts
    std::vector<RecordCost> costs;
    std::vector<RecordItem> items;
    std::vector<std::string> cautions;
    std::vector<RecordPicture> pictures;
    std::vector<RecordBlock> blocks;   // none unless the quote was asked by block
    std::vector<std::string> accepted; // codes of warnings
    std::string firm;                  // its name
    std::vector<std::pair<std::string, std::string>> firm_words;
    lang::Currency money;
    std::int64_t price_cents = 0;
    std::string per;           // of the first item with one
    double per_quantity = 0;   // how many of it
    double price_per_unit = 0; // $
    double cost_total = 0;     // $, direct cost
    double overhead = 0;       // $, what the price carries
    std::int64_t notation = 1; // the version whose rules hold
};

// Of a record that has the shape of one (engine/book/shape.h). What is not there is empty.
QuoteRecord quote_record(const nlohmann::json& record);

// Whether an item's rate times its quantity is its cents: not under the first notation.
bool is_billed_exactly(const QuoteRecord& record);

// The quote as variance asks for it.
Quoted quoted_of(const QuoteRecord& record);

// What a quote says besides the job's own figures.
struct QuoteTerms {
    std::string issued, valid_until, by, replaces;
    std::vector<RecordPicture> pictures;
    std::vector<RecordBlock> blocks;
    std::vector<std::string> accepted; // codes of the warnings that whoever issues it accepts
};

// The body of a quote's record, before it has a number.
nlohmann::json draft_record(const PricedJob& job, const Estimate& estimate, const QuoteTerms& terms,
                            std::string_view program_version);

// Gives a draft the number after those that the newest record of the book knows of (null: the book
// is empty): the year of its date and a counter that starts anew each year. Returns the number.
std::string give_number(nlohmann::json& draft, const nlohmann::json* newest);

} // namespace acre::engine
