// The program: words in, two texts out, an exit code.
#include <cerrno>
#include <csignal>
#include <cstring>
#include <string>
#include <vector>

#include <malloc.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/console.h"
#include "cli/exit_codes.h"

namespace {

std::string hand_over(acre::cli::Console& console) {
    const std::string reason = acre::cli::write_all(STDOUT_FILENO, console.out);
    acre::cli::write_all(STDERR_FILENO, console.err); // when this fails there is nobody left to tell
    console.out.clear();
    console.err.clear();
    return reason;
}

} // namespace

int main(int count, char** words) {
    using namespace acre::cli;
    // One heap that grows in large steps and is given back at the end: a price is over before the system could use the memory.
    mallopt(M_MMAP_THRESHOLD, 1 << 30);
    mallopt(M_TRIM_THRESHOLD, 1 << 30);
    mallopt(M_TOP_PAD, 1 << 20);
    // A reader that went away and a file that may grow no more are answers of write(), not ends of the program.
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);
    Console console;
    console.color_out = wants_color(STDOUT_FILENO);
    console.color_err = wants_color(STDERR_FILENO);
    console.terminal_out = ::isatty(STDOUT_FILENO) == 1;
    console.terminal_err = ::isatty(STDERR_FILENO) == 1;
    console.hand_over = hand_over;
    int code = run(std::vector<std::string>(words + (count > 0 ? 1 : 0), words + count), console);
    if (!console.out.empty()) {
        std::string reason = write_all(STDOUT_FILENO, console.out);
        if (reason.empty() && ::close(STDOUT_FILENO) != 0 && errno != EINTR) { // an interrupted close has closed
            reason = std::strerror(errno);
        }
        if (!reason.empty()) {
            console.err += "acrewright: the result could not be written: " + reason;
            console.err += console.done.empty() ? "\n" : "; " + console.done + " all the same\n";
            code = exit_file;
        }
    }
    write_all(STDERR_FILENO, console.err);
    return code;
}
