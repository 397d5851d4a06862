#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/shared/text/wrap.h"
#include "lang/compile.h"
#include "lang/diag/suggest.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

// By who uses what.
constexpr std::string_view starting = "To start";
constexpr std::string_view pricing = "For the estimator: price a job";
constexpr std::string_view what_if = "For the owner: ask what if";
constexpr std::string_view quoting = "For the bookkeeper: quote it and keep the books";
constexpr std::string_view planning = "For the dispatcher: plan the season and the field";
constexpr std::string_view writing = "For whoever writes models";

constexpr std::array command_table{
    Command{starting, "new", "Starts a folder with a first model, season, job and quote",
            new_command},
    Command{starting, "words", "Explains the words of the notation, each with an example",
            words_command},
    Command{starting, "measures", "Lists the units; says a quantity in another unit",
            measures_command},
    Command{starting, "try", "Works out one formula", try_command},
    Command{starting, "shell", "Completes commands, options and names in bash and zsh",
            shell_command},
    Command{starting, "manual", "Prints the manual pages", manual_command},
    Command{pricing, "price", "Shows what a job costs and what to charge for it", price_command},
    Command{pricing, "explain",
            "Explains where a figure comes from; a word, as in standby, finds its line",
            explain_command},
    Command{pricing, "compare", "Puts options or jobs side by side; finds where they cost the same",
            compare_command},
    Command{pricing, "bridge", "Explains why one price differs from another, change by change",
            bridge_command},
    Command{pricing, "workbook",
            "Writes the job as a spreadsheet with live formulas; reads changes back",
            workbook_command},
    Command{what_if, "sensitivity", "Shows what moves a price: swings, slopes, steps nearby",
            sensitivity_command},
    Command{what_if, "break-even",
            "Finds the smallest job worth it, the dearest diesel, or where two jobs cost the same",
            break_even_command},
    Command{what_if, "grid", "Shows figures over one, two or three givens: table, CSV, picture",
            grid_command},
    Command{what_if, "risk", "Shows the spread of price and profit, and the chance of a loss",
            risk_command},
    Command{quoting, "quote", "Issues a quote: number, sealed record, page for the customer",
            quote_command},
    Command{quoting, "page", "Writes jobs and the engine as one file for a phone or a browser",
            page_command},
    Command{quoting, "mark", "Records what happened to a quote", mark_command},
    Command{quoting, "bill", "Makes the bill of accepted work by its quote's own terms",
            bill_command},
    Command{quoting, "key", "Makes the keys that sign a quote book; admits and retires them",
            key_command},
    Command{quoting, "book", "Lists the quotes of a book, and which would lose money today",
            book_command},
    Command{quoting, "verify", "Verifies a quote book: seals, chain, every price", verify_command},
    Command{quoting, "variance",
            "Compares what a job cost with its quote: hours, burn, price, pace", variance_command},
    Command{quoting, "learn", "Learns from finished jobs what a season assumes", learn_command},
    Command{quoting, "outcomes", "Shows whether quoted risks were honest, and what wins",
            outcomes_command},
    Command{planning, "rate-card", "Makes the season's price list over two or three givens",
            rate_card_command},
    Command{planning, "crew", "Makes the crew's page of an accepted quote, with a log sheet",
            crew_command},
    Command{planning, "calendar", "Shows the days of a job: when it has to move, when it is done",
            calendar_command},
    Command{planning, "season", "Puts all jobs of a folder against the machines", season_command},
    Command{planning, "field", "Lays out a field: acres, pulls, turns, travel, time",
            field_command},
    Command{writing, "check", "Shows errors and warnings in models, seasons and jobs",
            check_command},
    Command{writing, "tidy", "Puts a file into the standard layout", tidy_command},
    Command{writing, "editor", "Shows errors and prices in an editor, while you type",
            editor_command},
    Command{writing, "library", "Lists the formulas that come with the program, with their sources",
            library_command},
    Command{writing, "codes", "Explains the codes of errors and warnings", codes_command},
};

std::string overview() {
    std::string text = "acrewright prices land preparation by the acre, from models that read like "
                       "plain\nwords.\n\nusage: acrewright COMMAND ...\n";
    std::string_view group;
    for (const Command& command : command_table) {
        if (command.group != group) {
            group = command.group;
            text.append("\n").append(group).append("\n");
        }
        text += "  " + padded(command.name, 13) + wrap(command.summary, page_width, 15) + "\n";
    }
    return text +
           "\n`acrewright COMMAND --help` shows what a command takes, with an example. The page\n"
           "examples/README.md has the questions of the trade, each with its command.\n";
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
    for (const Command& command : command_table)
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
        return shown("acrewright " ACREWRIGHT_VERSION " (" ACREWRIGHT_BUILD "; notation " +
                     std::to_string(lang::current_notation) + ")\n");
    if (name == "help" && !rest.empty()) {
        name = rest[0];
        rest = {"--help"};
    }
    if (name == "--help" || name == "-h" || name == "help")
        return shown(overview());
    for (const Command& command : command_table)
        if (command.name == name)
            return command.run(rest, console);
    return unknown(name);
}

} // namespace

std::span<const Command> commands() {
    return command_table;
}

int run(Words words, Console& console) {
    const bool json = std::find(words.begin(), words.end(), "--json") != words.end();
    return say_what([&] { return dispatch(words, console); }, json, console);
}

} // namespace acre::cli
