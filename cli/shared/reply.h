// What a command gives back: an answer or the reasons why there is none. A command writes nothing
// itself; what it replies is written in one place, as words or as JSON.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "cli/exit_codes.h"
#include "cli/shared/console.h"
#include "cli/shared/usage.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

// An answer as JSON: made in the files that write it (cli/shared/json/value.h), passed on
// elsewhere.
using Document = std::shared_ptr<const nlohmann::ordered_json>;

// A figure by which one answer is told from the next, when files are watched.
struct Figure {
    std::string name, unit; // safe to show
    double value = 0;
};

struct Reply {
    std::string page;             // the answer in words, or as the text of a file
    Document document;            // the answer as JSON, in the page's place
    std::vector<lang::Said> said; // errors, if there is no answer; warnings
    std::string note;        // what was done beside the answer: to standard error, in words only
    int verdict = exit_done; // the exit code of an answer that is itself a judgement
    std::shared_ptr<const Usage> usage; // of --help: what its page shows
    bool exact = false;                 // `page` is the text of a file: every byte counts

    // For a command that watches: its figures, the most telling first, and the files it was made
    // from, whether an answer came about or not.
    std::vector<Figure> figures;
    std::vector<std::string> files;

    Reply() = default;
    Reply(lang::Said failure) { said.push_back(std::move(failure)); }
    Reply(lang::Diagnostic failure) { fail(std::move(failure)); }

    void fail(lang::Diagnostic failure);
    bool failed() const; // an error was said
};

// How the program ends: without errors by the verdict; 70 after an internal error; 3 when files
// were all that was at fault, 2 when the command line was, otherwise 1.
int exit_code_of(const Reply& reply);

// Adds the reply to what the console will write, and returns the exit code. With `json` there is
// one document on standard output, an answer with its `warnings` or a failure, and nothing else.
int say(Reply reply, bool json, Console& console);

// Says what `work` replies; an exception that comes out of it is an internal error, and all that
// is said.
int say_what(const std::function<Reply()>& work, bool json, Console& console);

// Of what was said of a job that is priced: errors, and the warnings that touch the price or what
// risk makes of it; `check` shows the others too.
lang::Said of_the_price(const lang::Said& said);

} // namespace acre::cli
