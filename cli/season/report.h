// The season in text, JSON, and one page with charts.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "cli/shared/text/figures.h"
#include "engine/questions/season/chain.h"
#include "engine/questions/season/season.h"

namespace acre::cli {

// Which jobs count as work.
enum class Counted { Folder, Jobs, Book };

struct SeasonNames {
    std::string title; // the folder, the book, or how many jobs
    Counted counted = Counted::Folder;
    std::vector<std::string> without; // files of jobs left out
    std::vector<std::string> undated; // titles of jobs of a folder that have no date
    long net_days = 20;
    std::optional<engine::MoveChain> chain{}; // of the plan; none: no roads are known
};
std::string season_text(const engine::Season& season, const SeasonNames& names, bool color);
// Schema acrewright.season/4. Field by field in cli/README.md.
Document season_json(const engine::Season& season, const SeasonNames& names);
std::string season_html(const engine::Season& season, const SeasonNames& names);

} // namespace acre::cli
