#include "cli/shared/watch.h"

#include <algorithm>
#include <cmath>
#include <csignal>
#include <ctime>

#include <sys/stat.h>

#include "cli/exit_codes.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::atomic<bool> stop_asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler sets it");

void on_signal(int) {
    stop_asked.store(true);
}

void listen() {
    struct sigaction action = {};
    action.sa_handler = on_signal; // no SA_RESTART: waiting ends at once
    ::sigaction(SIGINT, &action, nullptr);
    ::sigaction(SIGTERM, &action, nullptr);
}

// What tells a file from the same file later. Editors write in place or put a new file in the old
// one's place.
struct Stamp {
    bool there = false;
    dev_t device = 0;
    ino_t inode = 0;
    off_t size = 0;
    std::int64_t seconds = 0, nanoseconds = 0;
    friend bool operator==(const Stamp&, const Stamp&) = default;
};

std::vector<Stamp> stamps(const std::vector<std::string>& files) {
    std::vector<Stamp> all;
    for (const std::string& file : files) {
        struct stat about = {};
        Stamp& stamp = all.emplace_back();
        if (::stat(file.c_str(), &about) == 0)
            stamp = {true,          about.st_dev,         about.st_ino,
                     about.st_size, about.st_mtim.tv_sec, about.st_mtim.tv_nsec};
    }
    return all;
}

void sleep_for(long milliseconds) {
    const struct timespec time = {0, milliseconds * 1'000'000};
    ::nanosleep(&time, nullptr);
}

// Looks five times a second; then until nothing has moved between two looks, so that a text half
// written is not read.
bool wait_for_change(const std::vector<std::string>& files, std::vector<Stamp>& known) {
    while (!stop_asked.load() && stamps(files) == known)
        sleep_for(200);
    for (known = stamps(files); !stop_asked.load();) {
        sleep_for(60);
        std::vector<Stamp> now = stamps(files);
        if (now == known)
            return true;
        known = std::move(now);
    }
    return false;
}

std::string value_of(const Figure& figure, double value) {
    return std::isfinite(value) ? lang::terminal_text(lang::quantity_text(value, figure.unit))
                                : "no answer";
}

struct Change {
    const Figure* figure = nullptr;
    std::string text; // "(+$50.00)", "(new)"
};

std::vector<Change> changes(const std::vector<Figure>& before, const std::vector<Figure>& after) {
    std::vector<Change> all;
    for (const Figure& figure : after) {
        const auto last = std::find_if(before.begin(), before.end(), [&](const Figure& other) {
            return other.name == figure.name;
        });
        if (last == before.end() || last->unit != figure.unit)
            all.push_back({&figure, "(new)"});
        else if (last->value != figure.value &&
                 !(std::isnan(last->value) && std::isnan(figure.value)))
            all.push_back(
                {&figure, std::isfinite(last->value) && std::isfinite(figure.value)
                              ? "(" + shown_change(figure.value - last->value, figure.unit) + ")"
                              : "(was " + value_of(figure, last->value) + ")"});
    }
    return all;
}

// Below the page on a terminal: a line for each figure.
std::string changes_block(const std::vector<Figure>& before, const std::vector<Figure>& after,
                          bool color) {
    constexpr std::size_t most = 12;
    const std::vector<Change> all = changes(before, after);
    std::string out = "\n" + bold("Since the last change", color) + "\n";
    if (all.empty())
        return out + "  no figure changed\n";
    Table table({{"", Align::Left, true}, {""}, {"", Align::Left}});
    for (std::size_t i = 0; i < std::min(most, all.size()); ++i)
        table.row(
            {all[i].figure->name, value_of(*all[i].figure, all[i].figure->value), all[i].text});
    out += table.text(color);
    if (all.size() > most)
        out += "  and " + std::to_string(all.size() - most) + " more\n";
    return out;
}

} // namespace

std::string changes_text(const std::vector<Figure>& before, const std::vector<Figure>& after,
                         std::size_t most) {
    const std::vector<Change> all = changes(before, after);
    if (all.empty())
        return "no figure changed";
    std::string out;
    for (std::size_t i = 0; i < std::min(most, all.size()); ++i)
        out += (i == 0 ? "" : ", ") + all[i].figure->name + " " +
               value_of(*all[i].figure, all[i].figure->value) + " " + all[i].text;
    return all.size() > most ? out + ", and " + std::to_string(all.size() - most) + " more" : out;
}

const std::atomic<bool>& interrupted() {
    return stop_asked;
}

Reply watched(bool watch, bool json, Console& console, const std::function<Reply()>& ask) {
    if (!watch)
        return ask();
    listen();
    constexpr std::size_t most_figures = 4; // where every change is told
    std::vector<std::string> files;
    std::vector<Figure> last;
    bool first = true;
    while (true) {
        // Taken before the files are read: a change while they are read is a change.
        std::vector<Stamp> known = stamps(files);
        Reply now = ask();
        const int code = exit_code_of(now);
        if (stop_asked.load())
            return {};
        if (first && code == exit_usage)
            return now; // no file mends a command line
        if (now.files != files) {
            files = now.files;
            known = stamps(files);
        }
        if (code == exit_done && !json) {
            if (console.terminal_out) {
                console.anew = true;
                now.page += (first ? "" : changes_block(last, now.figures, console.color_out)) +
                            "\n  watching " + std::to_string(files.size()) +
                            (files.size() == 1 ? " file" : " files") + "; Ctrl-C ends\n";
            } else if (!first) {
                now.page =
                    wrap(changes_text(last, now.figures, most_figures), page_width, 2) + "\n";
            }
            last = now.figures;
            first = false;
        }
        if (console.hand_over == nullptr)
            return now; // nobody to write to: a test
        say(std::move(now), json, console);
        if (const std::string reason = console.hand_over(console); !reason.empty())
            return lang::placeless(lang::Code::F707, "the result could not be written", {reason});
        if (!wait_for_change(files, known))
            return {};
    }
}

} // namespace acre::cli
