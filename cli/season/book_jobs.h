// The accepted quotes of a book as jobs of a season, each from its own sealed texts; and, by their
// chance, those that are still offered.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "cli/season/kept_messages.h"
#include "cli/shared/reply.h"
#include "engine/questions/season/by_road.h"
#include "engine/questions/season/season_jobs.h"

namespace acre::cli {

struct BookOfSeason {
    std::string folder, day;       // the book as it was on that day
    std::optional<double> offered; // the chance by which offers count; none: they do not
};

struct BookedWork {
    std::uint64_t record = 0; // in which its texts are sealed
    std::string option;       // that was accepted
};
using BookedWorks = std::map<std::string, BookedWork>; // by the name that the season has for it

// What was said of the quotes goes into `messages`, where each stands into `works`. An error of the
// book itself is given back: R001, R004; R002 where nothing counts.
std::optional<Reply> read_book(const BookOfSeason& from, engine::SeasonJobs& jobs,
                               BookedWorks& works, KeptMessages& messages);

// The same work over another road. Empty: it has no price so.
std::optional<engine::MoveMoney> price_again(const std::string& book, const BookedWork& work,
                                             const engine::GivenSets& sets,
                                             const engine::RoadsFile& roads);

} // namespace acre::cli
