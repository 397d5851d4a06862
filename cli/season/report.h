// The season in text, JSON, and one page with charts.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "cli/shared/text/figures.h"
#include "engine/questions/season/season.h"

namespace acre::cli {

struct SeasonNames {
    std::string title; // the folder
    long net_days = 20;
};
std::string season_text(const engine::Season& season, const SeasonNames& names, bool color);
// Schema acrewright.season/2. Field by field in cli/README.md.
Document season_json(const engine::Season& season);
std::string season_html(const engine::Season& season, const SeasonNames& names);

// What text and page share, as written: make it safe where it goes.
std::string machine_words(const std::string& name); // "second crawler" of second_crawler
// "crawler: each idle hour leaves $47.50 uncovered"; empty: the machine has no hours booked
std::string idle_words(const engine::MachineRow& row);

} // namespace acre::cli
