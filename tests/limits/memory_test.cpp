// A large text of nothing but short formulas: its tree is many times as large as the text, and no
// command may have it twice.
#include <doctest/doctest.h>

#include <string>

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/support/scratch_folder.h"

#ifndef __SANITIZE_ADDRESS__ // which has memory of its own
namespace memory_test {

using namespace acre;

namespace {

// MiB that the program takes for it.
long memory_of(const std::string& command, const std::string& path) {
    const pid_t child = ::fork();
    if (child == 0) {
        const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
        ::dup2(nowhere, STDOUT_FILENO);
        ::dup2(nowhere, STDERR_FILENO);
        ::execl(ACREWRIGHT_PROGRAM, "acrewright", command.c_str(), path.c_str(), nullptr);
        ::_exit(127);
    }
    REQUIRE(child > 0);
    int status = 0;
    rusage used{};
    REQUIRE(::wait4(child, &status, 0, &used) == child);
    REQUIRE(WIFEXITED(status));
    REQUIRE(WEXITSTATUS(status) <= 1); // its warnings are no matter here
    return used.ru_maxrss / 1024;
}

} // namespace

TEST_CASE("two megabytes of short sums take less than 300 MiB") {
    const tests::ScratchFolder folder;
    std::string sum = " : 1 = 1";
    for (int i = 0; i < 900; ++i)
        sum += "+1";
    std::string text = "model \"m\"\n";
    for (int i = 0; i < 1'150; ++i)
        text += "x" + std::to_string(i) + sum + "\n";
    const std::string path = folder.write("sums.rate", text);
    for (const char* command : {"tidy", "check"}) {
        CAPTURE(command);
        const long mib = memory_of(command, path);
        CHECK(mib > 20);
        CHECK(mib < 300);
    }
}

} // namespace memory_test
#endif
