// What may stand at the cursor, by the place of the line in its file.
#include "cli/editor/completion.h"

#include <algorithm>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "tests/cli/editor/desk.h"

namespace completion_test {

using namespace desk;

namespace {

// In the order of letters.
std::string offered(Desk& desk, const std::string& name, int line, int character) {
    const Json found = desk.result("textDocument/completion", desk.at(name, line, character));
    std::vector<std::string> words;
    for (const Json& item : found["items"])
        words.push_back(item["label"]);
    std::sort(words.begin(), words.end());
    return fmt::format("{}", fmt::join(words, " "));
}

} // namespace

TEST_CASE("a line may begin with what its place takes, each word once") {
    Desk desk;
    const auto at = [&](const std::string& name, const std::string& text, int line, int character) {
        desk.open(name, text);
        return offered(desk, name, line, character);
    };
    // By hand from the table of files and statements (lang/README.md).
    CHECK(at("a.season", "season \"2027\"\n\n", 1, 0) == "closed firm set");
    CHECK(at("a.values", "values \"v\"\n\n", 1, 0) == "set");
    CHECK(at("a.firm", "firm \"f\"\n\n", 1, 0) == "money");
    CHECK(at("a.job", "job \"j\"\n\n", 1, 0) ==
          "date field firm for model note option season set with");
    CHECK(at("b.job", "job \"j\"\noption \"o\"\n  \n", 2, 2) == "set");
    CHECK(at("c.job", "job \"j\"\nleg a \"A\"\n  \n", 2, 2) == "field set");
    CHECK(at("d.job", "job \"j\"\noption \"o\"\n  set a = 3 ft\n\n", 3, 0) ==
          "date field firm for model note option season set with");
    CHECK(at("a.rate", "\n", 0, 0) == "library model");
    CHECK(at("b.rate", "library \"l\"\n\n", 1, 0) ==
          "choice define list money noun table unit use");
    CHECK(at("c.rate", "model \"m\"\nprice \"P\"\n  \n", 2, 2) ==
          "at contingency margin markup overhead reserve round");
    CHECK(at("d.rate", "model \"m\"\npart \"P\"\n  given a = 3 ft\n  \n", 3, 2) ==
          "caution correlate cost event given require table use");
}

TEST_CASE("no formula is offered after a text, nor where none can stand") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.settle();
    desk.change("mowing.rate", model + "given b = 3 ft because \"x\" \n");
    const std::string words = " " + offered(desk, "mowing.rate", 8, 27) + " ";
    CHECK(words.find(" swing ") != std::string::npos);
    CHECK(words.find(" hours ") == std::string::npos);
    CHECK(words.find(" ceil ") == std::string::npos);
    desk.open("new.job", "job \"j\"\nmodel \"mowing\"\ndate \nnote \n");
    CHECK(offered(desk, "new.job", 2, 5) == "");
    CHECK(offered(desk, "new.job", 3, 5) == "");
}

} // namespace completion_test
