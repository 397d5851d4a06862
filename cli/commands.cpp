#include <algorithm>
#include <array>
#include <exception>
#include <new>
#include <optional>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/diag/suggest.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

// A command that still writes for itself.
template <int (*old)(Words, Console&)> Reply written(Words words, Console& console) {
    Reply reply;
    reply.verdict = old(words, console);
    reply.exact = console.exact;
    return reply;
}

constexpr std::array table{
    Command{"price", "what a job costs and what to charge for it", price_command},
    Command{"explain", "how a line of a job came about, down to the last given",
            written<explain_command>},
    Command{"compare", "options or jobs side by side, and where they cost the same",
            compare_command},
    Command{"rate-card", "the season's price list over two or three givens", rate_card_command},
    Command{"sensitivity", "what moves a price or a line: slopes, swings, steps nearby",
            sensitivity_command},
    Command{"break-even", "where a line reaches a value, or two jobs cost the same",
            break_even_command},
    Command{"grid", "lines over one, two or three givens: table, CSV, picture",
            grid_command},
    Command{"risk", "the spread of price and profit, the chance of a loss, and what makes them",
            risk_command},
    Command{"season", "all jobs of a folder against the machines", season_command},
    Command{"field", "a boundary file laid out: acres, pulls, turns, travel, time", field_command},
    Command{"quote", "the next number of the quote book, a sealed record, the grower's page",
            quote_command},
    Command{"mark", "records what happened to a quote", mark_command},
    Command{"verify", "verifies a quote book: seals, chain, and every price worked out again",
            verify_command},
    Command{"book", "the quotes of a book, what happened to them, and which would lose money today",
            book_command},
    Command{"bridge", "why one price is not the other, change by change", bridge_command},
    Command{"variance", "what a job cost against its quote, and what it tells us",
            variance_command},
    Command{"check", "what is wrong or doubtful in models, seasons and jobs",
            written<check_command>},
    Command{"tidy", "the canonical layout of a file", written<tidy_command>},
    Command{"library", "the formulas that come with the program, with their sources",
            written<library_command>},
    Command{"codes", "explains the codes of errors and warnings", written<codes_command>},
};

std::string overview() {
    std::string text =
        "acrewright prices land preparation by the acre, from models that can be read aloud.\n\n"
        "usage: acrewright COMMAND ...\n\n";
    for (const Command& command : table)
        text += "  " + padded(command.name, 14) + wrap(command.summary, page_width, 16) + "\n";
    return text + "\n`acrewright COMMAND --help` says what a command takes, with an example.\n";
}

// A name of a megabyte in a message helps nobody. Empty: it can be read.
std::optional<lang::Diagnostic> too_long(Words words) {
    if (words.size() > max_words)
        return lang::placeless(
            lang::Code::C005, "the command line has " +
                                  lang::number_text(static_cast<double>(words.size())) +
                                  " words, more than the limit of " + lang::number_text(max_words));
    for (const std::string& word : words)
        if (word.size() > max_word_bytes)
            return lang::placeless(lang::Code::C005,
                                   "a word of the command line has " +
                                       lang::number_text(static_cast<double>(word.size())) +
                                       " bytes, more than the limit of " +
                                       lang::number_text(max_word_bytes));
    return std::nullopt;
}

Reply shown(std::string page) {
    Reply reply;
    reply.page = std::move(page);
    return reply;
}

Reply unknown(const std::string& name) {
    std::vector<std::string_view> names;
    for (const Command& command : table)
        names.push_back(command.name);
    std::string title = "unknown command `" + name + "`";
    if (const auto near = lang::near_names(name, names, 1); !near.empty())
        title.append("; did you mean `").append(near[0]).append("`?");
    return lang::placeless(lang::Code::C001, std::move(title), {},
                           {"`acrewright --help` lists the commands"});
}

Reply dispatch(Words words, Console& console) {
    if (auto fault = too_long(words))
        return std::move(*fault);
    if (words.empty()) {
        Reply reply;
        reply.note = overview();
        reply.verdict = exit_usage;
        return reply;
    }
    std::string name = words[0];
    std::vector<std::string> rest(words.begin() + 1, words.end());
    if (name == "--version")
        return shown("acrewright " ACREWRIGHT_VERSION "\n");
    if (name == "help" && !rest.empty()) {
        name = rest[0];
        rest = {"--help"};
    }
    if (name == "--help" || name == "-h" || name == "help")
        return shown(overview());
    for (const Command& command : table)
        if (command.name == name)
            return command.run(rest, console);
    return unknown(name);
}

} // namespace

std::span<const Command> commands() {
    return table;
}

int run(Words words, Console& console) {
    std::string what;
    try {
        const bool json = std::find(words.begin(), words.end(), "--json") != words.end();
        return say(dispatch(words, console), json, console);
    } catch (const std::bad_alloc&) {
        what = "the memory of this machine does not hold the job";
    } catch (const std::exception& error) {
        what = error.what();
    }
    console.out.clear();
    console.err += "acrewright: internal error: " + lang::terminal_text(what) +
                   "\nNothing was written. Please report it with the files that led here.\n";
    return exit_bug;
}

} // namespace acre::cli
