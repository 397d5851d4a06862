#include "cli/shared/console.h"

#include <doctest/doctest.h>

#include <csignal>
#include <string>
#include <thread>

#include <fcntl.h>
#include <unistd.h>

#include "tests/support/scratch_folder.h"

namespace console_test {

using namespace acre::cli;

TEST_CASE("what steers a terminal does not pass, whoever said it") {
    const struct {
        std::string text, shown;
    } rows[] = {
        {"plain, caf\xc3\xa9, \xe2\x82\xac 5\n", "plain, caf\xc3\xa9, \xe2\x82\xac 5\n"},
        {"a,b\r\nc\r\n", "a,b\r\nc\r\n"},
        {"over\rwritten", "over\\x0dwritten"},
        {"\x1b]0;title\x07", "\\x1b]0;title\\x07"},
        {"\x1b[2J\x1b[H", "\\x1b[2J\\x1b[H"},
        {"\x1b[1mloud\x1b[0m", "\\x1b[1mloud\\x1b[0m"},
        {"tab\tbell\x07 del\x7f", "tab bell\\x07 del\\x7f"},
        {"\xc2\x9b"
         "5n",
         "\\u{9b}5n"},
        {"\xe2\x80\xaegnp.exe", "\\u{202e}gnp.exe"},
        {"zero\xe2\x80\x8bwidth\xe2\x80\xa8line", "zero\\u{200b}width\\u{2028}line"},
        {"\xff\xfe no text \xc3", "\\xff\\xfe no text \\xc3"},
        {"", ""},
    };
    for (const auto& row : rows) {
        CHECK(harmless(row.text, false) == row.shown);
        CHECK(harmless(row.shown, false) == row.shown);
    }
}

TEST_CASE("with color the inks of the program pass, and no others") {
    CHECK(harmless("\x1b[1;31merror\x1b[0m \x1b[36mat\x1b[0m", true) ==
          "\x1b[1;31merror\x1b[0m \x1b[36mat\x1b[0m");
    CHECK(harmless("\x1b[8mhidden\x1b[0m", true) == "\\x1b[8mhidden\x1b[0m");
    CHECK(harmless("\x1b[1;31;5mx\x1b[H", true) == "\\x1b[1;31;5mx\\x1b[H");
    CHECK(harmless("\x1b", true) == "\\x1b");
}

TEST_CASE("a pipe that does not wait gets everything all the same") {
    int ends[2] = {};
    REQUIRE(::pipe2(ends, O_CLOEXEC) == 0);
    ::fcntl(ends[1], F_SETFL, O_NONBLOCK);
    const std::string text(1U << 20U, 'x');
    std::size_t got = 0;
    std::thread reader([&] {
        char buffer[4096];
        for (ssize_t some = 0; (some = ::read(ends[0], buffer, sizeof buffer)) > 0;)
            got += static_cast<std::size_t>(some);
    });
    CHECK(write_all(ends[1], text).empty());
    ::close(ends[1]);
    reader.join();
    ::close(ends[0]);
    CHECK(got == text.size());
    CHECK(write_all(ends[1], text) == "Bad file descriptor");
}

TEST_CASE("a passing line is said over the one before it, a little further in and harmless") {
    const acre::tests::ScratchFolder folder;
    const std::string path = folder.write("err", "");
    const int before = ::dup(STDERR_FILENO);
    const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    REQUIRE(::dup2(file, STDERR_FILENO) == STDERR_FILENO);
    say_over("watching a.job\x1b[2J");
    say_over("");
    ::dup2(before, STDERR_FILENO);
    ::close(before);
    ::close(file);
    CHECK(acre::tests::file_text(path) == "\r\x1b[K  watching a.job\\x1b[2J\r\x1b[K");
}

} // namespace console_test
