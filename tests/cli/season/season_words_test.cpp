// What a season says of work told twice, of days that are priced otherwise, and of machines that a
// part of the days needs.
#include "cli/season/season_words.h"

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "cli/season/days_text.h"
#include "tests/cli/season/made_season.h"

namespace season_words_test {

using namespace acre;
using namespace made_season;

namespace {

// One machine that all but the last of so many jobs want on the same day.
engine::Season crowded(std::size_t jobs) {
    auto sets = std::make_shared<engine::DatedSets>();
    lang::DatedSet set; // in force, and on no day that the plan may take
    set.given = "fuel_price";
    set.in_force = true;
    set.within.first.year = 2026;
    set.within.first.month = set.within.first.day = 1;
    set.within.last = set.within.first;
    sets->push_back(set);
    sets->push_back(set); // the same given is told once
    std::vector<engine::SeasonJob> all;
    for (std::size_t i = 0; i < jobs; ++i) {
        all.push_back(
            made_job(fmt::format("J{}", i + 1), i + 1 == jobs ? "2027-07-30" : "2027-06-21", 1));
        all.back().dated_sets = sets;
    }
    return season_of(std::move(all));
}

} // namespace

TEST_CASE("work that may be told twice is told of a folder, with what is the same") {
    engine::Season season =
        season_of({made_job("One", "2027-06-21", 2), made_job("Two", "2027-07-21", 3),
                   made_job("Three", "2027-08-21", 4)});
    season.doubles.listed = {{0, 1, true, true, true}, {1, 2, false, true, false}};
    const auto told = [&](cli::Counted counted) {
        return section(cli::season_text(season, names_of(counted), false),
                       "One customer's work that may be told twice");
    };
    CHECK(told(cli::Counted::Folder) ==
          "One customer's work that may be told twice\n"
          "  \"One\" and \"Two\": the same boundary, the same 20 ac, days in common\n"
          "  \"Two\" and \"Three\": the same 30 ac\n"
          "  Each counts in full. Leave one out with --without JOB.\n");
    CHECK(told(cli::Counted::Jobs).empty());
    season.doubles.listed.assign(60, {0, 1, false, false, true});
    CHECK(told(cli::Counted::Folder).find("more pairs") == std::string::npos);
    season.doubles.listed.assign(63, {0, 1, false, false, true});
    CHECK(told(cli::Counted::Folder).find("  and 3 more pairs\n") != std::string::npos);
    season.doubles.all = false;
    CHECK(told(cli::Counted::Folder).find("  and more pairs than are listed\n") !=
          std::string::npos);
    season.doubles.listed.clear();
    CHECK(told(cli::Counted::Folder).empty());
}

TEST_CASE("five jobs that begin on days of other figures are named, the others are counted") {
    const auto told = [](std::size_t jobs) {
        std::vector<std::string> out;
        for (const std::string& one : cli::plan_sentences(crowded(jobs)))
            if (one.find("would start on") != std::string::npos || one.starts_with("So it is"))
                out.push_back(one);
        return out;
    };
    const std::vector<std::string> five = told(5);
    REQUIRE(five.size() == 5);
    CHECK(std::count(five.begin(), five.end(),
                     "\"J1\" would start on June 21, 2027, when the season sets fuel_price "
                     "otherwise: give it that date to see its price.") == 1);
    const std::vector<std::string> seven = told(7);
    REQUIRE(seven.size() == 6);
    CHECK(seven.back() == "So it is with 2 more.");
    CHECK(cli::plan_sentences(season_of({made_job("One", "2027-06-21", 2)})) ==
          std::vector<std::string>{"All jobs fit as they are dated."});
}

TEST_CASE("a part of the machines shows the days on which one of them works") {
    engine::SeasonQuestion question;
    question.fleet["crawler"].count = 4;
    // Three of four for two days; the fourth from the second day on for three.
    const engine::Season season = season_of(
        {made_job("a", "2027-06-21", 2, "crawler", 3), made_job("b", "2027-06-22", 3)}, question);
    CHECK(cli::days_text(season, season.units, false) ==
          R"(          crawler 1  crawler 2  crawler 3
  Jun 21  1 a        1 a        1 a
  Jun 22  1 a        1 a        1 a

                   crawler 4
  Jun 22           2 b
  Jun 23 - Jun 24  2 b
  Numbers are those of the jobs above; ! : wanted by more than one.
)");
}

} // namespace season_words_test
