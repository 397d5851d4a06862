// How far long work has come, read at the other end of standard error.
#include "cli/shared/progress.h"

#include <doctest/doctest.h>

#include <string>

#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

namespace progress_test {

using acre::cli::Progress;

TEST_CASE("progress is told to a person while it lasts, and nothing of it stays") {
    int ends[2] = {};
    REQUIRE(::pipe2(ends, O_CLOEXEC) == 0);
    const int before = ::dup(STDERR_FILENO);
    ::dup2(ends[1], STDERR_FILENO);
    ::close(ends[1]);
    std::string told;
    const auto more = [&] {
        struct pollfd ready = {ends[0], POLLIN, 0};
        char buffer[4096];
        const ssize_t got =
            ::poll(&ready, 1, 10'000) == 1 ? ::read(ends[0], buffer, sizeof buffer) : 0;
        told.append(buffer, got > 0 ? static_cast<std::size_t>(got) : 0);
        return got > 0;
    };
    const auto wait_for = [&](const char* words) {
        while (told.find(words) == std::string::npos && more()) {
        }
    };
    std::atomic<std::uint64_t> done = 1'500;
    {
        const Progress nobody_sees(false, "trials", done, 4'000);
        const Progress is_over_soon(true, "trials", done, 4'000);
    }
    {
        const Progress progress(true, "trials", done, 6'000);
        wait_for("\r\x1b[K  25 % of 6,000 trials");
        done = 6'000;
        wait_for("\r\x1b[K  splitting up the spread");
    }
    ::dup2(before, STDERR_FILENO); // the last that holds it open
    ::close(before);
    while (more()) {
    }
    ::close(ends[0]);
    CHECK(told.starts_with("\r\x1b[K  ")); // what is over soon has shown nothing to take away
    CHECK(told.find("\r\x1b[K  25 % of 6,000 trials\r") != std::string::npos);
    CHECK(told.ends_with("\r\x1b[K  splitting up the spread\r\x1b[K"));
}

} // namespace progress_test
