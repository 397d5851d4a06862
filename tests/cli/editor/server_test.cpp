#include "cli/editor/server.h"

#include <doctest/doctest.h>

#include <filesystem>

#include "tests/cli/editor/desk.h"

namespace server_test {

namespace fs = std::filesystem;
using namespace desk;

TEST_CASE("the price stands above a job, of the text as it is typed") {
    Desk desk;
    desk.open("meadow.job", job);
    // 20 ac / 5 ac/h = 4 h; 4 h * $30/h = $120; $120 / (1 - 20 %) = $150; $150 / 20 ac = $7.50/ac
    CHECK(desk.lens("meadow.job") == "$150.00  $7.50/ac all in");
    desk.change("meadow.job", "job \"Meadow\"\nmodel \"mowing\"\nset area = 40 ac\n");
    CHECK(desk.lens("meadow.job") == "$300.00  $7.50/ac all in");
    // A model that is open and not saved: $60/h.
    std::string dearer = model;
    dearer.replace(dearer.find("$30/h"), 5, "$60/h");
    desk.open("mowing.rate", dearer);
    CHECK(desk.lens("meadow.job") == "$600.00  $15.00/ac all in");
    CHECK(desk.lens("mowing.rate") == "$600.00  $15.00/ac all in  for Meadow");
    CHECK(desk.lens("mowing.rate", 1) == "$600.00  at $15.00/ac");
}

TEST_CASE("what is wrong is shown where it is, and taken back when it is mended") {
    Desk desk;
    desk.open("meadow.job", job);
    CHECK(desk.codes("meadow.job") == "");
    desk.change("meadow.job", "job \"Meadow\"\nmodel \"mowing\"\nset aera = 20 ac\n");
    CHECK(desk.codes("meadow.job") == "I601");
    CHECK(desk.lens("meadow.job").starts_with("no price: "));
    const Json range = {{"start", {{"line", 2}, {"character", 4}}},
                        {"end", {{"line", 2}, {"character", 8}}}};
    Json parameters = desk.about("meadow.job");
    parameters["range"] = range;
    parameters["context"] = {{"diagnostics", Json::array()}};
    const Json actions = desk.result("textDocument/codeAction", parameters);
    REQUIRE(actions.size() == 1);
    CHECK(actions[0]["edit"]["changes"][desk.uri("meadow.job")][0]["newText"] == "area");
    CHECK(actions[0]["edit"]["changes"][desk.uri("meadow.job")][0]["range"] == range);
    desk.change("meadow.job", job);
    CHECK(desk.codes("meadow.job") == "");
}

TEST_CASE("hover tells what a name is now, and who set it") {
    Desk desk;
    desk.open("mowing.rate", model);
    const auto hover = [&](int line, int character) {
        const Json found =
            desk.result("textDocument/hover", desk.at("mowing.rate", line, character));
        return found.is_null() ? std::string() : found["contents"]["value"].get<std::string>();
    };
    const std::string area = hover(4, 13);
    CHECK(area.find("acres mowed\narea = 20 ac\n  set by the job, ") == 0);
    CHECK(hover(4, 1) == "machine hours\nhours = 4 h\n= area / pace\n");
    CHECK(hover(5, 6).find("driver.amount = $120\n") != std::string::npos);
    CHECK(hover(1, 17).find("area: ac = 43,560 ft^2") == 0);
    CHECK(hover(7, 4).find("Shares that a price adds to its cost") == 0);
    CHECK(hover(1, 30) == ""); // in a label
}

TEST_CASE("names, units, options and files are completed") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.open("meadow.job", job);
    desk.settle(); // what is known stays while the text has errors
    desk.change("meadow.job", job + "set ground = \nset pace = 4 \nmodel \"\n");
    const auto labels = [&](const std::string& name, int line, int character) {
        std::string text;
        const Json list =
            desk.result("textDocument/completion", desk.at(name, line, character))["items"];
        for (const Json& item : list)
            text += " " + item["label"].get<std::string>();
        return text + " ";
    };
    CHECK(labels("meadow.job", 3, 13) == " flat rough ");
    const std::string units = labels("meadow.job", 4, 13);
    CHECK(units.starts_with(" ac/h "));
    CHECK(units.find(" gal ") == std::string::npos);
    CHECK(labels("meadow.job", 5, 7).find(" mowing ") != std::string::npos);
    CHECK(labels("meadow.job", 2, 4).find(" area ") != std::string::npos);
    CHECK(labels("meadow.job", 2, 4).find(" hours ") == std::string::npos); // no given
    const std::string formula = labels("mowing.rate", 4, 12);
    for (const char* word : {" pace ", " hours ", " ceil ", " when "})
        CHECK_MESSAGE(formula.find(word) != std::string::npos, word << "not in" << formula);
}

TEST_CASE("a rename changes every text that says the name, and the price of none") {
    Desk desk;
    desk.open("meadow.job", job);
    Json parameters = desk.at("meadow.job", 2, 5);
    parameters["newName"] = "acres";
    const Json changes = desk.result("textDocument/rename", parameters)["changes"];
    CHECK(changes[desk.uri("meadow.job")].size() == 1);
    CHECK(changes[desk.uri("mowing.rate")].size() == 3); // given, hours, price
    parameters["newName"] = "pace";
    CHECK(desk.request("textDocument/rename", parameters)["error"]["code"] == -32803);
    parameters["newName"] = "given";
    CHECK(desk.request("textDocument/rename", parameters)["error"]["code"] == -32803);
    parameters["newName"] = "two words";
    CHECK(desk.request("textDocument/rename", parameters)["error"]["code"] == -32803);
    CHECK(desk.result("textDocument/prepareRename", desk.at("meadow.job", 0, 1)).is_null());
    parameters["context"] = {{"includeDeclaration", true}};
    CHECK(desk.result("textDocument/references", parameters).size() == 4);
    const Json declared = desk.result("textDocument/definition", parameters);
    CHECK(declared["uri"] == desk.uri("mowing.rate"));
    CHECK(declared["range"]["start"] == Json{{"line", 1}, {"character", 6}});
}

TEST_CASE("a text is tidied, listed and shows its values") {
    Desk desk;
    desk.open("mowing.rate", "model   \"m\"\ngiven area=40 ac\nmore:ac=2*area\n");
    const Json edits = desk.result("textDocument/formatting", desk.about("mowing.rate"));
    REQUIRE(edits.size() == 1);
    CHECK(edits[0]["newText"] == "model \"m\"\ngiven area = 40 ac\nmore : ac = 2 * area\n");
    const Json symbols = desk.result("textDocument/documentSymbol", desk.about("mowing.rate"));
    REQUIRE(symbols.size() == 2);
    CHECK(symbols[1]["name"] == "more");
    Json parameters = desk.about("mowing.rate");
    parameters["range"] = {{"start", {{"line", 0}, {"character", 0}}},
                           {"end", {{"line", 9}, {"character", 0}}}};
    desk.change("mowing.rate", model);
    const Json hints = desk.result("textDocument/inlayHint", parameters);
    std::string text;
    for (const Json& hint : hints)
        text += hint["position"]["line"].dump() + hint["label"].get<std::string>() + "; ";
    CHECK(text == "1= 20 ac (job); 4= 4 h; 5= $120; ");
}

TEST_CASE("malformed messages are answered, and the server goes on") {
    Desk desk;
    const auto error = [](const std::vector<Json>& said) {
        return said.size() == 1 && said[0].contains("error") ? said[0]["error"]["code"].get<int>()
                                                             : 0;
    };
    CHECK(error(desk.send_bytes("Content-Length: x\r\n\r\n")) == -32700);
    CHECK(error(desk.send("{")) == -32700);
    CHECK(error(desk.send("[]")) == -32600);
    CHECK(error(desk.send("\xff\xfe")) == -32700);
    CHECK(error(desk.send(std::string(100'000, '['))) == -32700);
    CHECK(error(desk.send(R"({"id":1,"method":7})")) == -32600);
    CHECK(error(desk.send(R"({"id":1,"method":"what/is"})")) == -32601);
    CHECK(error(desk.send(R"({"id":1,"method":"textDocument/hover"})")) == -32602);
    CHECK(error(desk.send(R"({"id":1,"method":"textDocument/hover","params":[1]})")) == -32602);
    CHECK(desk.send(R"({"method":"textDocument/didChange","params":{}})").empty());
    CHECK(desk.send(R"({"method":"no/such"})").empty());
    CHECK(desk.send(R"({"id":5,"result":null})").empty());
    CHECK(desk.result("textDocument/hover", desk.at("not-open.job", 0, 0)).is_null());
    desk.open("meadow.job", job);
    CHECK(desk.result("textDocument/hover", desk.at("meadow.job", 4'000'000'00, 7)).is_null());
    CHECK(desk.lens("meadow.job") == "$150.00  $7.50/ac all in");
}

TEST_CASE("a request that still waits can be cancelled") {
    Desk desk;
    const std::string ask = R"({"id":77,"method":"textDocument/codeLens","params":)" +
                            desk.about("meadow.job").dump() + "}";
    const auto said =
        desk.send_bytes(framed(ask) + framed(R"({"method":"$/cancelRequest","params":{"id":77}})"));
    REQUIRE(said.size() == 1);
    CHECK(said[0]["error"]["code"] == -32800);
    CHECK(desk.send(R"({"method":"$/cancelRequest","params":{"id":78}})").empty());
}

TEST_CASE("nothing is answered before `initialize` or after `shutdown`") {
    Desk desk(false);
    CHECK(desk.request("textDocument/codeLens", desk.about("a.job"))["error"]["code"] == -32002);
    desk.result("initialize", Json::object());
    desk.result("shutdown", nullptr);
    CHECK(desk.request("textDocument/codeLens", desk.about("a.job"))["error"]["code"] == -32600);
    CHECK(!desk.server().ended());
    desk.send(R"({"method":"exit"})");
    CHECK(desk.server().in_order());
}

TEST_CASE("a file that vanishes is told, and what is open stays in its place") {
    Desk desk;
    desk.open("meadow.job", job);
    CHECK(desk.codes("meadow.job") == "");
    fs::remove(desk.folder().path("mowing.rate"));
    desk.notify("workspace/didChangeWatchedFiles", {{"changes", Json::array()}});
    CHECK(desk.codes("meadow.job") == "F701");
    desk.open("mowing.rate", model);
    CHECK(desk.codes("meadow.job") == "");
    CHECK(desk.lens("meadow.job") == "$150.00  $7.50/ac all in");
}

TEST_CASE("a setting says in the light of which job a model is seen") {
    Desk desk;
    std::ofstream(desk.folder().path("other.job"))
        << "job \"Other\"\nmodel \"mowing\"\nset area = 10 ac\n";
    desk.open("mowing.rate", model);
    CHECK(desk.lens("mowing.rate") == "$150.00  $7.50/ac all in  for Meadow");
    desk.notify("workspace/didChangeConfiguration",
                {{"settings", {{"acrewright", {{"job", "other.job"}}}}}});
    CHECK(desk.lens("mowing.rate") == "$75.00  $7.50/ac all in  for Other");
}

} // namespace server_test
