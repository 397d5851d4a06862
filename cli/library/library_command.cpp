#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/library/library_entries.h"
#include "cli/library/library_json.h"
#include "cli/shared/arguments.h"
#include "cli/shared/legacy.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/diag/suggest.h"

namespace acre::cli {

namespace {

std::string joined(const std::vector<std::string>& texts, const char* between) {
    std::string text;
    for (const std::string& one : texts)
        text += (text.empty() ? "" : between) + one;
    return text;
}

void put(std::string& out, const std::string& what, const std::string& text) {
    if (!text.empty())
        out += "    " + padded(what, 9) + wrap(lang::terminal_text(text), page_width, 13) + "\n";
}

std::string list_text(const std::vector<LibraryEntry>& entries, bool color) {
    std::string out;
    std::string library;
    for (const LibraryEntry& entry : entries) {
        if (entry.library != library) {
            library = entry.library;
            out += (out.empty() ? "" : "\n") + bold(library, color) + "\n";
        }
        out += "\n  " + wrap(lang::terminal_text(entry.signature), page_width, 6) + "\n";
        put(out, "", entry.label);
        put(out, "source", joined(entry.sources, "; "));
        put(out, "known", entry.known);
        put(out, "tested", joined(entry.tested, ", "));
    }
    return out;
}

std::string one_text(const LibraryEntry& entry, bool color) {
    std::string out = bold(entry.name, color) + ", from \"" + entry.library + "\"\n" +
                      lang::terminal_text(entry.label) + "\n\n";
    std::string_view written = entry.written;
    while (!written.empty()) {
        const auto end = std::min(written.find('\n'), written.size());
        out += "  " + lang::terminal_text(written.substr(0, end)) + "\n";
        written.remove_prefix(std::min(end + 1, written.size()));
    }
    out += '\n';
    for (const std::string& source : entry.sources)
        put(out, "source", source);
    put(out, "known",
        entry.known + (entry.native ? "; computed by the program behind this signature" : ""));
    put(out, "tested", joined(entry.tested, ", "));
    put(out, "limits", joined(entry.limits, ", "));
    for (const std::string& note : entry.notes)
        put(out, "note", note);
    for (const WorkedExample& example : entry.examples) {
        put(out, "example",
            example.call + " = " + example.text + "  (the source: " + example.expected + ")");
    }
    return out;
}

int no_such_formula(const std::string& name, Console& console) {
    lang::Diagnostics ignored;
    const auto entries = library_entries("", ignored);
    std::vector<std::string_view> names;
    for (const LibraryEntry& entry : entries)
        names.push_back(entry.name);
    console.err += "acrewright: the library has no formula `" + lang::terminal_text(name) + "`";
    if (const auto near = lang::near_names(name, names, 1); !near.empty())
        console.err.append("; a near one is `").append(near[0]).append("`");
    console.err += "\n`acrewright library` lists them\n";
    return exit_usage;
}

} // namespace

int library_command(Words words, Console& console) {
    std::string name;
    bool json = false;
    Arguments line("library",
                   "The formulas that come with the program: signature in units, source, how sure "
                   "it is, tested range. With NAME the formula "
                   "itself and its worked example, evaluated now.",
                   "acrewright library field_capacity");
    line.positional("NAME", "one formula", name, false);
    line.flag("--json", "the list as JSON", json);
    if (const auto code = line.read(words, console))
        return *code;
    lang::Diagnostics diagnostics;
    const auto entries = library_entries(name, diagnostics);
    if (diagnostics.has_errors())
        return report(diagnostics, {}, console);
    if (entries.empty() && !name.empty())
        return no_such_formula(name, console);
    console.out += json           ? library_json(entries)
                   : name.empty() ? list_text(entries, console.color_out)
                                  : one_text(entries[0], console.color_out);
    return exit_done;
}

} // namespace acre::cli
