// What a page asks is answered as the program answers its own words; tests/page asks the same in a
// browser's engine.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/module/session.h"
#include "cli/page/collect.h"

namespace questions_test {

using Json = nlohmann::json;

namespace {

const std::string folder = std::string(ACREWRIGHT_ROOT) + "/examples/";
const std::string rows = folder + "03-rows-or-field.job";
const std::string first = folder + "01-first-price.job";

struct Asker {
    Asker() {
        auto all = acre::cli::collect({rows, first}, "");
        REQUIRE(all);
        session.take(std::move(all->texts));
    }
    Json page(const Json& question) { return Json::parse(session.answer(question.dump())); }
    static Json program(std::vector<std::string> words) {
        words.emplace_back("--json");
        acre::cli::Console console;
        acre::cli::run(words, console);
        return Json::parse(console.out, nullptr, false);
    }
    acre::cli::Session session;
};

} // namespace

TEST_CASE("a page's questions about one job are answered as the program's") {
    Asker asker;
    const auto same = [&](const Json& question, const std::vector<std::string>& words) {
        const Json theirs = Asker::program(words);
        REQUIRE_FALSE(theirs.is_discarded());
        CHECK_MESSAGE(asker.page(question) == theirs, question.dump());
    };
    same({{"ask", "price"}, {"lines", true}}, {"price", rows});
    same({{"ask", "price"}, {"lines", true}, {"job", 1}}, {"price", first});
    same({{"ask", "price"}, {"lines", true}, {"option", "Tree rows, two pulls"}},
         {"price", rows, "--option", "Tree rows, two pulls"});
    same({{"ask", "price"}, {"lines", true}, {"job", 1}, {"season", folder + "2027-autumn.season"}},
         {"price", first, "--season", "2027-autumn"});
    same({{"ask", "explain"}, {"line", "price.per_unit"}, {"depth", 3}, {"job", 1}},
         {"explain", first, "price.per_unit", "--depth", "3"});
    same({{"ask", "sensitivity"}, {"line", "cost.total"}},
         {"sensitivity", rows, "--of", "cost.total"});
    same({{"ask", "check"}, {"name", first}}, {"check", first});
}

TEST_CASE("a page's curves and cards are the program's") {
    Asker asker;
    const Json depth = {{"given", "depth"}, {"from", 4}, {"to", 6}, {"count", 5}};
    const Json lines = {"price.per_unit", "cost.total"};
    CHECK(asker.page({{"ask", "grid"}, {"job", 1}, {"along", {depth}}, {"lines", lines}}) ==
          Asker::program({"grid", first, "--of", "price.per_unit", "--of", "cost.total", "--along",
                          "depth=4 ft..6 ft by 0.5 ft"}));
    // Where no count is said a curve has 41 places.
    const Json short_of = {{"given", "depth"}, {"from", 4}, {"to", 6}};
    CHECK(asker.page({{"ask", "grid"}, {"job", 1}, {"along", {short_of}}, {"lines", lines}}) ==
          Asker::program({"grid", first, "--of", "price.per_unit", "--of", "cost.total", "--along",
                          "depth=4 ft..6 ft by 0.05 ft"}));
    Json card = Asker::program({"rate-card", first, "--rows", "depth=4 ft,5 ft,6 ft", "--columns",
                                "spacing=6 ft,7 ft", "--date", "2027-01-15"});
    Json ours = asker.page({{"ask", "rate-card"},
                            {"job", 1},
                            {"rows", {{"given", "depth"}, {"at", {4, 5, 6}}}},
                            {"columns", {{"given", "spacing"}, {"at", {6, 7}}}}});
    card.erase("date");
    ours.erase("date");
    CHECK(ours == card);
}

TEST_CASE("a page's comparisons are the program's") {
    Asker asker;
    const Json over = {{"given", "run"}, {"from", 300}, {"to", 2600}, {"count", 11}};
    CHECK(asker.page({{"ask", "compare"}, {"flip", "row_width"}}) ==
          Asker::program({"compare", rows, "--flip", "row_width"}));
    Json curve = asker.page({{"ask", "compare"}, {"over", over}});
    CHECK(curve["prices"] == asker.page({{"ask", "compare"}})["prices"]);
    CHECK(curve["over"]["places"].size() == 11);
    Json two = asker.page({{"ask", "compare"}, {"options", {"Tree rows, two pulls"}}});
    CHECK(two["columns"].size() == 2);
    // An option is not put beside itself.
    const Json option = {{"ask", "compare"},
                         {"option", "Tree rows, two pulls"},
                         {"options", {"Tree rows, two pulls"}}};
    CHECK(asker.page(option)["columns"].size() == 1);
    CHECK(asker.page({{"ask", "bridge"},
                      {"job", 1},
                      {"called", first},
                      {"to", {{"job", 0}, {"called", rows}}}}) ==
          Asker::program({"bridge", first, rows}));
    CHECK(asker.page({{"ask", "bridge"},
                      {"job", 1},
                      {"called", first},
                      {"total", true},
                      {"to", {{"job", 0}, {"called", rows}}}}) ==
          Asker::program({"bridge", first, rows, "--total"}));
}

TEST_CASE("a page's trials are the program's") {
    Asker asker;
    CHECK(asker.page({{"ask", "risk"}, {"job", 1}, {"trials", 4096}, {"line", "machine_hours"}}) ==
          Asker::program(
              {"risk", first, "--trials", "4096", "--seed", "1", "--of", "machine_hours"}));
}

} // namespace questions_test
