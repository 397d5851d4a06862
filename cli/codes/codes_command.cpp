#include "cli/command.h"

#include <cctype>

#include "cli/codes/code_list.h"
#include "cli/exit_codes.h"
#include "cli/shared/arguments.h"
#include "cli/shared/json/diagnostics_json.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/diagnostic.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

int codes_command(Words words, Console& console) {
    std::string wanted;
    bool json = false;
    Arguments line("codes",
                   "The diagnostics of the program, by code. A code keeps its meaning for good.",
                   "acrewright codes U303");
    line.positional("CODE", "one code, or the letter of a kind", wanted, false);
    line.flag("--json", "the list as JSON", json);
    if (const auto code = line.read(words, console))
        return *code;
    for (char& c : wanted)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    char kind = 0;
    std::string text;
    for (const lang::Code code : all_codes) {
        const std::string_view name = lang::name_of(code);
        if (wanted.empty() || name == wanted ||
            (wanted.size() == 1 && name.front() == wanted.front())) {
            if (name.front() != kind) {
                kind = name.front();
                text += (text.empty() ? "" : "\n") +
                        bold(std::string(1, kind) + ": " + std::string(kind_text(code)),
                             console.color_out) +
                        "\n";
            }
            const bool warning = lang::severity_of(code) == lang::Severity::Warning;
            text += "  " + std::string(name) + "  " + std::string(lang::summary_of(code)) +
                    (warning ? " (warning)" : "") + "\n";
        }
    }
    if (text.empty()) {
        console.err += "acrewright: there is no code `" + lang::terminal_text(wanted) +
                       "`; `acrewright codes` lists them\n";
        return exit_usage;
    }
    console.out += json ? codes_json(wanted) : text;
    return exit_done;
}

} // namespace acre::cli
