// The program: words in, two texts out, an exit code.
#include <csignal>
#include <string>
#include <vector>

#include <malloc.h>

#include "cli/command.h"
#include "cli/shared/console.h"

int main(int count, char** words) {
    using namespace acre::cli;
    // One heap that grows in large steps and is given back at the end: a price is over before the
    // system could use the memory. What a text of some megabytes comes to goes back at once: the
    // next of its kind may not fit where it was.
    mallopt(M_MMAP_THRESHOLD, 1 << 25);
    mallopt(M_TRIM_THRESHOLD, 1 << 30);
    mallopt(M_TOP_PAD, 1 << 20);
    // A reader that went away and a file that may grow no more are answers of write(), not ends of
    // the program.
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);
    Console console = open_console();
    const int code =
        run(std::vector<std::string>(words + (count > 0 ? 1 : 0), words + count), console);
    return close_console(console, code);
}
