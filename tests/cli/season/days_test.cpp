// Who is where: the grid of days, as text and as a picture.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "cli/season/days_grid.h"
#include "cli/season/days_svg.h"
#include "cli/season/days_text.h"
#include "tests/cli/season/made_season.h"

namespace days_test {

using namespace acre;
using namespace made_season;

namespace {

std::string grid_text(const engine::Season& season) {
    const cli::DaysGrid grid = cli::days_grid(season, season.units);
    std::string text;
    for (const cli::DaysGrid::Row& row : grid.rows) {
        text += (row.after_gap ? "| " : "") + lang::date_text(row.first).substr(5) + " to " +
                lang::date_text(row.last).substr(5);
        for (const std::vector<std::size_t>& jobs : row.jobs) {
            text += " [";
            for (const std::size_t job : jobs)
                text += std::to_string(job);
            text += "]";
        }
        text += "; ";
    }
    return text;
}

// The words drawn in a picture, in order.
std::string words_in(const std::string& svg) {
    std::string words;
    for (std::size_t at = svg.find("<text"); at != std::string::npos; at = svg.find("<text", at)) {
        at = svg.find('>', at) + 1;
        words += svg.substr(at, svg.find('<', at) - at) + "; ";
    }
    return words;
}

std::string drawn(const std::vector<engine::SeasonJob>& jobs) {
    const engine::Season season = season_of(jobs);
    return words_in(cli::days_svg(season, season.units, "Days"));
}

} // namespace

TEST_CASE("a row of the grid goes from one change to the day before the next") {
    CHECK(grid_text(season_of({made_job("One", "2027-06-21", 4)})) == "06-21 to 06-24 [0]; ");
    CHECK(grid_text(
              season_of({made_job("One", "2027-06-21", 4), made_job("Two", "2027-06-24", 2)})) ==
          "06-21 to 06-23 [0]; 06-24 to 06-24 [01]; 06-25 to 06-25 [1]; ");
    CHECK(grid_text(
              season_of({made_job("One", "2027-06-21", 4), made_job("Two", "2027-06-25", 2)})) ==
          "06-21 to 06-24 [0]; 06-25 to 06-26 [1]; ");
    CHECK(grid_text(
              season_of({made_job("One", "2027-06-21", 4), made_job("Two", "2027-06-26", 2)})) ==
          "06-21 to 06-24 [0]; | 06-26 to 06-27 [1]; ");
    CHECK(grid_text(season_of(
              {made_job("One", "2027-06-21", 3), made_job("Two", "2027-06-22", 1, "tractor")})) ==
          "06-21 to 06-21 [0] []; 06-22 to 06-22 [0] [1]; 06-23 to 06-23 [0] []; ");
}

TEST_CASE("a grid ends at its last row and says that there are more") {
    std::vector<engine::SeasonJob> jobs;
    for (long i = 0; i < 150; ++i)
        jobs.push_back(made_job("J", lang::date_text(day("2027-01-01") + 2 * i), 1));
    engine::Season season = season_of(jobs);
    CHECK(cli::days_grid(season, season.units).rows.size() == 150);
    CHECK(cli::days_grid(season, season.units).all);
    CHECK(cli::days_text(season, season.units, false).find("later days") == std::string::npos);
    jobs.push_back(made_job("J", "2028-01-01", 1));
    season = season_of(jobs);
    CHECK(cli::days_grid(season, season.units).rows.size() == 150);
    CHECK_FALSE(cli::days_grid(season, season.units).all);
    CHECK(cli::days_text(season, season.units, false)
              .find("The later days of the season are not "
                    "drawn") != std::string::npos);
}

TEST_CASE("a column holds as much of a title as it has room for") {
    engine::SeasonQuestion question;
    question.fleet["crawler"].count = 4;
    const std::string name = "a very long name of a field by the river, north";
    const engine::Season season = season_of(
        {made_job(name, "2027-06-21", 2, "crawler", 4), made_job("b", "2027-06-22", 1)}, question);
    CHECK(cli::days_text(season, season.units, false) ==
          R"(          crawler 1           crawler 2           crawler 3
  Jun 21  1 a very long name  1 a very long name  1 a very long name
  Jun 22  ! 1 2               1 a very long name  1 a very long name

          crawler 4
  Jun 21  1 a very long name of a field by the river, north
  Jun 22  1 a very long name of a field by the river, north
  Numbers are those of the jobs above; ! : wanted by more than one.
)");
    const engine::Season one = season_of({made_job(name, "2027-06-21", 2)});
    CHECK(cli::days_text(one, one.units, false) == R"(                   crawler
  Jun 21 - Jun 22  1 a very long name of a field by the river, north
  Numbers are those of the jobs above; ! : wanted by more than one.
)");
}

TEST_CASE("a bar has as many lines of its title as it is high") {
    const std::string name = "the long field of the upper ranch by the river bend, which goes on "
                             "and on and has no end that anybody knows of";
    // Three a day high: twelve days are 36, less 4: two lines of 16.
    for (const auto& [of, shown] :
         {std::pair(1, 1), {11, 1}, {12, 2}, {17, 2}, {18, 3}, {20, 3}, {40, 3}}) {
        const int days = of, lines = shown; // clang 14 captures no parts of a pair
        CAPTURE(days);
        const std::string words = drawn(
            {made_job(name, "2027-06-01", days, "tractor"), made_job("b", "2027-06-01", days)});
        const std::size_t at = words.find("1 the long");
        REQUIRE(at != std::string::npos);
        CHECK_MESSAGE(
            std::count(words.begin() + static_cast<std::ptrdiff_t>(at), words.end(), ';') == lines,
            words); // the tractor's is the last column, its bar the last that is drawn
    }
}

TEST_CASE("a picture says its machines, its days and what is wanted twice") {
    CHECK(drawn({made_job("One", "2027-06-21", 4), made_job("Two", "2027-06-30", 2)}) ==
          "Days; crawler; Jun 21; Jun 30; to Jul 1; 1 One; 2 Two; ");
    CHECK(
        drawn({made_job("One", "2027-06-21", 4), made_job("Two", "2027-06-24", 2)}) ==
        "Days; crawler; Jun 21; Jun 24; Jun 25; to Jun 25; 1 One; 1 and 2; 2 Two; wanted twice; ");
    engine::SeasonJob none = made_job("One", "2027-06-21", 4);
    none.uses.clear();
    CHECK(drawn({none}) == "");
}

TEST_CASE("more rows than a picture holds go on in another") {
    std::vector<engine::SeasonJob> jobs;
    for (long i = 0; i < 26; ++i) // each row 20 high: 26 are 520, which one picture holds
        jobs.push_back(made_job("J", lang::date_text(day("2027-01-01") + i), 1));
    CHECK(drawn(jobs).find("Days, continued") == std::string::npos);
    jobs.push_back(made_job("J", lang::date_text(day("2027-01-01") + 26), 1));
    CHECK(drawn(jobs).find("Days, continued") != std::string::npos);
}

TEST_CASE("a bar stands on its days, and one of two jobs is an empty box, as its key is") {
    // Rows of 20 from 72 on, below a title and the head of the column; the bar from 80 to 466, a
    // unit in from its left and four from its right.
    const engine::Season season =
        season_of({made_job("One", "2027-06-21", 4), made_job("Two", "2027-06-24", 2)});
    const std::string svg = cli::days_svg(season, season.units, "Days");
    std::string boxes;
    for (std::size_t at = svg.find("<rect x"); at != std::string::npos;
         at = svg.find("<rect x", at + 1))
        boxes += svg.substr(at, svg.find('\n', at) + 1 - at);
    CHECK(boxes ==
          R"(<rect x="81.00" y="73.00" width="382.00" height="18.00" class="f-tint s-ground"/>
<rect x="81.00" y="93.00" width="382.00" height="18.00" class="f-paper s-fault"/>
<rect x="81.00" y="113.00" width="382.00" height="18.00" class="f-tint s-ground"/>
<rect x="14.00" y="160.00" width="24.00" height="13.00" class="f-paper s-fault"/>
)");
    CHECK(svg.find("<text x=\"46.0\" y=\"172.0\" class=\"f-ink\">wanted twice</text>") !=
          std::string::npos);
    CHECK(svg.find("<path d=\"M14.0 132.0H466.0\"") != std::string::npos); // below the last row
    CHECK(svg.find("viewBox=\"0 0 480 192\"") != std::string::npos);
}

TEST_CASE("a picture that goes on begins at its top again, and a fourth machine has its own") {
    std::vector<engine::SeasonJob> jobs;
    for (long i = 0; i < 27; ++i)
        jobs.push_back(made_job("J", lang::date_text(day("2027-01-01") + i), 1));
    const engine::Season season = season_of(jobs);
    const std::string svg = cli::days_svg(season, season.units, "Days");
    const std::string second = svg.substr(svg.find("<svg", 1));
    CHECK(words_in(second) == "Days, continued; crawler; Jan 27; to Jan 27; 27 J; ");
    CHECK(second.find("<rect x=\"81.00\" y=\"73.00\" width=\"382.00\" height=\"18.00\"") !=
          std::string::npos);
    CHECK(second.find("<text x=\"14.0\" y=\"86.0\" class=\"f-soft\">Jan 27<") != std::string::npos);

    engine::SeasonQuestion question;
    question.fleet["crawler"].count = 4;
    const engine::Season four =
        season_of({made_job("One", "2027-06-21", 2, "crawler", 4)}, question);
    CHECK(words_in(cli::days_svg(four, four.units, "Days")) ==
          "Days; crawler 1; crawler 2; crawler 3; Jun 21; to Jun 22; 1 One; 1 One; 1 One; "
          "Days, continued; crawler 4; Jun 21; to Jun 22; 1 One; ");
}

} // namespace days_test
