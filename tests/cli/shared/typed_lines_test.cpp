// Lines that come over a pipe, as they come from a person without a terminal.
#include "cli/shared/typed_lines.h"

#include <doctest/doctest.h>

#include <string>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <unistd.h>

namespace typed_lines_test {

using acre::cli::max_typed_bytes;
using acre::cli::TypedLines;

namespace {

struct Typed {
    std::vector<std::string> lines;
    bool person = true, too_long = false;
};

// All lines of what is written into a pipe, in pieces.
Typed typed(const std::vector<std::string>& pieces) {
    int ends[2] = {};
    REQUIRE(::pipe2(ends, O_CLOEXEC) == 0);
    const int before = ::dup(STDIN_FILENO);
    ::dup2(ends[0], STDIN_FILENO);
    ::close(ends[0]);
    std::thread writer([&] {
        for (const std::string& piece : pieces)
            for (std::size_t at = 0; at < piece.size();)
                at += static_cast<std::size_t>(
                    ::write(ends[1], piece.data() + at, piece.size() - at));
        ::close(ends[1]);
    });
    Typed all;
    {
        TypedLines lines;
        all.person = lines.person();
        while (const auto line = lines.next("never shown"))
            all.lines.push_back(*line);
        all.too_long = lines.too_long();
        char rest[4096]; // so that the writer ends
        while (::read(STDIN_FILENO, rest, sizeof rest) > 0) {
        }
    }
    writer.join();
    ::dup2(before, STDIN_FILENO);
    ::close(before);
    return all;
}

} // namespace

TEST_CASE("lines come without their ends, the last one too if it has none") {
    const Typed all = typed({"one\ntwo\r\n\n th", "ree\r\r\n", "four"});
    CHECK(all.lines == std::vector<std::string>{"one", "two", "", " three\r", "four"});
    CHECK(!all.person);
    CHECK(!all.too_long);
    CHECK(typed({}).lines.empty());
    CHECK(typed({"\n"}).lines == std::vector<std::string>{""});
}

TEST_CASE("a line without an end is given up past the limit, and told") {
    const std::string longest(max_typed_bytes, 'a');
    const Typed whole = typed({longest + "\nb\n"});
    CHECK(whole.lines == std::vector<std::string>{longest, "b"});
    CHECK(!whole.too_long);
    const Typed open = typed({longest});
    CHECK(open.lines == std::vector<std::string>{longest});
    CHECK(!open.too_long);
    const Typed over = typed({"a\n" + longest + std::string(8192, 'a')});
    CHECK(over.lines == std::vector<std::string>{"a"});
    CHECK(over.too_long);
}

} // namespace typed_lines_test
