// The season in text, JSON, and one page with charts.
#pragma once

#include <string>

#include "engine/questions/season.h"

namespace acre::cli {

struct SeasonNames {
    std::string title; // the folder
    long net_days = 20;
};
std::string season_text(const engine::Season& season, const SeasonNames& names, bool color);
// Schema acrewright.season/1.
std::string season_json(const engine::Season& season);
std::string season_html(const engine::Season& season, const SeasonNames& names);

} // namespace acre::cli
