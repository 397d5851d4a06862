// In the light of which job a text is seen, and what of other texts it names.
#include <doctest/doctest.h>

#include <string>

#include "tests/cli/editor/desk.h"

namespace light_test {

using namespace desk;

namespace {

std::string job_of(const std::string& title, int acres, const std::string& model = "mowing") {
    return "job \"" + title + "\"\nmodel \"" + model + "\"\nset area = " + std::to_string(acres) +
           " ac\n";
}

// The names that may stand in a formula, each with a space before and after it.
std::string names_at(Desk& desk, const std::string& name, int line, int character,
                     std::string* details = nullptr) {
    const Json found = desk.result("textDocument/completion", desk.at(name, line, character));
    std::string text = " ";
    for (const Json& item : found["items"])
        if (item["kind"] == 6) {
            text += item["label"].get<std::string>() + " ";
            if (details != nullptr)
                *details += item["label"].get<std::string>() + ": " +
                            item["detail"].get<std::string>() + "; ";
        }
    return text;
}

} // namespace

TEST_CASE("the path of a job in a setting is from the root, or full") {
    Desk desk;
    desk.folder().write("j/short.job", job_of("Short", 10)); // a path whose second letter is `/`
    desk.folder().write("zz.job", job_of("Last", 30));
    desk.open("mowing.rate", model);
    const auto lens_by = [&](const std::string& setting) {
        desk.notify("workspace/didChangeConfiguration",
                    {{"settings", {{"job", setting}, {"models", desk.folder().path("")}}}});
        return desk.lens("mowing.rate");
    };
    CHECK(lens_by("j/short.job") == "$75.00  $7.50/ac all in  for Short");
    CHECK(lens_by(desk.folder().path("zz.job")) == "$225.00  $7.50/ac all in  for Last");
    CHECK(lens_by("j/short.job").ends_with("for Short"));
}

TEST_CASE("a job that is not there, names nothing or another model gives no light") {
    Desk desk;
    desk.folder().write("aa.job", "job \"Broken\nmodel\n");
    desk.folder().write("ab.job", job_of("Other", 10, "trimming"));
    desk.folder().write("trimming.rate", model);
    desk.open("mowing.rate", model);
    CHECK(desk.lens("mowing.rate") == "$150.00  $7.50/ac all in  for Meadow");
    for (const char* job : {"missing.job", "aa.job", "ab.job"}) {
        desk.notify("workspace/didChangeConfiguration", {{"settings", {{"job", job}}}});
        CHECK_MESSAGE(desk.lens("mowing.rate") == "$150.00  $7.50/ac all in  for Meadow", job);
    }
}

TEST_CASE("a model names its own lines, and those it uses by what it says after `as`") {
    Desk desk;
    const std::string blade = "model \"Blade\"\ngiven width = 6 ft  \"width\"\n";
    desk.folder().write("blade.rate", blade);
    desk.folder().write("fuel.rate", "model \"Fuel\"\ngiven burn = 3 gal/h  \"burn\"\n");
    desk.folder().write("unused.rate", "model \"Unused\"\ngiven other = 3 ft  \"other\"\n");
    std::string text = model;
    text.insert(text.find('\n') + 1, "use \"blade\" as front\n"
                                     "use \"blade\" as back with width = 7 ft\n"
                                     "use \"fuel\"\n");
    desk.folder().write("mowing.rate", text);
    desk.open("mowing.rate", text);
    desk.open("meadow.job", job);
    desk.settle();
    std::string details;
    const std::string own = " area pace ground hours driver driver.quantity driver.amount ";
    CHECK(names_at(desk, "mowing.rate", 7, 12, &details) ==
          own + "front.width back.width fuel.burn ");
    CHECK(details.find("front.width: 6 ft, width; back.width: 7 ft, width; ") != std::string::npos);
    // A job sets givens by what the lines are called.
    CHECK(names_at(desk, "meadow.job", 2, 4) ==
          " area pace ground blade.width back.width fuel.burn ");
    desk.open("blade.rate", blade + "half : ft = width / 2\n");
    CHECK(names_at(desk, "blade.rate", 2, 12) == " width half ");
}

TEST_CASE("each file that a job names is offered where it is named") {
    Desk desk;
    desk.folder().write("models/walnut.rate", model);
    desk.folder().write("summer.season", "season \"Summer\"\n");
    desk.folder().write("bend.values", "values \"Bend\"\n");
    desk.folder().write("larkmoor.firm", "firm \"Larkmoor\"\n");
    const auto offered = [&](const std::string& word) {
        desk.open("meadow.job", "job \"Meadow\"\n" + word + " \"\n");
        const Json found = desk.result("textDocument/completion",
                                       desk.at("meadow.job", 1, static_cast<int>(word.size()) + 2));
        std::string all = " ";
        for (const Json& item : found["items"])
            all += item["label"].get<std::string>() + " ";
        return all;
    };
    CHECK(offered("season") == " summer ");
    CHECK(offered("values") == " bend ");
    CHECK(offered("firm") == " larkmoor ");
    CHECK(offered("model").find(" walnut ") != std::string::npos);
    CHECK(offered("for") == " ");
}

TEST_CASE("what is wrong in a season is said once, by itself and in the light of its job") {
    Desk desk;
    const std::string season = "season \"Summer\"\nset pace = 6 gal\n";
    desk.folder().write("summer.season", season);
    desk.folder().write("meadow.job", job + "season \"summer\"\n");
    desk.open("meadow.job", job + "season \"summer\"\n");
    desk.open("summer.season", season);
    CHECK(desk.codes("summer.season") == "U304");
}

TEST_CASE("after a colon, a figure or `per` comes a unit") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.settle();
    desk.change("mowing.rate", model + "given run : \nmore : \n");
    const auto labels = [&](int line, int character) {
        const Json found =
            desk.result("textDocument/completion", desk.at("mowing.rate", line, character));
        std::string all = " ";
        for (const Json& item : found["items"])
            all += item["label"].get<std::string>() + " ";
        return all;
    };
    for (const int line : {8, 9}) {
        const std::string units = labels(line, line == 8 ? 12 : 7);
        CHECK_MESSAGE(units.find(" ac ") != std::string::npos, units);
        CHECK_MESSAGE(units.find(" hours ") == std::string::npos, units);
    }
}

TEST_CASE("a model's own units, functions and tables are offered beside those of the notation") {
    Desk desk;
    std::string text = model;
    text.insert(text.find('\n') + 1,
                "noun stump\n"
                "given stumps = 4 stump  \"stumps\"\n"
                "define twice (x : h) : h = x + x\n"
                "  source \"common practice, no source\"\n"
                "table slow (area : ac) : %  \"slow\"  below hold  above hold\n"
                "  0  88\n"
                "  9  80\n");
    desk.folder().write("mowing.rate", text);
    desk.open("mowing.rate", text);
    desk.open("meadow.job", job);
    desk.settle();
    desk.change("meadow.job", job + "set stumps = 4 \nset area = 3 \n");
    const auto labels = [&](const std::string& name, int line, int character) {
        const Json found = desk.result("textDocument/completion", desk.at(name, line, character));
        std::string all = " ";
        for (const Json& item : found["items"])
            all += item["label"].get<std::string>() + " ";
        return all;
    };
    CHECK(labels("meadow.job", 3, 15) == " stump "); // no other unit measures it
    const std::string of_area = labels("meadow.job", 4, 13);
    CHECK(of_area.starts_with(" ac "));
    CHECK(of_area.find(" stump ") == std::string::npos);
    desk.change("mowing.rate", "# giv\n" + text + "more : h = 3 \nless : h = \n");
    const std::string units = labels("mowing.rate", 16, 13);
    CHECK(units.find(" ac ") != std::string::npos);
    CHECK(units.find(" stump ") != std::string::npos);
    const std::string formula = labels("mowing.rate", 17, 11);
    for (const char* word : {" twice ", " slow ", " stumps ", " ceil "})
        CHECK_MESSAGE(formula.find(word) != std::string::npos, formula);
    CHECK(labels("mowing.rate", 0, 5) == " "); // a comment, in the first line
}

TEST_CASE("a word that two texts declare is that of the text it is written in") {
    Desk desk;
    desk.folder().write("blade.rate",
                        "model \"Blade\"\ngiven pace = 6 ft  \"pace of the blade\"\n");
    std::string text = model;
    text.insert(text.find('\n') + 1, "use \"blade\"\n");
    desk.folder().write("mowing.rate", text);
    desk.open("mowing.rate", text);
    desk.open("blade.rate", "model \"Blade\"\ngiven pace = 6 ft  \"pace of the blade\"\n");
    desk.open("meadow.job", job);
    desk.settle();
    const auto hover = [&](const std::string& name, int line, int character) {
        const Json found = desk.result("textDocument/hover", desk.at(name, line, character));
        return found.is_null() ? std::string() : found["contents"]["value"].get<std::string>();
    };
    CHECK(hover("mowing.rate", 5, 19).find("5 ac/h") != std::string::npos);
    CHECK(hover("blade.rate", 1, 8).find("6 ft") != std::string::npos);
}

} // namespace light_test
