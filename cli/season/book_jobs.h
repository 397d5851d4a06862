// The accepted quotes of a book as jobs of a season, each from its own sealed texts; and, by their
// chance, those that are still offered.
#pragma once

#include <optional>
#include <string>

#include "cli/season/kept_messages.h"
#include "cli/shared/reply.h"
#include "engine/questions/season/season_jobs.h"

namespace acre::cli {

struct BookOfSeason {
    std::string folder, day;       // the book as it was on that day
    std::optional<double> offered; // the chance by which offers count; none: they do not
};

// What was said of the quotes goes into `messages`. An error of the book itself is given back:
// R001, R004; R002 where nothing counts.
std::optional<Reply> read_book(const BookOfSeason& from, engine::SeasonJobs& jobs,
                               KeptMessages& messages);

} // namespace acre::cli
