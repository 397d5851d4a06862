#include "cli/shared/console.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>

#include <poll.h>
#include <unistd.h>

#include "cli/exit_codes.h"
#include "lang/diag/safe_text.h"
#include "lang/source/utf8.h"

namespace acre::cli {

namespace {

// How many bytes of an ink of ours `text` begins with: those of cli/shared/text/style.h and
// lang/diag/render.cpp.
std::size_t ink_length(std::string_view text) {
    constexpr std::array<std::string_view, 9> inks = {"\x1b[0m",  "\x1b[1m",    "\x1b[2m",
                                                      "\x1b[33m", "\x1b[1;31m", "\x1b[1;33m",
                                                      "\x1b[36m", "\x1b[4m",    "\x1b[1;32m"};
    for (const std::string_view ink : inks)
        if (text.starts_with(ink))
            return ink.size();
    return 0;
}

bool is_plain(char c) {
    return (c >= 0x20 && c < 0x7F) || c == '\n'; // what is beyond ASCII is below zero
}

std::string write_out(const Console& console) {
    constexpr std::string_view wipe = "\x1b[H\x1b[2J";
    std::string reason = console.anew && console.terminal_out ? write_all(STDOUT_FILENO, wipe) : "";
    if (!reason.empty())
        return reason;
    return write_all(STDOUT_FILENO, console.exact && !console.terminal_out
                                        ? console.out
                                        : harmless(console.out, console.color_out));
}

// When this fails there is nobody left to tell.
void write_err(const Console& console) {
    write_all(STDERR_FILENO, harmless(console.err, console.color_err));
}

std::string hand_over(Console& console) {
    std::string reason = write_out(console);
    write_err(console);
    console.out.clear();
    console.err.clear();
    console.anew = false;
    return reason;
}

} // namespace

Console open_console() {
    Console console;
    console.color_out = wants_color(STDOUT_FILENO);
    console.color_err = wants_color(STDERR_FILENO);
    console.terminal_out = ::isatty(STDOUT_FILENO) == 1;
    console.terminal_err = ::isatty(STDERR_FILENO) == 1;
    console.hand_over = hand_over;
    return console;
}

int close_console(Console& console, int code) {
    if (!console.out.empty()) {
        std::string reason = write_out(console);
        if (reason.empty() && ::close(STDOUT_FILENO) != 0 &&
            errno != EINTR) // an interrupted close has closed
            reason = std::strerror(errno);
        if (!reason.empty()) {
            console.err += "acrewright: the result could not be written: " + reason;
            console.err += console.done.empty() ? "\n" : "; " + console.done + " anyway\n";
            code = exit_file;
        }
    }
    write_err(console);
    return code;
}

void say_over(std::string_view text) {
    write_all(STDERR_FILENO, "\r\x1b[K" + (text.empty() ? "" : "  " + harmless(text, false)));
}

std::string harmless(std::string_view text, bool color) {
    const auto first = std::find_if_not(text.begin(), text.end(), is_plain);
    std::string safe(text.begin(), first);
    safe.reserve(text.size());
    for (auto at = static_cast<std::size_t>(first - text.begin()); at < text.size();) {
        const std::string_view rest = text.substr(at);
        std::size_t length = is_plain(rest[0])          ? 1
                             : rest.starts_with("\r\n") ? 2
                             : color                    ? ink_length(rest)
                                                        : 0;
        if (length > 0) {
            safe.append(rest.substr(0, length));
        } else {
            lang::next_character(rest, length);
            safe += lang::terminal_text(rest.substr(0, length));
        }
        at += length;
    }
    return safe;
}

bool wants_color(int descriptor) {
    const char* no_color = std::getenv("NO_COLOR");
    const char* terminal = std::getenv("TERM");
    const bool plain = (no_color != nullptr && *no_color != '\0') || terminal == nullptr ||
                       std::string_view(terminal) == "dumb";
    return !plain && ::isatty(descriptor) == 1;
}

std::string write_all(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const auto written = ::write(descriptor, text.data(), text.size());
        if (written < 0) {
            if (errno == EINTR)
                continue;
            // A pipe that somebody else made not to wait: wait here.
            struct pollfd ready = {descriptor, POLLOUT, 0};
            if (errno == EAGAIN && (::poll(&ready, 1, -1) > 0 || errno == EINTR))
                continue;
            return std::strerror(errno);
        }
        if (written == 0)
            return "nothing could be written";
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return {};
}

} // namespace acre::cli
