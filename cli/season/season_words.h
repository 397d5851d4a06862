// What text, page and picture of a season call things, as written: whoever shows them makes them
// safe.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/season/report.h"

namespace acre::cli {

// "Walt" of walt.rig, "second crawler" of second_crawler.
std::string machine_words(const engine::SeasonMachine& machine);
// The same of a machine of the season by its name.
std::string machine_words(const engine::Season& season, const std::string& name);
// "crawler Hazel", "crawler 2"; of the only one "crawler".
std::string unit_words(const engine::MachineRow& row, std::size_t unit);
std::string job_title(const engine::Season& season, std::size_t job); // with a mark of an offer

// "June 21, 2027", "June 21 to June 29, 2027".
std::string days_words(long first, long last);
// "6 jobs", "1 job".
std::string job_count(std::size_t jobs);
// "6 days", "1 day".
std::string day_count(long days);

// What is said first: which jobs count.
std::string counted_words(const engine::Season& season, const SeasonNames& names);
// A possible double: "one customer, the same 118 ac and the same days".
std::string double_words(const engine::Season& season, const engine::Double& pair);

// Clashes of the same two jobs on the same days, with the machines they are about.
struct ClashGroup {
    std::size_t first = 0, second = engine::Clash::none;
    long from = 0, to = 0;
    std::vector<std::string> machines; // in words
    std::string wanted;                // "3 wanted, 1 owned"; empty: two of one
    bool may_be = false;
};
std::vector<ClashGroup> clash_groups(const engine::Season& season);
std::string clash_words(const engine::Season& season, const ClashGroup& clash);

// What the plan comes to, in one or more sentences; and of one more machine.
std::vector<std::string> plan_sentences(const engine::Season& season);
std::vector<std::string> chain_sentences(const engine::Season& season,
                                         const engine::MoveChain& chain);
std::vector<std::string> another_sentences(const engine::Season& season);
std::vector<std::string> cover_sentences(const engine::Season& season);
// "Hired: second crawler. …"; empty: none is.
std::string hired_words(const engine::Season& season);

} // namespace acre::cli
