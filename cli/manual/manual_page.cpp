#include "cli/manual/manual_page.h"

#include <algorithm>

#include "lang/syntax/word_page.h"

namespace acre::cli {

namespace {

struct FilePage {
    std::string_view kind, summary, about;
};
constexpr FilePage file_pages[] = {
    {"rate", "a model of what work costs, or a library of formulas",
     "A text file that says how a kind of work is priced: givens with units, lines with formulas, "
     "costs and prices."},
    {"season", "the prices of a season", "A text file that sets what a season's jobs share."},
    {"job", "a job to be priced",
     "A text file that names a model and a season, and sets what is different here."},
};

// A text as roff shows it, whatever is in it.
std::string plain(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size(); ++at) {
        constexpr std::string_view dots = "…"; // roff knows no name for it everywhere
        const char c = text[at];
        if (text.substr(at).starts_with(dots)) {
            out += "...";
            at += dots.size() - 1;
        } else if (c == '\\')
            out += "\\e";
        else if (c == '-')
            out += "\\-";
        else if (c == '\'')
            out += "\\(aq";
        else if (c == '`')
            out += "\\(ga";
        else if (c == '\n')
            out += ' ';
        else
            out += c;
    }
    if (out.starts_with('.'))
        out.insert(0, "\\&");
    return out;
}

std::string head(const std::string& name, const char* section, std::string_view summary) {
    std::string capitals = name;
    std::transform(capitals.begin(), capitals.end(), capitals.begin(), [](char c) {
        return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    });
    std::string said(summary);
    if (!said.empty() && said[0] >= 'A' && said[0] <= 'Z')
        said[0] = static_cast<char>(said[0] - 'A' + 'a');
    return ".TH " + plain(capitals) + " " + section +
           " \"\" \"acrewright " ACREWRIGHT_VERSION "\" \"Acrewright\"\n.SH NAME\n" + plain(name) +
           " \\- " + plain(said) + "\n";
}

// Lines that stay as they are.
std::string verbatim(std::string_view lines) {
    std::string out = ".PP\n.EX\n";
    while (!lines.empty())
        out += plain(lang::take_line(lines)) + "\n";
    return out + ".EE\n";
}

std::string rows(const char* title, const std::vector<UsageRow>& list) {
    std::string out = list.empty() ? "" : std::string(".SH ") + title + "\n";
    for (const UsageRow& row : list)
        out += ".TP\n.B " + plain(row.name) + (row.value.empty() ? "" : " " + plain(row.value)) +
               "\n" + plain(row.help) + "\n";
    return out;
}

std::string command_page(const Command& command) {
    Console unused;
    const std::vector<std::string> help = {"--help"};
    const Reply reply = command.run(help, unused);
    const std::string name = "acrewright-" + std::string(command.name);
    std::string text = head(name, "1", command.summary);
    if (reply.usage == nullptr)
        return text;
    const Usage& usage = *reply.usage;
    text += ".SH SYNOPSIS\n.B " + plain(usage.line) + "\n[OPTIONS]\n.SH DESCRIPTION\n" +
            plain(usage.about) + "\n";
    text += rows("ARGUMENTS", usage.positionals) + rows("OPTIONS", usage.options);
    return text + ".SH EXAMPLES\n" + verbatim(usage.example) + ".SH SEE ALSO\n.BR acrewright (1)\n";
}

std::string program_page() {
    std::string text = head("acrewright", "1", "prices land preparation by the acre") +
                       ".SH SYNOPSIS\n.B acrewright\nCOMMAND ...\n.SH DESCRIPTION\n"
                       "Prices work from models that read like plain words.\n.SH COMMANDS\n";
    std::string_view group;
    for (const Command& command : commands()) {
        if (command.group != group) {
            group = command.group;
            text += ".SS " + plain(group) + "\n";
        }
        text += ".TP\n.BR acrewright\\-" + plain(command.name) + " (1)\n" + plain(command.summary) +
                "\n";
    }
    return text + ".SH EXIT STATUS\n0: done. 1: the model or the job is at fault. 2: the command "
                  "line is. 3: a file could not be read or written. 70: internal error.\n"
                  ".SH SEE ALSO\n.BR acrewright\\-rate (5),\n.BR acrewright\\-season (5),\n"
                  ".BR acrewright\\-job (5)\n";
}

std::string file_page(const FilePage& file) {
    const std::string name = "acrewright-" + std::string(file.kind);
    std::string text =
        head(name, "5", file.summary) + ".SH DESCRIPTION\n" + plain(file.about) + "\n.SH WORDS\n";
    for (const lang::WordPage& page : lang::word_pages()) {
        if (page.example.kind != file.kind)
            continue;
        std::string words;
        for (const std::string_view word : page.words)
            words.append(words.empty() ? "" : " ").append(word);
        std::string forms;
        for (const std::string& form : page.forms)
            forms += form + "\n";
        text += ".SS " + plain(words) + "\n" + plain(page.summary) + ".\n" + verbatim(forms);
        if (!page.meaning.empty())
            text += ".PP\n" + plain(page.meaning) + "\n";
        text += verbatim(page.example.text);
    }
    return text + ".SH SEE ALSO\n.BR acrewright (1)\n";
}

} // namespace

std::vector<std::string> manual_names() {
    std::vector<std::string> names = {"acrewright.1"};
    for (const Command& command : commands())
        names.push_back("acrewright-" + std::string(command.name) + ".1");
    for (const FilePage& file : file_pages)
        names.push_back("acrewright-" + std::string(file.kind) + ".5");
    return names;
}

std::string manual_page(const std::string& name) {
    if (name == "acrewright.1")
        return program_page();
    for (const Command& command : commands())
        if (name == "acrewright-" + std::string(command.name) + ".1")
            return command_page(command);
    for (const FilePage& file : file_pages)
        if (name == "acrewright-" + std::string(file.kind) + ".5")
            return file_page(file);
    return {};
}

} // namespace acre::cli
