#include "cli/shared/files/durable.h"

#include <doctest/doctest.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <iterator>
#include <string>
#include <vector>

#include <fcntl.h>
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

TEST_CASE("what a killed program left is removed after a day, and nothing else of the folder") {
    const ScratchFolder folder;
    const auto aged = [&](const std::string& name, std::chrono::hours age) {
        fs::last_write_time(folder.write(name, "x"), fs::file_time_type::clock::now() - age);
    };
    aged(".acrewright-AbC123", std::chrono::hours(25));
    const std::vector<std::string> kept = {".acrewright-Young1", ".acrewright-Long123",
                                           ".acrewright-Brief", ".acrewrighT-Other1", "crew"};
    for (const std::string& name : kept)
        aged(name, std::chrono::hours(name == kept.front() ? 23 : 25));
    fs::create_directory(folder.path(".acrewright-folder"));
    fs::last_write_time(folder.path(".acrewright-folder"),
                        fs::file_time_type::clock::now() - std::chrono::hours(25));
    std::string path;
    CHECK(write_beside(folder.path(), "x", 0600, path, Leftovers::Leave).empty());
    CHECK(fs::exists(folder.path(".acrewright-AbC123")));
    beside(folder, "x");
    CHECK(!fs::exists(folder.path(".acrewright-AbC123")));
    for (const std::string& name : kept)
        CHECK_MESSAGE(fs::exists(folder.path(name)), name);
    CHECK(fs::exists(folder.path(".acrewright-folder")));
}

TEST_CASE("what a run made is taken back, unless something is in it") {
    const ScratchFolder folder;
    folder.write("file", "x");
    folder.write("full/file", "x");
    fs::create_directory(folder.path("empty"));
    for (const char* name : {"file", "empty", "missing"}) {
        CHECK(remove_made(folder.path(name)).empty());
        CHECK(!fs::exists(folder.path(name)));
    }
    CHECK(remove_made(folder.path("full")) == "Directory not empty");
    CHECK(fs::exists(folder.path("full/file")));
}

TEST_CASE("a plain file is opened, and no link, folder or pipe") {
    const ScratchFolder folder;
    folder.write("file", "x");
    fs::create_symlink("file", folder.path("link"));
    fs::create_directory(folder.path("folder"));
    REQUIRE(::mkfifo(folder.path("pipe").c_str(), 0600) == 0);
    const auto why = [&](const char* name) {
        Descriptor file;
        return open_plain(folder.path(name), O_RDONLY, file);
    };
    CHECK(why("file").empty());
    CHECK(why("link") == "it is a link");
    CHECK(why("folder") == "it is not a regular file");
    CHECK(why("pipe") == "it is not a regular file");
    CHECK(why("missing") == "No such file or directory");
}

TEST_CASE("a lock is had by one, waited for no longer than told, and free when its holder ends") {
    const ScratchFolder folder;
    const std::string path = folder.path("lock");
    bool first = false, second = true, third = false;
    Descriptor waiting;
    {
        Descriptor held;
        CHECK(lock_file(path, std::chrono::milliseconds(0), held, first).empty());
        CHECK(lock_file(path, std::chrono::milliseconds(30), waiting, second).empty());
    }
    CHECK(first);
    CHECK(!second);
    CHECK(lock_file(path, std::chrono::milliseconds(0), waiting, third).empty());
    CHECK(third);
}

TEST_CASE("a new file is no wider than the mask and its folder say, and the mask stays") {
    const ScratchFolder folder;
    const mode_t before = ::umask(0027);
    const auto of_folder = [&](mode_t mode, mode_t wanted) {
        ::chmod(folder.path().c_str(), mode);
        return mode_of_new(folder.path(), wanted);
    };
    CHECK(of_folder(0777, 0666) == 0640);
    CHECK(of_folder(0700, 0666) == 0600);
    CHECK(of_folder(0750, 0444) == 0440);
    CHECK(of_folder(0300, 0666) == 0600); // its owner may read and write it all the same
    CHECK(::umask(before) == 0027);
    CHECK(mode_of_new(folder.path("missing"), 0600) == (0600 & ~before));
    ::chmod(folder.path().c_str(), 0700);
}

TEST_CASE("what would end the program waits while a file is on its way, and nothing else does") {
    const auto waits = [](int signal) {
        sigset_t now;
        ::pthread_sigmask(SIG_BLOCK, nullptr, &now);
        return ::sigismember(&now, signal) == 1;
    };
    {
        const SignalsHeld held;
        CHECK(waits(SIGINT));
        CHECK(waits(SIGTERM));
        CHECK(waits(SIGHUP));
        CHECK(!waits(SIGSEGV));
        CHECK(!waits(SIGCHLD));
    }
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
        CHECK(!waits(signal));
}

} // namespace durable_test
