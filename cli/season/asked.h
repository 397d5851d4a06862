// What the words of `season` ask: which jobs, which machines, which figures of the firm.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "cli/season/report.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct SeasonArguments {
    std::vector<std::string> paths, without, fleet;
    std::string book, offered, as_of, another, overhead, until, roads, models, page;
    std::string moves = "haul.moves";
    std::uint32_t net_days = 20;
    bool json = false;
};

struct SeasonFiles {
    std::vector<std::string> files;
    std::string title;
    Counted counted = Counted::Folder;
    std::vector<std::string> without; // files left out
};

// C003: a word that says nothing of the kind.
lang::Outcome<engine::SeasonQuestion> question_of(const SeasonArguments& arguments);
// The chance by which offers count; none: `--offered` was not said.
lang::Outcome<std::optional<double>> chance_of_offers(const SeasonArguments& arguments);
// F701, F702: no jobs there, or none that can be read. C003: `--without` names none of them. Q006:
// too many.
lang::Outcome<SeasonFiles> files_of_season(const SeasonArguments& arguments);

} // namespace acre::cli
