// What both forms of the page show, in words.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "cli/quote/wording.h"

namespace acre::cli {

struct PageItem {
    std::string title, basis,
        amount; // "Ripping", "152 ac at $821/ac", "$124,792.00"; a lump has no basis
};
struct PageTotal {
    std::string amount, all_in; // "$130,892.00", "$861.13/ac all in"
};
std::vector<PageItem> page_items(const nlohmann::json& record);
PageTotal page_total(const nlohmann::json& record);
std::vector<std::string> page_cautions(const nlohmann::json& record);

struct PageFuelRow {
    std::string price, surcharge; // "$4.60 to $4.84 a gallon", "$8.29/ac"
};
std::vector<PageFuelRow> page_fuel_rows(const FuelTable& table);

} // namespace acre::cli
