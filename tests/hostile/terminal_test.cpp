// The last gate: what reaches a terminal, of the program as it is run.
#include <doctest/doctest.h>

#include <cstdlib>
#include <string>
#include <vector>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/hostile/judge.h"
#include "tests/support/scratch_folder.h"

namespace terminal_test {

using namespace acre::tests;

namespace {

// The real program on a terminal of its own: what it writes there.
std::string on_terminal(const Line& words) {
    const int terminal = ::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
    REQUIRE(terminal >= 0);
    REQUIRE(::grantpt(terminal) == 0);
    REQUIRE(::unlockpt(terminal) == 0);
    posix_spawn_file_actions_t actions;
    ::posix_spawn_file_actions_init(&actions);
    for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        ::posix_spawn_file_actions_addopen(&actions, descriptor, ::ptsname(terminal),
                                           O_RDWR | O_NOCTTY, 0);
    std::vector<char*> arguments = {const_cast<char*>(ACREWRIGHT_PROGRAM)};
    for (const std::string& word : words)
        arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    char* environment[] = {const_cast<char*>("TERM=xterm"), nullptr};
    pid_t child = 0;
    REQUIRE(::posix_spawn(&child, ACREWRIGHT_PROGRAM, &actions, nullptr, arguments.data(),
                          environment) == 0);
    ::posix_spawn_file_actions_destroy(&actions);
    std::string said;
    char buffer[4096];
    for (ssize_t got = 0; (got = ::read(terminal, buffer, sizeof buffer)) > 0;)
        said.append(buffer, static_cast<std::size_t>(got));
    ::close(terminal);
    int status = 0;
    ::waitpid(child, &status, 0);
    return said;
}

} // namespace

TEST_CASE(
    "the text of a file is shown harmless on a terminal, and is kept byte for byte elsewhere") {
    const ScratchFolder scratch;
    const std::string text = "model \"a\xe2\x80\x8b\xe2\x80\xa8"
                             "b\"\n";
    const std::string path = scratch.write("m.rate", text);
    CHECK(on_terminal({"tidy", path}) ==
          "model \"a\\u{200b}\\u{2028}b\"\r\n"); // the terminal itself makes CRLF
    const std::string kept = scratch.path("kept");
    REQUIRE(std::system(
                (std::string(ACREWRIGHT_PROGRAM) + " tidy " + path + " >" + kept).c_str()) == 0);
    CHECK(file_text(kept) == text);
    CHECK(without_ink(on_terminal({"check", scratch.path("none\x1b[2J.rate")})).find('\x1b') ==
          std::string::npos);
}

} // namespace terminal_test
