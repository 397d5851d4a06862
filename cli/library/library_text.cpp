#include "cli/library/library_text.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"

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

} // namespace

std::string library_text(const engine::LibraryAnswer& answer, bool color) {
    std::string out;
    std::string library;
    for (const engine::Formula& entry : answer.formulas) {
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

std::string formula_text(const engine::Formula& entry, bool color) {
    std::string out = bold(entry.name, color) + ", from \"" + entry.library + "\"\n" +
                      lang::terminal_text(entry.label) + "\n\n";
    std::string_view written = entry.written;
    while (!written.empty()) {
        const auto end = std::min(written.find('\n'), written.size());
        const std::string line = lang::terminal_text(written.substr(0, end));
        const std::size_t blanks = std::min(line.find_first_not_of(' '), line.size());
        out += "  " +
               (lang::text_columns(line) + 2 <= page_width
                    ? line
                    : line.substr(0, blanks) + wrap(line.substr(blanks), page_width,
                                                    std::min<std::size_t>(blanks + 6, 20))) +
               "\n";
        written.remove_prefix(std::min(end + 1, written.size()));
    }
    out += '\n';
    for (const std::string& source : entry.sources)
        put(out, "source", source);
    put(out, "known", entry.known + (entry.native ? "; computed by the program itself" : ""));
    put(out, "tested", joined(entry.tested, ", "));
    put(out, "limits", joined(entry.limits, ", "));
    for (const std::string& note : entry.notes)
        put(out, "note", note);
    for (const engine::WorkedExample& example : entry.examples) {
        put(out, "example",
            example.call + " = " + example.text + "  (the source: " + example.expected + ")");
    }
    return out;
}

} // namespace acre::cli
