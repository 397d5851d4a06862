#include <doctest/doctest.h>

#include <filesystem>

#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>

#include "cli/shared/files/write_file.h"
#include "tests/support/scratch_folder.h"

namespace write_file_test {

using namespace acre::cli;
using acre::tests::file_text;
using acre::tests::ScratchFolder;

namespace {

std::size_t files_in(const std::string& folder) {
    const std::filesystem::directory_iterator files(folder);
    return static_cast<std::size_t>(std::distance(begin(files), end(files)));
}

} // namespace

TEST_CASE("a file is written anew or over an old one, and nothing else is left") {
    const ScratchFolder folder;
    CHECK(write_file(folder.path("new"), "one").reason.empty());
    CHECK(file_text(folder.path("new")) == "one");
    CHECK(write_file(folder.path("new"), "two").reason.empty());
    CHECK(file_text(folder.path("new")) == "two");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("permissions stay, and a link stays a link") {
    const ScratchFolder folder;
    const std::string path = folder.write("kept/real", "one");
    ::chmod(path.c_str(), 0640);
    std::filesystem::create_symlink("kept/real", folder.path("link"));
    CHECK(write_file(folder.path("link"), "two").reason.empty());
    CHECK(std::filesystem::is_symlink(folder.path("link")));
    CHECK(file_text(path) == "two");
    struct stat about = {};
    ::stat(path.c_str(), &about);
    CHECK((about.st_mode & 07777U) == 0640);
}

TEST_CASE("what cannot be written says why and leaves all as it was") {
    const ScratchFolder folder;
    std::filesystem::create_directory(folder.path("folder"));
    CHECK(write_file(folder.path("folder"), "x").reason == "it is a folder");
    CHECK(write_file("/dev/full", "x").reason == "it is not a regular file");
    CHECK(write_file(folder.path("missing/file"), "x").reason == "No such file or directory");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a disk that fills up half-way does not cost the old text") {
    const ScratchFolder folder;
    const std::string path = folder.write("kept", "the old text");
    std::signal(SIGXFSZ, SIG_IGN);
    rlimit before = {};
    ::getrlimit(RLIMIT_FSIZE, &before);
    const rlimit small{4096, before.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &small);
    const std::string reason = write_file(path, std::string(100'000, 'x')).reason;
    ::setrlimit(RLIMIT_FSIZE, &before);
    CHECK(reason == "File too large");
    CHECK(file_text(path) == "the old text");
    CHECK(files_in(folder.path()) == 1);
}

} // namespace write_file_test
