#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shell/complete.h"
#include "cli/shell/shell_texts.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

Reply shell_command(Words words, Console&) {
    std::string what;
    std::vector<std::string> typed;
    Arguments line("shell",
                   "Prints what completes the program's commands, options, files and names in bash "
                   "or zsh. Add the line that the example shows to ~/.bashrc; for zsh put the text "
                   "into a file _acrewright in a folder of $fpath. With `complete` it lists what "
                   "may stand at the end of the words after `--`.",
                   "acrewright shell bash");
    line.positional("WHAT", "bash, zsh or complete", what);
    line.positionals("WORD", "after `complete --`: the words so far", typed, false);
    if (auto reply = line.read(words))
        return std::move(*reply);
    Reply reply;
    if (what == "complete") {
        for (const std::string& one : completions(typed))
            if (one.find('\n') == std::string::npos)
                reply.page += lang::terminal_text(one) + "\n";
        return reply;
    }
    if (what != "bash" && what != "zsh")
        return lang::placeless(lang::Code::C003,
                               "`shell` takes bash, zsh or complete; not `" + what + "`");
    reply.page = shell_texts()[what == "bash" ? 0 : 1];
    reply.exact = true;
    return reply;
}

} // namespace acre::cli
