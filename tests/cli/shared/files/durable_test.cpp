#include "cli/shared/files/durable.h"

#include <doctest/doctest.h>

#include <filesystem>

#include <sys/stat.h>

#include "tests/support/scratch_folder.h"

namespace durable_test {

using namespace acre::cli;
using acre::tests::file_text;
using acre::tests::ScratchFolder;
namespace fs = std::filesystem;

namespace {

std::string beside(const ScratchFolder& folder, const std::string& text) {
    std::string path;
    REQUIRE(write_beside(folder.path(), text, 0640, path).empty());
    return path;
}

std::size_t files_in(const ScratchFolder& folder) {
    const fs::directory_iterator files(folder.path());
    return static_cast<std::size_t>(std::distance(begin(files), end(files)));
}

} // namespace

TEST_CASE("a file beside is whole, has its permissions, and takes the place of another") {
    const ScratchFolder folder;
    const std::string path = beside(folder, "new");
    struct stat about = {};
    ::stat(path.c_str(), &about);
    CHECK((about.st_mode & 07777U) == 0640);
    const std::string target = folder.write("kept", "old");
    CHECK(move_over(path, target).empty());
    CHECK(file_text(target) == "new");
    CHECK(files_in(folder) == 1);
}

TEST_CASE("a name is taken once, and whoever comes second changes nothing") {
    const ScratchFolder folder;
    bool taken = true;
    CHECK(take_name(beside(folder, "first"), folder.path("000001.json"), taken).empty());
    CHECK(!taken);
    CHECK(take_name(beside(folder, "second"), folder.path("000001.json"), taken).empty());
    CHECK(taken);
    CHECK(file_text(folder.path("000001.json")) == "first");
    CHECK(files_in(folder) == 1);
}

TEST_CASE("what the system refuses leaves nothing beside") {
    const ScratchFolder folder;
    fs::create_directory(folder.path("folder"));
    bool taken = false;
    CHECK(move_over(beside(folder, "x"), folder.path("folder")) == "Is a directory");
    CHECK(move_over(beside(folder, "x"), folder.path("missing/name")) ==
          "No such file or directory");
    CHECK(take_name(beside(folder, "x"), folder.path("missing/name"), taken) ==
          "No such file or directory");
    std::string path;
    CHECK(write_beside(folder.path("missing"), "x", 0600, path) == "No such file or directory");
    CHECK(files_in(folder) == 1);
}

TEST_CASE("a folder is made, or is there already; a file of its name is no folder") {
    const ScratchFolder folder;
    CHECK(make_folder(folder.path("book")).empty());
    CHECK(make_folder(folder.path("book")).empty());
    CHECK(flush_folder(folder.path("book")).empty());
    folder.write("file", "x");
    CHECK(make_folder(folder.path("file")) == "a file of this name already exists");
    CHECK(make_folder(folder.path("missing/book")) == "No such file or directory");
    CHECK(flush_folder(folder.path("missing")) == "No such file or directory");
}

} // namespace durable_test
