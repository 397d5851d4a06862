// Every command that changes a disk, each with what stands there before.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "tests/faults/run.h"
#include "tests/support/small_firm.h"

namespace acre::tests {

using Line = std::vector<std::string>; // words after the program's name

struct WritingCommand {
    std::string name;
    Line words;
    std::vector<std::string> targets = {}; // files it writes under their own names
    bool book = false;                     // it adds to `book` as well
    std::vector<Line> before = {};         // run first
    Files also = {};                       // stands there beside the firm's files
    Line next = {}; // run afterwards if the work is done; empty: the same again
};

// Those that add to a book, or tidy.
inline std::vector<WritingCommand> record_commands() {
    const Line first = {"quote", "meadow.job", "--book", "book", "--date", "2027-03-01"};
    const Line second = {"quote",      "bank.job",  "--book", "book",      "--date",
                         "2027-03-02", "--by",      "Okafor", "--wording", "words.wording",
                         "--page",     "page.html", "--text", "page.txt"};
    const Files old_page = {{"page.html", "the page before\n"}};
    const Line accepted = {"mark", "2027-001", "accepted",  "--book",
                           "book", "--date",   "2027-03-09"};
    return {
        {"tidy one",
         {"tidy", "--write", "loose.rate"},
         {"loose.rate"},
         false,
         {},
         {{"loose.rate", "model \"m\"\ngiven   area=40 ac\n"}}},
        {"tidy two",
         {"tidy", "--write", "loose.rate", "models/other.rate"},
         {"loose.rate", "models/other.rate"},
         false,
         {},
         {{"loose.rate", "model \"m\"\ngiven   area=40 ac\n"},
          {"models/other.rate", "model \"o\"\ngiven   area=50 ac\n"}}},
        {"new",
         {"new", "stumps", "--firm", "Elmer Work", "--work", "Stump grinding", "--per", "h",
          "--year", "2027"},
         {"stumps/2027.season", "stumps/elmer-work.firm", "stumps/first.job",
          "stumps/quote.wording", "stumps/stump-grinding.rate"}},
        {"quote, first of a book", first, {}, true},
        {"quote with pages", second, {"page.html", "page.txt"}, true, {first}, old_page},
        {"quote that replaces",
         {"quote", "bank.job", "--book", "book", "--date", "2027-03-02", "--replaces", "2027-001",
          "--json"},
         {},
         true,
         {first},
         {},
         second}, // what is replaced is not replaced again
        {"mark",
         {"mark", "2027-001", "accepted", "--book", "book", "--date", "2027-03-09"},
         {},
         true,
         {first},
         {},
         second},
        {"learn",
         {"learn", "--book", "book", "--season", "season.season", "--write", "learned.season"},
         {"learned.season"},
         false,
         {first,
          {"mark", "2027-001", "accepted", "--book", "book", "--date", "2027-03-09"},
          {"mark", "2027-001", "finished", "--book", "book", "--date", "2027-07-09", "--log",
           "log.csv"}},
         {},
         {"learn", "--book", "book", "--season", "season.season", "--write", "again.season"}},
        {"bill",
         {"bill", "2027-001", "bill.csv", "--book", "book", "--date", "2027-07-01", "--page",
          "page.html", "--text", "page.txt"},
         {"page.html", "page.txt"},
         true,
         {first, accepted},
         old_page,
         second},
    };
}

// Those that write a page or a picture.
inline std::vector<WritingCommand> picture_commands() {
    const Files old_page = {{"page.html", "the page before\n"}};
    const Files old_picture = {{"p.svg", std::string(9000, 'p')}};
    return {
        {"field",
         {"field", "field.geojson", "--heading", "0 deg", "--lines", "lines.geojson", "--picture",
          "p.svg"},
         {"lines.geojson", "p.svg"},
         false,
         {},
         old_picture},
        {"season", {"season", ".", "--page", "page.html"}, {"page.html"}, false, {}, old_page},
        {"rate-card",
         {"rate-card", "meadow.job", "--rows", "area=20 ac,40 ac", "--columns",
          "pace=4 ac/h,5 ac/h", "--date", "2027-01-15", "--page", "page.html"},
         {"page.html"},
         false,
         {},
         old_page},
        {"bridge", {"bridge", "meadow.job", "bank.job", "--svg", "p.svg"}, {"p.svg"}},
        {"compare",
         {"compare", "meadow.job", "bank.job", "--over", "area 20 ac..100 ac", "--svg", "p.svg"},
         {"p.svg"},
         false,
         {},
         old_picture},
        {"sensitivity",
         {"sensitivity", "meadow.job", "--svg", "p.svg"},
         {"p.svg"},
         false,
         {},
         old_picture},
        {"grid",
         {"grid", "meadow.job", "--along", "area=20 ac,40 ac", "--svg", "p.svg"},
         {"p.svg"}},
        {"risk",
         {"risk", "meadow.job", "--trials", "256", "--threads", "1", "--svg", "p.svg"},
         {"p.svg"},
         false,
         {},
         old_picture},
        {"workbook",
         {"workbook", "meadow.job", "--write", "job.xlsx"},
         {"job.xlsx"},
         false,
         {},
         {{"job.xlsx", "the workbook before\n"}}},
        {"page for the grower",
         {"page", "meadow.job", "bank.job", "--for-grower", "--write", "page.html"},
         {"page.html"},
         false,
         {},
         old_page},
        {"standard output", {"price", "meadow.job", "--json"}},
    };
}

inline std::vector<WritingCommand> writing_commands() {
    std::vector<WritingCommand> all = record_commands();
    for (WritingCommand& command : picture_commands())
        all.push_back(std::move(command));
    return all;
}

} // namespace acre::tests
