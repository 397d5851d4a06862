// What a function sees is its own; what an option sets is said there too.
#include <algorithm>
#include <string>

#include <doctest/doctest.h>

#include "tests/cli/editor/desk.h"

namespace function_scope_test {

using namespace desk;

namespace {

const std::string with_function = "model \"Mowing\"\n"
                                  "given area = 40 ac  \"acres mowed\"\n"
                                  "define halved (area : ac) : ac = half\n"
                                  "  half : ac = area / 2\n"
                                  "table t (share : %) : 1\n"
                                  "  0 1\n"
                                  "  100 2\n"
                                  "given ground = flat | rough\n"
                                  "hours : h = halved(area) / 5 ac/h * t(50 %)\n"
                                  "caution when ground is rough  \"slow\"\n"
                                  "cost driver : $/h = $30/h over hours  \"driver\"\n"
                                  "price \"Mowing\" per ac of area\n";

std::string labels(Desk& desk, const std::string& name, int line, int character) {
    const Json found = desk.result("textDocument/completion", desk.at(name, line, character));
    std::string all = " ";
    for (const Json& item : found["items"])
        all += item["label"].get<std::string>() + " ";
    return all;
}

} // namespace

TEST_CASE("a parameter is not the given of that name") {
    Desk desk;
    desk.open("mowing.rate", with_function);
    desk.settle();
    CHECK(desk.result("textDocument/hover", desk.at("mowing.rate", 3, 15)).is_null());
    CHECK_FALSE(desk.result("textDocument/hover", desk.at("mowing.rate", 8, 20)).is_null());
    Json parameters = desk.at("mowing.rate", 3, 15);
    parameters["newName"] = "acres";
    CHECK(desk.request("textDocument/rename", parameters)["error"]["code"] == -32803);
    parameters = desk.at("mowing.rate", 1, 7);
    parameters["newName"] = "acres";
    CHECK(
        desk.result("textDocument/rename", parameters)["changes"][desk.uri("mowing.rate")].size() ==
        3); // given, hours, price
}

TEST_CASE("in a function its own names are offered, and no line of the model") {
    Desk desk;
    desk.open("mowing.rate", with_function);
    desk.settle();
    const std::string inside = labels(desk, "mowing.rate", 3, 14);
    for (const char* word : {" area ", " half ", " t ", " ceil "})
        CHECK_MESSAGE(inside.find(word) != std::string::npos, std::string(word)
                                                                  << "not in" << inside);
    CHECK(inside.find(" hours ") == std::string::npos);
    CHECK(labels(desk, "mowing.rate", 8, 12).find(" hours ") != std::string::npos);
}

TEST_CASE("the options of a choice are offered in the condition of a caution") {
    Desk desk;
    desk.open("mowing.rate", with_function);
    desk.settle();
    CHECK(labels(desk, "mowing.rate", 9, 23) == " flat rough ");
    CHECK(labels(desk, "mowing.rate", 9, 8) == " ");
}

TEST_CASE("a table is found by its name, though its first letter stands in `table`") {
    Desk desk;
    desk.open("mowing.rate", with_function);
    desk.settle();
    const Json found = desk.result("textDocument/definition", desk.at("mowing.rate", 8, 36));
    CHECK(found["range"]["start"]["line"] == 4);
    CHECK(found["range"]["start"]["character"] == 6);
}

TEST_CASE("a rename reaches what options set that are not taken") {
    Desk desk;
    desk.open("meadow.job", job + "option \"Small\"\n  set area = 10 ac\n"
                                  "option \"Rough\"\n  set ground = rough\n");
    Json parameters = desk.at("meadow.job", 2, 5);
    parameters["newName"] = "acres";
    const Json changes = desk.result("textDocument/rename", parameters)["changes"];
    CHECK(changes[desk.uri("meadow.job")].size() == 2);
    CHECK(changes[desk.uri("mowing.rate")].size() == 3);
}

} // namespace function_scope_test
