#include "cli/shared/console.h"

#include <doctest/doctest.h>

#include <csignal>
#include <cstdlib>
#include <string>
#include <thread>
#include <utility>

#include <fcntl.h>
#include <unistd.h>

#include "cli/exit_codes.h"
#include "tests/support/scratch_folder.h"

namespace console_test {

using namespace acre::cli;
using acre::tests::file_text;

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
    CHECK(write_all(ends[1], "").empty());
    const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    CHECK(write_all(nowhere, "x").empty());
    ::close(nowhere);
}

namespace {

// Standard output and error go to files while it lives.
class Caught {
  public:
    explicit Caught(const std::string& out = {}, const std::string& err = {})
        : out_(::dup(STDOUT_FILENO)),
          err_(::dup(STDERR_FILENO)) {
        folder_.write("out", "");
        folder_.write("err", "");
        put(out.empty() ? folder_.path("out") : out, STDOUT_FILENO);
        put(err.empty() ? folder_.path("err") : err, STDERR_FILENO);
    }
    ~Caught() { end(); }
    Caught(const Caught&) = delete;
    Caught& operator=(const Caught&) = delete;

    std::string out() { return file_text(end().path("out")); }
    std::string err() { return file_text(end().path("err")); }

  private:
    acre::tests::ScratchFolder folder_;
    int out_, err_;
    bool ended_ = false;

    static void put(const std::string& path, int descriptor) {
        const int file = ::open(path.c_str(), O_WRONLY | O_APPEND | O_NOCTTY | O_CLOEXEC);
        REQUIRE(::dup2(file, descriptor) == descriptor);
        ::close(file);
    }
    const acre::tests::ScratchFolder& end() {
        if (!ended_)
            for (const auto& [from, to] : {std::pair(out_, STDOUT_FILENO), {err_, STDERR_FILENO}}) {
                ::dup2(from, to);
                ::close(from);
            }
        ended_ = true;
        return folder_;
    }
};

} // namespace

TEST_CASE("a passing line is said over the one before it, a little further in and harmless") {
    Caught caught;
    say_over("watching a.job\x1b[2J");
    say_over("");
    CHECK(caught.err() == "\r\x1b[K  watching a.job\\x1b[2J\r\x1b[K");
}

TEST_CASE(
    "what is handed over is gone from the console, and wipes a terminal only, only when anew") {
    Caught caught;
    Console console = open_console();
    CHECK(!console.terminal_out);
    CHECK(!console.color_out);
    REQUIRE((console.hand_over != nullptr));
    const auto hand_over = [&](const char* out, const char* err, bool anew, bool terminal) {
        console.out = out;
        console.err = err;
        console.anew = anew;
        console.terminal_out = terminal;
        CHECK(console.hand_over(console).empty());
        CHECK(console.out.empty());
        CHECK(console.err.empty());
        CHECK(!console.anew);
    };
    hand_over("one\x1b\n", "a\x1b\n", true, false);
    console.exact = true;
    hand_over("two\x1b\n", "", false, false); // as it is, into a file
    hand_over("three\x1b\n", "", false, true);
    hand_over("four\n", "b\n", true, true);
    console.exact = false;
    console.color_out = true;
    hand_over("\x1b[1mfive\x1b[0m\n", "\x1b[1mc\x1b[0m\n", false, false);
    CHECK(caught.out() == "one\\x1b\ntwo\x1b\nthree\\x1b\n\x1b[H\x1b[2Jfour\n\x1b[1mfive\x1b[0m\n");
    CHECK(caught.err() == "a\\x1b\nb\n\\x1b[1mc\\x1b[0m\n");
}

TEST_CASE("a result that cannot be written is a fault of the file, and says what is done anyway") {
    const struct {
        const char *to, *out, *done, *err;
        int code;
    } rows[] = {
        {"", "page\n", "", "said\n", 5},
        {"/dev/full", "", "", "said\n", 5},
        {"/dev/full", "page\n", "",
         "said\nacrewright: the result could not be written: No space left on device\n", exit_file},
        {"/dev/full", "page\n", "quote 2027-001 is issued",
         "said\nacrewright: the result could not be written: No space left on device; quote "
         "2027-001 is issued anyway\n",
         exit_file}};
    for (const auto& row : rows) {
        Caught caught(row.to);
        Console console = open_console();
        console.out = row.out;
        console.err = "said\n";
        console.done = row.done;
        const int code = close_console(console, 5);
        const std::string err = caught.err();
        CHECK(code == row.code);
        CHECK(err == row.err);
        CHECK(caught.out() == (*row.to == '\0' ? row.out : ""));
    }
}

TEST_CASE("color is for a terminal that can show it, where nobody asked for none") {
    const std::string term = std::getenv("TERM") == nullptr ? "" : std::getenv("TERM");
    const std::string no_color = std::getenv("NO_COLOR") == nullptr ? "" : std::getenv("NO_COLOR");
    const int terminal = ::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
    REQUIRE(terminal >= 0);
    const int file = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    const struct {
        const char *term, *no_color;
        bool color;
    } rows[] = {{"xterm", nullptr, true}, {"xterm", "", true},      {"", nullptr, true},
                {"xterm", "1", false},    {"dumb", nullptr, false}, {nullptr, nullptr, false}};
    const auto set = [](const char* name, const char* value) {
        return value == nullptr ? ::unsetenv(name) : ::setenv(name, value, 1);
    };
    for (const auto& row : rows) {
        set("TERM", row.term);
        set("NO_COLOR", row.no_color);
        CHECK(wants_color(terminal) == row.color);
        CHECK(!wants_color(file));
    }
    set("TERM", "xterm");
    set("NO_COLOR", nullptr);
    REQUIRE(::grantpt(terminal) == 0);
    REQUIRE(::unlockpt(terminal) == 0);
    const std::string path = ::ptsname(terminal);
    for (const auto& [out, err] : {std::pair(true, false), {false, true}, {true, true}}) {
        Caught caught(out ? path : "", err ? path : "");
        const Console console = open_console();
        caught.out(); // ends it, so that a fault is seen
        CHECK(console.terminal_out == out);
        CHECK(console.color_out == out);
        CHECK(console.terminal_err == err);
        CHECK(console.color_err == err);
    }
    set("TERM", term.empty() ? nullptr : term.c_str());
    set("NO_COLOR", no_color.empty() ? nullptr : no_color.c_str());
    ::close(terminal);
    ::close(file);
}

} // namespace console_test
