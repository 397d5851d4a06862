// Which files are looked through, and what a change in the midst of a look does.
#include "cli/editor/workspace.h"

#include <doctest/doctest.h>

#include <filesystem>

#include "tests/cli/editor/desk.h"

namespace workspace_test {

namespace fs = std::filesystem;
using namespace desk;

namespace {

std::string names_of(const Workspace& workspace, const std::string& root) {
    std::string text;
    for (const std::string& file : workspace.files())
        text += (text.empty() ? "" : " ") +
                (file.starts_with(root) ? file.substr(root.size() + 1) : file);
    return text;
}

} // namespace

TEST_CASE("files are found four folders down and no further, in no hidden folder, by no link") {
    const ScratchFolder folder;
    for (const char* name : {"top.job", "a/b/c/d/deep.rate", "a/b/c/d/e/deeper.rate",
                             ".hidden/not.job", "a/.hidden/not.job", "a/2027.season", "firm.firm",
                             "over.values", "notes.txt", "real/linked.rate"})
        folder.write(name, "");
    fs::create_directory(folder.path("folder.job"));
    fs::create_directory_symlink(folder.path("real"), folder.path("link"));
    fs::create_directory(folder.path("shut"));
    Workspace workspace;
    workspace.settings.root = folder.path();
    CHECK(names_of(workspace, folder.path()) ==
          "a/2027.season a/b/c/d/deep.rate firm.firm over.values real/linked.rate top.job");
    workspace.documents.open("/elsewhere/open.job", "file:///elsewhere/open.job", "");
    CHECK(names_of(workspace, folder.path()).starts_with("/elsewhere/open.job a/2027.season"));
}

TEST_CASE("without a folder that is open, those of the open texts are looked through") {
    const ScratchFolder folder;
    folder.write("one/a.job", "");
    folder.write("two/b.job", "");
    folder.write("three/c.job", "");
    Workspace workspace;
    CHECK(workspace.files().empty());
    for (const char* name : {"one/new.job", "two/b.job"})
        workspace.documents.open(folder.path(name), uri_of(folder.path(name)), "");
    CHECK(names_of(workspace, folder.path()) == "one/a.job one/new.job two/b.job");
}

TEST_CASE("no more files are looked through than three hundred") {
    const ScratchFolder folder;
    for (int i = 0; i < 302; ++i)
        folder.write(std::to_string(i) + ".job", "");
    Workspace workspace;
    workspace.settings.root = folder.path();
    CHECK(workspace.files().size() == 300);
}

TEST_CASE("a change in the midst of a look begins it anew") {
    Desk desk;
    desk.open("a.job", job);
    desk.open("b.job", job);
    desk.settle();
    desk.change("a.job", job + "\n");
    for (int i = 0; i < 3; ++i) // both by themselves, and one in the light of its job
        desk.server().settle();
    CHECK(desk.server().settling());
    desk.change("a.job", job + "set aera = 3 ac\n");
    CHECK(!desk.server().settling());
    CHECK(desk.codes("a.job") == "I601");
    CHECK(!desk.server().unsettled());
}

TEST_CASE(
    "a text that is closed is that of the disk again, and what was said of it is taken back") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.open("meadow.job", job + "set aera = 3 ac\n");
    CHECK(desk.codes("meadow.job") == "I601");
    desk.notify("textDocument/didClose", desk.about("meadow.job"));
    CHECK(desk.codes("meadow.job") == "");
    CHECK(desk.codes("meadow.job") == "not told"); // and it is not told again
    CHECK(desk.lens("meadow.job") == "");
    CHECK(desk.lens("mowing.rate") == "$150.00  $7.50/ac all in  for Meadow");
    desk.notify("textDocument/didClose", desk.about("mowing.rate"));
    desk.folder().write("mowing.rate", "model \"Mowing\"\n");
    desk.notify("textDocument/didSave", desk.about("mowing.rate"));
    desk.open("meadow.job", job);
    CHECK(desk.codes("meadow.job") == "I601");
}

TEST_CASE("a change names its place, and a text that is no file's is left alone") {
    Desk desk;
    desk.open("meadow.job", job);
    Json change = {{"textDocument", {{"uri", desk.uri("meadow.job")}, {"version", 2}}}};
    change["contentChanges"] = Json::array();
    for (const auto& [begin, end, text] :
         {std::tuple(11, 13, "3"), std::tuple(11, 11, "2"), std::tuple(12, 12, "0")}) {
        Json one = {{"text", text}};
        one["range"] = {{"start", {{"line", 2}, {"character", begin}}},
                        {"end", {{"line", 2}, {"character", end}}}};
        change["contentChanges"].push_back(one);
    }
    desk.notify("textDocument/didChange", change);                  // 20 -> 3 -> 23 -> 203
    CHECK(desk.lens("meadow.job") == "$1,522.50  $7.50/ac all in"); // 203 ac at $7.50/ac
    change["textDocument"]["uri"] = "untitled:one";
    desk.notify("textDocument/didChange", change);
    desk.notify("textDocument/didOpen",
                {{"textDocument", {{"uri", "untitled:one"}, {"text", "job"}}}});
    desk.notify("textDocument/didClose", {{"textDocument", {{"uri", "untitled:one"}}}});
    desk.open("notes.txt", "words");
    CHECK(desk.codes("notes.txt") == "not told");
    CHECK(desk.result("textDocument/hover", desk.at("notes.txt", 0, 1)).is_null());
}

TEST_CASE("settings may come at the beginning, as a full path, or not as they should") {
    Desk desk(false);
    desk.folder().write("other.job", "job \"Other\"\nmodel \"mowing\"\nset area = 10 ac\n");
    desk.folder().write("more/trimming.rate", model);
    Json begin = {{"rootUri", uri_of(desk.folder().path(""))}};
    begin["initializationOptions"] = {{"job", "other.job"}, {"models", "more"}};
    desk.result("initialize", begin);
    desk.open("mowing.rate", model);
    CHECK(desk.lens("mowing.rate") == "$75.00  $7.50/ac all in  for Other");
    desk.open("trim.job", "job \"Trim\"\nmodel \"trimming\"\n");
    CHECK(desk.lens("trim.job") == "$300.00  $7.50/ac all in");
    desk.notify("workspace/didChangeConfiguration", {{"settings", {{"job", 7}}}});
    CHECK(desk.lens("mowing.rate").ends_with("for Other"));
    desk.notify("workspace/didChangeConfiguration", {{"settings", nullptr}});
    CHECK(desk.lens("mowing.rate").ends_with("for Other"));
    desk.notify("workspace/didChangeConfiguration",
                {{"settings", {{"job", desk.folder().path("meadow.job")}}}});
    CHECK(desk.lens("mowing.rate").ends_with("for Meadow"));
    desk.notify("workspace/didChangeConfiguration", {{"settings", {{"models", ""}}}});
    CHECK(desk.lens("trim.job").starts_with("no price: "));
}

TEST_CASE("a model is seen in the light of an open job before one of the folder") {
    Desk desk;
    desk.folder().write("a-first.job", "job \"First\"\nmodel \"mowing\"\nset area = 1 ac\n");
    desk.open("z-last.job", "job \"Open\"\nmodel \"mowing\"\nset area = 2 ac\n");
    desk.open("mowing.rate", model);
    CHECK(desk.lens("mowing.rate") == "$15.00  $7.50/ac all in  for Open");
}

TEST_CASE("a rename reaches the jobs of every folder that is open, or is around what is open") {
    for (const bool told : {true, false}) {
        Desk desk(false);
        desk.folder().write("first/other.job", job);
        desk.folder().write("second/models/mowing.rate", model);
        desk.folder().write("second/meadow.job", job);
        const std::string first = desk.uri("first"), second = desk.uri("second");
        Json begin = {{"rootUri", first}};
        if (told)
            begin["workspaceFolders"] =
                Json::array({{{"uri", first}, {"name", "1"}}, {{"uri", second}, {"name", "2"}}});
        desk.result("initialize", begin);
        const std::string name = "second/models/mowing.rate";
        desk.open(name, model);
        CHECK(desk.lens(name) == "$150.00  $7.50/ac all in  for Meadow");
        Json parameters = desk.at(name, 1, 7);
        parameters["newName"] = "acres";
        const Json changes = desk.result("textDocument/rename", parameters)["changes"];
        CHECK(changes.size() == 2);
        CHECK(changes.contains(desk.uri("second/meadow.job")));
    }
}

TEST_CASE("folders come and go while the editor runs") {
    Desk desk(false);
    desk.folder().write("first/note.job", "job \"Note\"\n");
    desk.folder().write("second/a/models/mowing.rate", model);
    desk.folder().write("second/a/meadow.job", job);
    desk.folder().write("second/a/models/trees/walnut.rate", model);
    desk.folder().write("second/a/walnut.job",
                        "job \"Walnut\"\nmodel \"trees/walnut\"\nset area = 10 ac\n");
    const Json first = {{"uri", desk.uri("first")}, {"name", "1"}};
    const Json second = {{"uri", desk.uri("second")}, {"name", "2"}};
    desk.result("initialize", {{"rootUri", nullptr}, {"workspaceFolders", Json::array({first})}});
    const std::string name = "second/a/models/trees/walnut.rate";
    desk.open(name, model);
    CHECK(desk.lens(name) == "$300.00  $7.50/ac all in");
    const auto change = [&](const Json& added, const Json& removed) {
        desk.notify("workspace/didChangeWorkspaceFolders",
                    {{"event", {{"added", added}, {"removed", removed}}}});
    };
    change(Json::array({second}), Json::array({first}));
    CHECK(desk.lens(name) == "$75.00  $7.50/ac all in  for Walnut");
    desk.notify("workspace/didChangeConfiguration", {{"settings", {{"job", "a/meadow.job"}}}});
    desk.open("second/a/models/mowing.rate", model);
    CHECK(desk.lens("second/a/models/mowing.rate").ends_with("for Meadow"));
}

TEST_CASE("an editor that can look at files is asked to, another is not") {
    for (const bool can : {true, false}) {
        Desk desk(false);
        Json begin = {{"rootUri", desk.uri("")}};
        begin["capabilities"]["workspace"]["didChangeWatchedFiles"]["dynamicRegistration"] = can;
        desk.result("initialize", begin);
        const std::vector<Json> said =
            desk.send(R"({"jsonrpc":"2.0","method":"initialized","params":{}})");
        REQUIRE(said.size() == (can ? 1 : 0));
        if (!can)
            continue;
        CHECK(said[0]["method"] == "client/registerCapability");
        const Json& one = said[0]["params"]["registrations"][0];
        CHECK(one["method"] == "workspace/didChangeWatchedFiles");
        const std::string glob = one["registerOptions"]["watchers"][0]["globPattern"];
        for (const char* ending : {"rate", "season", "values", "job", "firm", "geojson"})
            CHECK_MESSAGE(glob.find(ending) != std::string::npos, ending);
        CHECK(desk.send(R"({"jsonrpc":"2.0","id":"watch","result":null})").empty());
    }
}

TEST_CASE("a job whose file is gone gives no light, and no name is said to be where none is") {
    Desk desk;
    desk.open("mowing.rate", model);
    desk.open("meadow.job", job);
    CHECK(desk.lens("mowing.rate") == "$150.00  $7.50/ac all in  for Meadow");
    desk.notify("textDocument/didClose", desk.about("mowing.rate"));
    fs::remove(desk.folder().path("mowing.rate"));
    desk.notify("workspace/didChangeWatchedFiles", {{"changes", Json::array()}});
    CHECK(desk.codes("meadow.job") == "F701");
    CHECK(desk.result("textDocument/definition", desk.at("meadow.job", 2, 5)).is_null());
    CHECK(desk.result("textDocument/definition", desk.at("meadow.job", 1, 8)).is_null());
    Json here = desk.at("meadow.job", 2, 5);
    here["context"] = {{"includeDeclaration", true}};
    CHECK(desk.result("textDocument/references", here).size() == 1);
    desk.open("mowing.rate", model);
    desk.notify("textDocument/didClose", desk.about("meadow.job"));
    fs::remove(desk.folder().path("meadow.job"));
    desk.notify("workspace/didChangeWatchedFiles", {{"changes", Json::array()}});
    CHECK(desk.codes("mowing.rate") == "");
    CHECK(desk.lens("mowing.rate") == "$300.00  $7.50/ac all in");
}

} // namespace workspace_test
