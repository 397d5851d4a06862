#include <array>
#include <exception>
#include <new>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/diag/suggest.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

constexpr std::array table{
    Command{"price", "what a job costs and what to charge for it", price_command},
    Command{"explain", "how a line of a job came about, down to the last given", explain_command},
    Command{"compare", "options or jobs side by side, and where they cost the same",
            compare_command},
    Command{"rate-card", "the season's price list over two or three givens", rate_card_command},
    Command{"sensitivity", "what moves a price or a line: slopes, swings, steps nearby",
            sensitivity_command},
    Command{"break-even", "where a line reaches a value, or two jobs cost the same",
            break_even_command},
    Command{"grid", "lines over one, two or three givens: table, CSV, picture", grid_command},
    Command{"risk", "the spread of price and profit, the chance of a loss, and what makes them",
            risk_command},
    Command{"season", "all jobs of a folder against the machines", season_command},
    Command{"field", "a boundary file laid out: acres, pulls, turns, travel, time", field_command},
    Command{"quote", "the next number of the quote book, a sealed record, the grower's page",
            quote_command},
    Command{"mark", "what became of a quote", mark_command},
    Command{"verify", "proves a quote book: seals, chain, and every price worked out again",
            verify_command},
    Command{"book", "the quotes of a book, what became of them, and which would lose money today",
            book_command},
    Command{"bridge", "why one price is not the other, change by change", bridge_command},
    Command{"variance", "what a job cost against its quote, and what it teaches", variance_command},
    Command{"check", "what is wrong or doubtful in models, seasons and jobs", check_command},
    Command{"tidy", "the canonical layout of a file", tidy_command},
    Command{"library", "the formulas that come with the program, with their sources",
            library_command},
    Command{"codes", "explains the codes of errors and warnings", codes_command},
};

std::string overview() {
    std::string text =
        "acrewright prices land preparation by the acre, from models that can be read aloud.\n\n"
        "usage: acrewright COMMAND ...\n\n";
    for (const Command& command : table)
        text += "  " + padded(command.name, 14) + wrap(command.summary, page_width, 16) + "\n";
    return text + "\n`acrewright COMMAND --help` says what a command takes, with an example.\n";
}

// A name of a megabyte in a message helps nobody.
bool is_readable(Words words, Console& console) {
    if (words.size() > max_words) {
        console.err += "acrewright: the command line has " +
                       lang::number_text(static_cast<double>(words.size())) +
                       " words, more than the limit of " + lang::number_text(max_words) + "\n";
        return false;
    }
    for (const std::string& word : words) {
        if (word.size() > max_word_bytes) {
            console.err += "acrewright: a word of the command line has " +
                           lang::number_text(static_cast<double>(word.size())) +
                           " bytes, more than the limit of " + lang::number_text(max_word_bytes) +
                           "\n";
            return false;
        }
    }
    return true;
}

int dispatch(Words words, Console& console) {
    if (!is_readable(words, console))
        return exit_usage;
    if (words.empty()) {
        console.err += overview();
        return exit_usage;
    }
    std::string name = words[0];
    std::vector<std::string> rest(words.begin() + 1, words.end());
    if (name == "--version") {
        console.out += "acrewright " ACREWRIGHT_VERSION "\n";
        return exit_done;
    }
    if (name == "help" && !rest.empty()) {
        name = rest[0];
        rest = {"--help"};
    }
    if (name == "--help" || name == "-h" || name == "help") {
        console.out += overview();
        return exit_done;
    }
    std::vector<std::string_view> names;
    for (const Command& command : table) {
        if (command.name == name)
            return command.run(rest, console);
        names.push_back(command.name);
    }
    console.err += "acrewright: there is no command `" + lang::terminal_text(name) + "`";
    if (const auto near = lang::near_names(name, names, 1); !near.empty())
        console.err.append("; a near one is `").append(near[0]).append("`");
    console.err += "\n`acrewright --help` lists the commands\n";
    return exit_usage;
}

} // namespace

std::span<const Command> commands() {
    return table;
}

int run(Words words, Console& console) {
    std::string what;
    try {
        return dispatch(words, console);
    } catch (const std::bad_alloc&) {
        what = "the memory of this machine does not hold the job";
    } catch (const std::exception& error) {
        what = error.what();
    }
    console.out.clear();
    console.err += "acrewright: a fault of the program itself, not of the model: " +
                   lang::terminal_text(what) +
                   "\nNothing was written. Please report it with the files that led here.\n";
    return exit_bug;
}

} // namespace acre::cli
