// What both forms of the page show, in words.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cli/shared/quote_page/wording.h"
#include "engine/book/record.h"

namespace acre::cli {

struct PageItem {
    std::string title, basis,
        amount; // "Ripping", "152 ac at $821/ac", "$124,792.00"; a lump sum has no basis
};
// "of this, Home place", "62 ac, 6 ft deep, loam", "$40,120.00"; none unless asked for.
std::vector<PageItem> page_blocks(const engine::QuoteRecord& record);

// That their rates are the same; empty: there are none, or the page is of before that was said.
std::string page_blocks_note(const WordedPage& page, const engine::QuoteRecord& record);

struct PageTotal {
    std::string amount, all_in; // "$130,892.00", "$861.13/ac all in"
};
std::vector<PageItem> page_items(const engine::QuoteRecord& record);
PageTotal page_total(const engine::QuoteRecord& record);

struct PageOption {
    std::string name, amount; // "Tree rows, two pulls", "$28,964.00"
};
// The one that is priced first; none of a quote that offers no other.
std::vector<PageOption> page_options(const engine::QuoteRecord& record);

// What stands below the two lines to sign on.
struct PageSignatures {
    std::string ours, theirs; // "For Tamarack Flat (Ines Maroto), date"
};
PageSignatures page_signatures(const WordedPage& page);

struct PageFuelRow {
    std::string price, surcharge; // "$4.60 to $4.84 a gallon", "$8.29/ac"
};
std::vector<PageFuelRow> page_fuel_rows(const FuelTable& table);

} // namespace acre::cli
