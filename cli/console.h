// What a command says. Results gather in `out`, everything else in `err`; main writes both at the end, so a command that stops
// half-way leaves no half a result behind.
#pragma once

#include <string>
#include <string_view>

namespace acre::cli {

struct Console {
    std::string out;
    std::string err;
    bool color_out = false;
    bool color_err = false;
};

// Color goes to a terminal only, and not when NO_COLOR is set to anything or TERM is "dumb" (the convention of no-color.org).
bool wants_color(int descriptor);

// Writes everything or returns the system's reason. SIGPIPE must be ignored. Empty: done.
std::string write_all(int descriptor, std::string_view text);

} // namespace acre::cli
