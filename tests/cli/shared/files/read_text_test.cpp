#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <thread>

#include <fcntl.h>
#include <pthread.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/shared/files/read_text.h"
#include "lang/syntax/parse.h"
#include "tests/support/scratch_folder.h"

namespace read_text_test {

using namespace acre;
using namespace acre::cli;
using lang::Code;
using tests::ScratchFolder;

namespace {

struct Answer {
    bool good = false;
    std::string text;
    struct {
        Code code = Code::F701;
        std::string detail;
    } failure;
};
Answer read(const std::string& path, bool pipes = false) {
    const lang::Outcome<std::string> outcome = read_text(path, pipes);
    if (outcome)
        return {true, *outcome, {}};
    const lang::Diagnostic& why = outcome.said.diagnostics.all().front();
    return {false, "", {why.code, why.notes.empty() ? why.title : why.notes.front()}};
}

} // namespace

TEST_CASE("a text comes as it is, without the mark at its head") {
    const ScratchFolder folder;
    CHECK(read(folder.write("a", "model \"a\"\r\n")).text == "model \"a\"\r\n");
    CHECK(read(folder.write("b", "\xef\xbb\xbfmodel")).text == "model");
    CHECK(read(folder.write("c", "Peña 日本")).text == "Peña 日本");
}

TEST_CASE("every way a file can be wrong has its code and its reason") {
    const ScratchFolder folder;
    struct Row {
        std::string path;
        Code code;
        const char* says;
    };
    std::filesystem::create_directory(folder.path("folder"));
    ::mkfifo(folder.path("pipe").c_str(), 0600);
    std::filesystem::create_symlink("nowhere", folder.path("dangling"));
    std::filesystem::create_symlink("ring", folder.path("ring"));
    for (const Row& row :
         {Row{folder.path("missing"), Code::F701, "there is no file"},
          Row{folder.path("missing/below"), Code::F701, "there is no file"},
          Row{folder.path("dangling"), Code::F701, "there is no file"},
          Row{folder.path("folder"), Code::F702, "it is a folder"},
          Row{folder.path("pipe"), Code::F702, "it is not a regular file"},
          Row{"/dev/zero", Code::F702, "it is not a regular file"},
          Row{folder.path("ring"), Code::F702, ""},
          Row{folder.write("empty", ""), Code::F704, "is empty"},
          Row{folder.write("mark", "\xef\xbb\xbf"), Code::F704, "is empty"},
          Row{folder.write("latin", "model\n a\xe9 b"), Code::F703, "byte \\xe9 at line 2, byte 3"},
          Row{folder.write("cut", "model \xe2\x82"), Code::F703, "byte \\xe2 at line 1, byte 7"},
          Row{folder.write("rest", "\x80"), Code::F703, "byte \\x80 at line 1, byte 1"},
          Row{folder.write("utf16", "\xff\xfem\x01"), Code::F703,
              "it looks like UTF-16: save it as UTF-8"},
          Row{folder.write("other16", "\xfe\xff\x01m"), Code::F703,
              "it looks like UTF-16: save it as UTF-8"},
          Row{folder.write("binary", std::string("ELF\0x", 5)), Code::F703,
              "there is a zero byte at line 1, byte 4, so it is not text"}}) {
        const Answer outcome = read(row.path);
        CHECK(!outcome.good);
        CHECK(outcome.failure.code == row.code);
        CHECK_MESSAGE(outcome.failure.detail.find(row.says) != std::string::npos,
                      outcome.failure.detail);
    }
}

TEST_CASE("a file may be as large as the limit and no larger") {
    const ScratchFolder folder;
    CHECK(read(folder.write("most", std::string(lang::max_file_bytes, 'a'))).good);
    const Answer outcome = read(folder.write("more", std::string(lang::max_file_bytes + 1, 'a')));
    CHECK(!outcome.good);
    CHECK(outcome.failure.code == Code::S118);
    CHECK(outcome.failure.detail == "the limit is 4 MiB");
    CHECK(read_text(folder.write("small", "abc"), false, 3));
    const auto small = read_text(folder.write("larger", "abcd"), false, 3 << 10);
    CHECK(small.value == "abcd");
    const auto large = read_text(folder.write("large", std::string(3'073, 'a')), false, 3 << 10);
    REQUIRE(!large);
    CHECK(large.said.diagnostics.all()[0].notes == std::vector<std::string>{"the limit is 3 KiB"});
    // A device has no size to ask for: it is read up to the limit.
    CHECK(read("/dev/zero", true).failure.code == Code::S118);
}

TEST_CASE("a pipe is read to its end, whatever signals come meanwhile") {
    const ScratchFolder folder;
    const std::string path = folder.path("pipe");
    REQUIRE(::mkfifo(path.c_str(), 0600) == 0);
    struct sigaction wake = {}, before = {};
    wake.sa_handler = [](int) {}; // no SA_RESTART: reading ends at once
    ::sigaction(SIGUSR1, &wake, &before);
    std::atomic<bool> read_it = false;
    std::thread writer([&, reader = ::pthread_self()] {
        const int pipe = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
        for (const char* piece : {"model", " \"a\"\n", ""}) {
            for (int i = 0; i < 5 && !read_it; ++i) {
                std::this_thread::sleep_for(std::chrono::milliseconds(4));
                ::pthread_kill(reader, SIGUSR1);
            }
            const ssize_t written = ::write(pipe, piece, std::strlen(piece));
            static_cast<void>(written); // what is missing is seen below
        }
        ::close(pipe);
    });
    const Answer outcome = read(path, true);
    read_it = true;
    writer.join();
    ::sigaction(SIGUSR1, &before, nullptr);
    CHECK(outcome.text == "model \"a\"\n");
}

TEST_CASE("a file that may not be read says so") {
    if (::geteuid() == 0)
        return; // nothing is forbidden to root
    const ScratchFolder folder;
    const std::string path = folder.write("closed", "model");
    ::chmod(path.c_str(), 0);
    CHECK(read(path).failure.code == Code::F702);
}

} // namespace read_text_test
