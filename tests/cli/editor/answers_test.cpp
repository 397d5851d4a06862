// What each request is answered, at its edges.
#include "cli/editor/answers_json.h"

#include <doctest/doctest.h>

#include "tests/cli/editor/desk.h"

namespace answers_test {

using namespace desk;

namespace {

// "begin line:character-end line:character"
std::string range_text(const Json& range) {
    const auto place = [](const Json& at) {
        return at["line"].dump() + ":" + at["character"].dump();
    };
    return place(range["start"]) + "-" + place(range["end"]);
}

std::string hover(Desk& desk, const std::string& name, int line, int character) {
    const Json found = desk.result("textDocument/hover", desk.at(name, line, character));
    return found.is_null()
               ? "none"
               : range_text(found["range"]) + " " + found["contents"]["value"].get<std::string>();
}

std::string definition(Desk& desk, const std::string& name, int line, int character) {
    const Json found = desk.result("textDocument/definition", desk.at(name, line, character));
    if (found.is_null())
        return "none";
    const std::string uri = found["uri"];
    return uri.substr(uri.rfind('/') + 1) + " " + range_text(found["range"]);
}

std::string labels(Desk& desk, const std::string& name, int line, int character) {
    const Json found = desk.result("textDocument/completion", desk.at(name, line, character));
    CHECK(found["isIncomplete"] == false);
    std::string text;
    for (const Json& item : found["items"])
        text += (text.empty() ? "" : " ") + item["label"].get<std::string>();
    return text;
}

Json ranged(Desk& desk, const std::string& name, int from, int at, int to, int until) {
    Json parameters = desk.about(name);
    parameters["range"] = {{"start", {{"line", from}, {"character", at}}},
                           {"end", {{"line", to}, {"character", until}}}};
    return parameters;
}

} // namespace

TEST_CASE(
    "hover reaches from the first letter of a word to behind its last, in the first line too") {
    Desk desk;
    desk.open("mowing.rate", model);
    CHECK(hover(desk, "mowing.rate", 0, 0).starts_with("0:0-0:5 "));
    CHECK(hover(desk, "mowing.rate", 0, 5).starts_with("0:0-0:5 "));
    CHECK(hover(desk, "mowing.rate", 0, 6) == "none"); // the title
    CHECK(hover(desk, "mowing.rate", 1, 6).starts_with("1:6-1:10 acres mowed\n"));
    CHECK(hover(desk, "mowing.rate", 1, 10).starts_with("1:6-1:10 acres mowed\n"));
    CHECK(hover(desk, "mowing.rate", 1, 11) == "none"); // the sign
    CHECK(hover(desk, "mowing.rate", 2, 16).starts_with("2:15-2:17 area: ac = 43,560 ft^2\n"));
    CHECK(hover(desk, "mowing.rate", 2, 18) == "2:18-2:19 clock time: h = 3,600 s\n");
    CHECK(hover(desk, "mowing.rate", 3, 8) ==
          "3:6-3:12 ground\nground = flat\n  set by the model, " +
              desk.folder().path("mowing.rate") + ":4\n= flat\none of: flat rough\n");
    CHECK(hover(desk, "mowing.rate", 4, 13) == "4:12-4:16 acres mowed\narea = 20 ac\n"
                                               "  set by the job, " +
                                                   desk.folder().path("meadow.job") +
                                                   ":3\n= 20 ac\n");
    CHECK(hover(desk, "meadow.job", 2, 5) == "none"); // it is not open
}

TEST_CASE("while a text has errors hover tells what was known before them") {
    Desk desk;
    desk.open("mowing.rate", model);
    CHECK(hover(desk, "mowing.rate", 4, 1) ==
          "4:0-4:5 machine hours\nhours = 4 h\n= area / pace\n");
    desk.change("mowing.rate", model + "hours : h = \n");
    CHECK(hover(desk, "mowing.rate", 4, 1) == "4:0-4:5 machine hours\nhours = 4 h\n= area / pace\n"
                                              "(as it was before the errors in the text)\n");
    CHECK(desk.lens("mowing.rate").starts_with("no price: "));
    CHECK(desk.lens("mowing.rate", 1) == "");
    CHECK(desk.result("textDocument/inlayHint", ranged(desk, "mowing.rate", 0, 0, 9, 0)).empty());
    Json parameters = desk.at("mowing.rate", 4, 1);
    parameters["newName"] = "time";
    const Json refused = desk.request("textDocument/rename", parameters)["error"];
    CHECK(refused["code"] == -32803);
    CHECK(refused["message"] == "the text has errors: mend them first");
}

TEST_CASE("a job that makes a model divide by zero leaves no price above any price") {
    Desk desk;
    desk.open("mowing.rate", model);
    CHECK(desk.lens("mowing.rate", 1) == "$150.00  at $7.50/ac");
    CHECK(desk.codes("mowing.rate") == "");
    desk.folder().write("meadow.job", job + "set pace = 0 ac/h\n");
    desk.notify("workspace/didChangeWatchedFiles", {{"changes", Json::array()}});
    const Json lenses = desk.result("textDocument/codeLens", desk.about("mowing.rate"));
    REQUIRE(lenses.size() == 1);
    CHECK(lenses[0]["command"]["title"].get<std::string>().starts_with("no price: "));
    CHECK(range_text(lenses[0]["range"]) == "0:0-0:14");
    CHECK(desk.codes("mowing.rate") == "E501"); // by the job alone: by itself nothing is wrong
    desk.folder().write("meadow.job", job);
    desk.notify("textDocument/didSave", desk.about("meadow.job"));
    CHECK(desk.codes("mowing.rate") == "");
}

TEST_CASE("a job whose text is not taken whole has no price, nor has any price of its model") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.open("meadow.job", job);
    CHECK(desk.lens("mowing.rate", 1) == "$150.00  at $7.50/ac");
    desk.change("meadow.job", job + "set aera = 3 ac\n");
    CHECK(desk.lens("meadow.job").starts_with("no price: "));
    CHECK(desk.lens("mowing.rate").starts_with("no price: "));
    CHECK(desk.lens("mowing.rate", 1) == "");
    desk.change("meadow.job", job);
    CHECK(desk.lens("mowing.rate", 1) == "$150.00  at $7.50/ac");
}

TEST_CASE("the lens of a text stands at its first statement, behind comments and empty lines") {
    Desk desk;
    const auto line_of = [&](const std::string& text) {
        desk.open("meadow.job", text);
        return desk
            .result("textDocument/codeLens", desk.about("meadow.job"))[0]["range"]["start"]["line"]
            .get<int>();
    };
    CHECK(line_of(job) == 0);
    CHECK(line_of("# one\n\n# two\r\n\r\n" + job) == 4);
    CHECK(line_of("\n" + job) == 1);
    CHECK(line_of("# nothing but a comment") == 0);
}

TEST_CASE("each place of a line is completed by what may stand there") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.open("meadow.job", job);
    desk.settle();
    desk.change("mowing.rate", model + "more : h = when ground is \nless : h = when ground is not "
                                       "\nthird : ac = 3 \n# given \nuse \"\nprice \"x\" per \n"
                                       "given run : $/\nfifth : h = hours /\n\"abc\" \n");
    CHECK(labels(desk, "mowing.rate", 8, 26) == "flat rough");
    CHECK(labels(desk, "mowing.rate", 9, 30) == "flat rough");
    const std::string units = labels(desk, "mowing.rate", 10, 15);
    CHECK((" " + units + " ").find(" ac ") != std::string::npos);
    CHECK((" " + units + " ").find(" hours ") == std::string::npos);
    CHECK(labels(desk, "mowing.rate", 11, 8) == "");                          // in a comment
    const std::string files = " " + labels(desk, "mowing.rate", 12, 5) + " "; // in quotes
    CHECK(files.find(" library/draft ") != std::string::npos);
    CHECK(files.find(" mowing ") != std::string::npos);
    CHECK(files.find(" hours ") == std::string::npos);
    CHECK(labels(desk, "mowing.rate", 13, 14) == units);
    CHECK(labels(desk, "mowing.rate", 14, 14) == units); // within a unit
    const std::string formula = labels(desk, "mowing.rate", 15, 19);
    CHECK((" " + formula + " ").find(" hours ") != std::string::npos);
    CHECK((" " + formula + " ").find(" gal ") == std::string::npos);
    const std::string statements = labels(desk, "mowing.rate", 1, 0);
    CHECK((" " + statements + " ").find(" given ") != std::string::npos);
    CHECK((" " + statements + " ").find(" when ") == std::string::npos);
    CHECK(labels(desk, "mowing.rate", 1, 3) == statements); // while the word is written
    CHECK(labels(desk, "mowing.rate", 16, 2) == "");        // a text that is no file's
    CHECK((" " + labels(desk, "mowing.rate", 16, 6) + " ").find(" hours ") != std::string::npos);
    CHECK(labels(desk, "not-open.rate", 0, 0) == "");
}

TEST_CASE("suggestions say what they are, and keep their order") {
    Desk desk;
    desk.open("mowing.rate", model);
    const Json list =
        desk.result("textDocument/completion", desk.at("mowing.rate", 4, 12))["items"];
    std::size_t order = 0;
    std::string last;
    std::map<std::string, Json> by_label;
    for (const Json& item : list) {
        CHECK(item["sortText"].get<std::string>().size() == 6);
        CHECK(item["sortText"].get<std::string>() > last);
        last = item["sortText"];
        CHECK(std::stoul(last) == order++);
        by_label.try_emplace(item["label"], item);
    }
    CHECK(by_label["area"]["kind"] == 6);
    CHECK(by_label["area"]["detail"] == "20 ac, acres mowed");
    CHECK(by_label["ceil"]["kind"] == 3);
    CHECK(by_label["when"]["kind"] == 14);
    desk.change("mowing.rate", model + "x : h = 3 \n");
    CHECK(desk.result("textDocument/completion",
                      desk.at("mowing.rate", 8, 10))["items"][0]["kind"] == 11);
}

TEST_CASE("a definition is where a name is declared, or the file that is named") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.open("meadow.job", job);
    CHECK(definition(desk, "meadow.job", 2, 4) == "mowing.rate 1:6-1:10");
    CHECK(definition(desk, "mowing.rate", 4, 19) == "mowing.rate 2:6-2:10");
    CHECK(definition(desk, "mowing.rate", 4, 23) == "mowing.rate 2:6-2:10"); // behind it
    CHECK(definition(desk, "meadow.job", 1, 8) == "mowing.rate 0:0-0:0");
    CHECK(definition(desk, "meadow.job", 0, 8) == "none"); // a title
    CHECK(definition(desk, "meadow.job", 1, 1) == "none"); // a word of the notation
    CHECK(definition(desk, "nowhere.job", 0, 0) == "none");
}

TEST_CASE("references are those of every text, with the declaration or without it") {
    Desk desk;
    desk.open("mowing.rate", model);
    Json parameters = desk.at("mowing.rate", 1, 7);
    const auto places = [&] {
        std::string text;
        for (const Json& one : desk.result("textDocument/references", parameters)) {
            const std::string uri = one["uri"];
            text += uri.substr(uri.rfind('/') + 1) + " " + range_text(one["range"]) + "; ";
        }
        return text;
    };
    const std::string others = "mowing.rate 4:12-4:16; mowing.rate 6:25-6:29; ";
    CHECK(places() == "meadow.job 2:4-2:8; mowing.rate 1:6-1:10; " + others);
    parameters["context"] = {{"includeDeclaration", false}};
    CHECK(places() == "meadow.job 2:4-2:8; " + others);
    parameters["position"] = {{"line", 0}, {"character", 1}};
    CHECK(places() == "");
    const Json named = desk.result("textDocument/prepareRename", desk.at("mowing.rate", 4, 13));
    CHECK(range_text(named["range"]) == "4:12-4:16");
    CHECK(named["placeholder"] == "area");
    parameters["newName"] = "acres";
    CHECK(desk.request("textDocument/rename", parameters)["error"]["message"] ==
          "no name that a statement declares stands here");
}

TEST_CASE("the longest name that may be can be given, and one letter more cannot") {
    Desk desk;
    desk.open("mowing.rate", model);
    Json parameters = desk.at("mowing.rate", 1, 7);
    parameters["newName"] = std::string(100, 'a');
    CHECK(desk.result("textDocument/rename", parameters)["changes"].size() == 2);
    parameters["newName"] = std::string(101, 'a');
    CHECK(desk.request("textDocument/rename", parameters)["error"]["code"] == -32803);
    parameters["newName"] = "7th";
    CHECK(desk.request("textDocument/rename", parameters)["error"]["message"] ==
          "`7th` is not a name: a name is a letter, then letters, digits and `_`");
    parameters["newName"] = "";
    CHECK(desk.request("textDocument/rename", parameters)["error"]["code"] == -32803);
    parameters["newName"] = 7;
    CHECK(desk.request("textDocument/rename", parameters)["error"]["code"] == -32602);
}

TEST_CASE("the parts of a text hold what is written in them") {
    Desk desk;
    desk.open("mowing.rate", "model \"m\"\nuse \"crew\" as c\ngiven area = 40 ac  \"acres\"\n"
                             "part \"Field\"\n  given pace = 5 ac/h\n  hours : h = area / pace\n"
                             "part \"Costs\"\n  cost driver : $/h = $30/h over hours  \"driver\"\n"
                             "define twice(x : h) : h = 2 * x\nprice \"Mowing\" per ac of area\n"
                             "  margin 20 %\n");
    std::string text;
    for (const Json& one : desk.result("textDocument/documentSymbol", desk.about("mowing.rate"))) {
        text += one["kind"].dump() + " " + one["name"].get<std::string>() + " (" +
                one["detail"].get<std::string>() + ") " + range_text(one["selectionRange"]) + "\n";
        if (one.contains("children"))
            for (const Json& inner : one["children"])
                text += "  " + inner["kind"].dump() + " " + inner["name"].get<std::string>() + " " +
                        range_text(inner["range"]) + "\n";
    }
    CHECK(text == "2 crew (use) 1:4-1:10\n7 area (acres) 2:6-2:10\n3 Field (part) 3:5-3:12\n"
                  "  7 pace 4:2-4:21\n  13 hours 5:2-5:25\n3 Costs (part) 6:5-6:12\n"
                  "  13 driver 7:2-7:48\n12 twice () 8:7-8:12\n3 Mowing (price) 9:6-9:14\n");
    desk.open("meadow.job", job + "option \"Half\"\n  set area = 10 ac  because \"rain\"\n");
    text.clear();
    for (const Json& one : desk.result("textDocument/documentSymbol", desk.about("meadow.job")))
        text += one["kind"].dump() + " " + one["name"].get<std::string>() + " (" +
                one["detail"].get<std::string>() + ") ";
    CHECK(text == "7 area () 3 Half (option) ");
}

TEST_CASE("what is tidy has no edits, and what has errors is refused") {
    Desk desk;
    desk.open("meadow.job", job);
    CHECK(desk.result("textDocument/formatting", desk.about("meadow.job")).empty());
    desk.change("meadow.job", "job  \"Meadow\"\n");
    const Json edits = desk.result("textDocument/formatting", desk.about("meadow.job"));
    REQUIRE(edits.size() == 1);
    CHECK(range_text(edits[0]["range"]) == "0:0-1:0");
    desk.change("meadow.job", "job \"Meadow\nset\n");
    CHECK(desk.request("textDocument/formatting", desk.about("meadow.job"))["error"]["code"] ==
          -32803);
    CHECK(desk.result("textDocument/formatting", desk.about("closed.job")).is_null());
}

TEST_CASE("a mend is offered where the place touches its mistake, and nowhere else") {
    Desk desk;
    desk.open("meadow.job", "job \"Meadow\"\nmodel \"mowing\"\nset aera = 20 ac\n");
    const auto mends = [&](int from, int at, int to, int until) {
        return desk
            .result("textDocument/codeAction", ranged(desk, "meadow.job", from, at, to, until))
            .size();
    };
    CHECK(mends(2, 0, 2, 4) == 1);
    CHECK(mends(2, 0, 2, 3) == 0);
    CHECK(mends(2, 8, 2, 9) == 1);
    CHECK(mends(2, 9, 2, 9) == 0);
    CHECK(mends(0, 0, 9, 0) == 1);
    const Json mend =
        desk.result("textDocument/codeAction", ranged(desk, "meadow.job", 2, 4, 2, 4))[0];
    CHECK(mend["kind"] == "quickfix");
    CHECK(mend["title"].get<std::string>().find("`area`") != std::string::npos);
}

TEST_CASE("values stand beside the lines that are shown, and beside no other") {
    Desk desk;
    desk.open("mowing.rate", model);
    const auto hints = [&](int from, int to) {
        std::string text;
        for (const Json& hint :
             desk.result("textDocument/inlayHint", ranged(desk, "mowing.rate", from, 2, to, 2)))
            text += hint["position"]["line"].dump() + ":" + hint["position"]["character"].dump() +
                    hint["label"].get<std::string>() + "; ";
        return text;
    };
    CHECK(hints(1, 1) == "1:33= 20 ac (job); ");
    CHECK(hints(2, 3) == "");
    CHECK(hints(4, 4) == "4:40= 4 h; ");
    CHECK(hints(4, 5) == "4:40= 4 h; 5:46= $120; ");
    CHECK(hints(5, 99) == "5:46= $120; ");
}

} // namespace answers_test
