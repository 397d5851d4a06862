#include "lang/syntax/tidy.h"

#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/legacy.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

// The text as it is and as it should be. False when the file could not be read or has errors: they
// are reported.
bool tidied(const std::string& path, std::string& before, std::string& after, Console& console,
            int& code) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    lang::FileKind kind = lang::FileKind::Job;
    if (path != "-" && !file_kind(path, kind)) {
        console.err += "acrewright: `" + lang::terminal_text(path) +
                       "` is not a .rate, .season or .job file\n";
        code = exit_usage;
        return false;
    }
    if (!read_named_file(path, before, diagnostics)) {
        code = report(diagnostics, sources, console, Warnings::All);
        return false;
    }
    if (path == "-" && !before.starts_with("job"))
        kind = before.starts_with("season") ? lang::FileKind::Season : lang::FileKind::Model;
    const auto text = lang::tidy(sources, sources.add(path, before), kind, diagnostics);
    code = report(diagnostics, sources, console, Warnings::All);
    if (!text)
        return false;
    after = *text;
    return true;
}

} // namespace

int tidy_command(Words words, Console& console) {
    std::vector<std::string> paths;
    bool check = false;
    bool write = false;
    Arguments line("tidy",
                   "The canonical layout of a file: comments and the order of lines stay, blanks "
                   "and columns are set. The text goes to standard "
                   "output unless --write or --check is given; a file with errors is left alone.",
                   "acrewright tidy models/deep-rip.rate");
    line.positionals("FILE", "a .rate, .season or .job file; - reads standard input", paths);
    line.flag(
        "--check",
        "changes nothing; names the files that are not tidy, and ends with 1 if there are any",
        check);
    line.flag("--write", "puts the text in the place of the file, whole or not at all", write);
    if (const auto code = line.read(words, console))
        return *code;
    if (check && write) {
        console.err +=
            "acrewright: `--check` changes nothing and `--write` does: give one of them\n";
        return exit_usage;
    }
    if (paths.size() > 1 && !check && !write) {
        console.err +=
            "acrewright: standard output takes one file; for several give --check or --write\n";
        return exit_usage;
    }
    int worst = exit_done;
    for (const std::string& path : paths) {
        std::string before;
        std::string after;
        int code = exit_done;
        if (!tidied(path, before, after, console, code)) {
            worst = std::max(worst, code);
        } else if (check) {
            if (before != after) {
                console.out += lang::terminal_text(path) + " is not tidy\n";
                worst = std::max(worst, exit_at_fault);
            }
        } else if (!write || path == "-") {
            console.out += after;
            console.exact = true;
        } else if (before != after) {
            if (save(path, after, console))
                console.err += lang::terminal_text(path) + " written\n";
            else
                worst = exit_file;
        }
    }
    return worst;
}

} // namespace acre::cli
