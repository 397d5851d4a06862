// What a command says. Results gather in `out`, everything else in `err`; main writes both at the end, so a command that stops
// half-way leaves no half a result behind. Only a command that goes on and on hands them over as it goes.
#pragma once

#include <string>
#include <string_view>

namespace acre::cli {

struct Console {
    std::string out;
    std::string err;
    bool color_out = false;
    bool color_err = false;
    bool terminal_out = false; // a person watches; else another program reads, or a file keeps
    bool terminal_err = false;

    // What was done and stays done even if `out` cannot be written: "quote 2027-018 is issued".
    std::string done;

    // Writes what was said so far and empties it; what cannot be written is gone. The system's reason, or empty. Null, as in a
    // test: everything stays here.
    std::string (*hand_over)(Console& console) = nullptr;
};

// Color goes to a terminal only, and not when NO_COLOR is set to anything or TERM is "dumb" (the convention of no-color.org).
bool wants_color(int descriptor);

// Writes everything or returns the system's reason. SIGPIPE must be ignored. Empty: done.
std::string write_all(int descriptor, std::string_view text);

} // namespace acre::cli
