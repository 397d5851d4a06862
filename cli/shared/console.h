// What a command says. Results gather in `out`, everything else in `err`; main writes both at the
// end, so a command that stops half-way leaves no half a result behind. Only a command that goes on
// and on hands them over as it goes.
//
// This is the only place that writes to standard output and standard error, and what steers a
// terminal does not pass: whoever shows a word of a user makes it safe where it is shown
// (cli/shared/safe_text.h), and what somebody forgot is caught here.
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
    bool exact =
        false;         // `out` is the text of a file: every byte counts, unless a terminal shows it
    bool anew = false; // a terminal is wiped before `out`; handing over unsets it

    // What was done and stays done even if `out` cannot be written: "quote 2027-018 is issued".
    std::string done;

    // Writes what was said so far and empties it; what cannot be written is gone. The system's
    // reason, or empty. Null, as in a test: everything stays here.
    std::string (*hand_over)(Console& console) = nullptr;
};

// A console of the program's own standard output and standard error.
Console open_console();

// Writes the rest. The exit code: `code`, or that of a file that could not be written.
int close_console(Console& console, int code);

// In the place of what it said last, on the terminal of standard error; empty: nothing stands there
// any more.
void say_over(std::string_view text);

// `text` with everything that could steer a terminal made visible. Line ends stay, also CRLF; with
// `color` the program's own inks do.
std::string harmless(std::string_view text, bool color);

// Color goes to a terminal only, and not when NO_COLOR is set to anything or TERM is "dumb" (the
// convention of no-color.org).
bool wants_color(int descriptor);

// Writes everything or returns the system's reason. SIGPIPE must be ignored. Empty: done.
std::string write_all(int descriptor, std::string_view text);

} // namespace acre::cli
