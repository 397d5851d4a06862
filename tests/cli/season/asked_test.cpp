// What the words of `season` ask, at their edges.
#include "cli/season/asked.h"

#include <doctest/doctest.h>

#include <cstdint>
#include <filesystem>
#include <iterator>
#include <string>
#include <vector>

#include "lang/units/calendar.h"
#include "tests/support/scratch_folder.h"

namespace asked_test {

using namespace acre;
using namespace acre::cli;
using acre::tests::ScratchFolder;
namespace fs = std::filesystem;

namespace {

// The code and title of what was said, or nothing.
template <class Outcome> std::string said(const Outcome& outcome) {
    const auto& all = outcome.said.diagnostics.all();
    return all.empty() ? ""
                       : std::string(lang::name_of(all.front().code)) + " " + all.front().title;
}

std::string of_fleet(const std::vector<std::string>& fleet) {
    SeasonArguments arguments;
    arguments.fleet = fleet;
    const auto question = question_of(arguments);
    if (!question)
        return said(question);
    std::string text;
    for (const auto& [machine, owned] : question->fleet) {
        text += machine + " " + std::to_string(owned.count);
        for (const std::string& name : owned.names)
            text += " [" + name + "]";
        text += "; ";
    }
    return text;
}

std::string files_of(const SeasonArguments& arguments) {
    const auto files = files_of_season(arguments);
    if (!files)
        return said(files);
    std::string text = files->title + ":";
    for (const std::string& file : files->files)
        text += " " + file.substr(file.rfind('/') + 1);
    for (const std::string& left_out : files->without)
        text += " -" + left_out;
    return text;
}

std::ptrdiff_t open_files() {
    const fs::directory_iterator open("/proc/self/fd");
    return std::distance(begin(open), end(open));
}

} // namespace

TEST_CASE("a fleet is so many machines or their names, none at least and a thousand at most") {
    const std::string wants = "C003 `--fleet` takes MACHINE=COUNT, 0 (it is hired) to 1,000, or "
                              "MACHINE=NAME,NAME with names that differ; not `";
    CHECK(of_fleet({"crawler=1", "disc=1000"}) == "crawler 1; disc 1000; ");
    CHECK(of_fleet({"hired=0"}) == "hired 0; ");
    CHECK(of_fleet({"crawler= Hazel , Dora 2"}) == "crawler 2 [Hazel] [Dora 2]; ");
    CHECK(of_fleet({"c=" + std::string(40, 'n')}) == "c 1 [" + std::string(40, 'n') + "]; ");
    std::string thousand = "c=n1";
    for (int i = 2; i <= 1'000; ++i)
        thousand += ",n" + std::to_string(i);
    CHECK(of_fleet({thousand}).starts_with("c 1000 [n1] [n2]"));
    for (const std::string& word :
         {std::string("crawler"), std::string("=2"), std::string("crawler="), std::string("c=1001"),
          std::string("c=-1"), std::string("c=2x"), std::string("c=9x"),
          std::string("c=99999999999"), std::string("c=a,"), std::string("c=,a"),
          std::string("c=a, a"), "c=" + std::string(41, 'n'), thousand + ",u"})
        CHECK(of_fleet({word}) == wants + word + "`");
    CHECK(of_fleet({"c=1", "d=1", "c=Hazel"}) ==
          "C003 `--fleet` says twice how many of `c` there are");
}

TEST_CASE("days to the payment, the last day and the office are figures within reason") {
    SeasonArguments arguments;
    arguments.net_days = 3'660;
    arguments.until = "2027-10-15";
    arguments.overhead = "60,000.50";
    arguments.another = "crawler";
    const auto question = question_of(arguments);
    REQUIRE(question);
    CHECK(question->net_days == 3'660);
    CHECK(question->until == lang::day_number("2027-10-15"));
    CHECK(question->overhead == 60'000.5);
    CHECK(question->another == "crawler");
    arguments.fleet = {"crawler=0"};
    CHECK(said(question_of(arguments)).find("is hired") != std::string::npos);
    arguments.fleet = {};
    arguments.overhead = "0";
    CHECK(question_of(arguments)->overhead == 0);
    arguments.overhead = "$12";
    CHECK(question_of(arguments)->overhead == 12);
    arguments.overhead = "-1";
    CHECK(!question_of(arguments));
    arguments.overhead = "-$1";
    CHECK(!question_of(arguments));
    arguments.overhead.clear();
    CHECK(!question_of(arguments)->overhead);
    arguments.until = "2027-02-29";
    CHECK(said(question_of(arguments)) ==
          "C003 `--until` takes a date, as in 2027-10-15; not `2027-02-29`");
    arguments.until.clear();
    CHECK(!question_of(arguments)->until);
    arguments.net_days = 3'661;
    CHECK(said(question_of(arguments)) == "C003 `--net` takes at most 3,660 days");
}

TEST_CASE("offers count by a chance, and only those of a book") {
    const auto chance = [](const std::string& offered, const std::string& book) {
        SeasonArguments arguments;
        arguments.offered = offered;
        arguments.book = book;
        const auto found = chance_of_offers(arguments);
        return !found ? said(found) : !*found ? "none" : std::to_string(**found);
    };
    CHECK(chance("", "") == "none");
    CHECK(chance("", "book") == "none");
    CHECK(chance("40 %", "book") == "0.400000");
    CHECK(chance("100 %", "book") == "1.000000");
    CHECK(chance("0.01 %", "book") == "0.000100");
    CHECK(chance("40 %", "") == "C003 `--offered` goes with `--book`: a job of a file is no offer");
    for (const char* wrong : {"0 %", "100.01 %", "-5 %"})
        CHECK(chance(wrong, "book") ==
              std::string("C003 `--offered` takes a chance over 0 % and at most 100 %; not `") +
                  wrong + "`");
}

TEST_CASE("jobs are those of a folder, in order and none that is hidden, or those that are named") {
    const ScratchFolder folder;
    for (const char* name : {"b.job", "a.job", ".c.job", "d.season", "e.job.bak", "deep/f.job"})
        folder.write("jobs/" + std::string(name), "");
    const std::string jobs = folder.path("jobs");
    SeasonArguments arguments;
    CHECK(files_of(arguments) == "C003 `season` takes jobs, a folder of them, or `--book FOLDER`");
    arguments.paths = {jobs + "//"};
    const std::ptrdiff_t before = open_files();
    CHECK(files_of(arguments) == jobs + ": a.job b.job");
    CHECK(open_files() == before);
    CHECK(files_of_season(arguments)->counted == Counted::Folder);
    arguments.without = {"b"};
    CHECK(files_of(arguments) == jobs + ": a.job -b");
    for (const std::string& word : {std::string("b.job"), jobs + "/b.job"}) {
        arguments.without = {word};
        CHECK(files_of(arguments) == jobs + ": a.job -b");
    }
    arguments.without = {"b", "b"};
    CHECK(files_of(arguments) == "C003 `--without b`: no such job counts here");
    arguments.without = {"b", "a"};
    CHECK(files_of(arguments) == "C003 no job is left that counts as work");
    arguments.without.clear();

    arguments.paths = {jobs + "/b.job", jobs + "/a.job"};
    CHECK(files_of(arguments) == "jobs by name: b.job a.job");
    CHECK(files_of_season(arguments)->counted == Counted::Jobs);
    arguments.paths = {jobs + "/b.job"};
    CHECK(files_of(arguments) == "b.job: b.job");
    arguments.paths = {jobs + "/b.job", jobs + "/b.job"};
    CHECK(files_of(arguments) == "C003 `" + jobs + "/b.job` stands there twice: a job counts once");
    arguments.paths = {jobs + "/b.job", jobs};
    CHECK(files_of(arguments) ==
          "C003 `season` takes one folder, or jobs: `" + jobs + "` is a folder");
    std::string in_order = folder.path("many") + ":";
    for (char c = 'a'; c <= 'z'; ++c)
        in_order += std::string(" ") + c + ".job";
    for (char c = 'z'; c >= 'a'; --c)
        folder.write(std::string("many/") + c + ".job", "");
    arguments.paths = {folder.path("many")};
    CHECK(files_of(arguments) == in_order);
    fs::create_directory(folder.path("empty"));
    arguments.paths = {folder.path("empty")};
    CHECK(files_of(arguments) == "F701 the folder `" + folder.path("empty") + "` has no .job file");
}

} // namespace asked_test
