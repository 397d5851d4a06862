#include "cli/command.h"

#include <cctype>

#include "cli/shared/arguments.h"
#include "cli/shared/code_list.h"
#include "cli/shared/json/diagnostics_json.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/code_page.h"
#include "lang/diag/diagnostic.h"

namespace acre::cli {

namespace {

// Every code that is asked for, under the name of its kind.
std::string list_text(std::string_view wanted, bool color) {
    std::string text;
    char kind = 0;
    for (const lang::Code code : all_codes) {
        const std::string_view name = lang::name_of(code);
        if (!is_asked(code, wanted))
            continue;
        if (name.front() != kind) {
            kind = name.front();
            text += (text.empty() ? "" : "\n") +
                    bold(std::string(1, kind) + ": " + std::string(kind_text(code)), color) + "\n";
        }
        const bool warning =
            kind != 'L' && lang::severity_of(code) == lang::Severity::Warning; // L: says so itself
        text += "  " + std::string(name) + "  " + std::string(lang::summary_of(code)) +
                (warning ? " (warning)" : "") + "\n";
    }
    return text;
}

std::string example_text(const char* word, const lang::PageExample& example, bool color) {
    std::string head = word;
    if (!example.kind.empty())
        head += ", in a ." + example.kind + " file";
    std::string text = "\n" + bold(head + ":", color) + "\n\n";
    for (std::size_t at = 0; at < example.text.size();) {
        const std::size_t end = example.text.find('\n', at);
        const std::string line = example.text.substr(at, end - at);
        text += "    " + (example.kind.empty() ? wrap(line, page_width, 4) : line) + "\n";
        at = end + 1;
    }
    return text;
}

// One code, with its page.
std::string page_text(lang::Code code, const lang::CodePage& page, bool color) {
    const bool warning = lang::severity_of(code) == lang::Severity::Warning;
    std::string text = bold(std::string(lang::name_of(code)) + ": " +
                                std::string(lang::summary_of(code)) + (warning ? " (warning)" : ""),
                            color) +
                       "\n\n" + wrap(page.meaning, page_width) + "\n\n" +
                       wrap("Most common cause: " + page.cause, page_width) + "\n";
    return text + example_text("Wrong", page.wrong, color) +
           example_text("Right", page.right, color);
}

} // namespace

Reply codes_command(Words words, Console& console) {
    std::string wanted;
    bool json = false;
    Arguments line(
        "codes",
        "Explains the codes of errors and warnings. Without CODE it lists them all; with "
        "a letter, those of one kind; with a code, it says what the code means and shows "
        "a wrong and a right example. A code never changes its meaning.",
        "acrewright codes U303");
    line.positional("CODE", "a code, such as U303, or a letter, such as U", wanted, false);
    line.flag("--json", "the same as JSON", json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    for (char& c : wanted)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    std::string text = list_text(wanted, console.color_out);
    if (text.empty())
        return lang::placeless(lang::Code::C003, "unknown code `" + wanted + "`", {},
                               {"`acrewright codes` lists them all"});
    for (const lang::Code code : all_codes)
        if (lang::name_of(code) == wanted)
            if (const auto page = lang::page_of(code))
                text = page_text(code, *page, console.color_out);
    Reply reply;
    if (json)
        reply.document = codes_json(wanted);
    else
        reply.page = std::move(text);
    return reply;
}

} // namespace acre::cli
