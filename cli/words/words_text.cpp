#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "cli/words/words_page.h"

namespace acre::cli {

namespace {

std::string listed(const std::vector<std::string_view>& words) {
    std::string text;
    for (const std::string_view word : words)
        text.append(text.empty() ? "" : " ").append(word);
    return text;
}

std::string indented(std::string_view lines) {
    std::string text;
    while (!lines.empty())
        text.append("    ").append(lang::take_line(lines)) += '\n';
    return text;
}

} // namespace

std::string words_text(const std::vector<lang::WordPage>& pages, bool color) {
    constexpr std::size_t column = 26;
    std::string text = heading("The words of the notation", color) + "\n";
    for (const lang::WordPage& page : pages) {
        const std::string words = "  " + listed(page.words);
        const bool fits = words.size() + 2 <= column;
        text += fits ? padded(words, column)
                     : wrap(words, page_width, 2) + "\n" + std::string(column, ' ');
        text += wrap(page.summary, page_width, column) + "\n";
    }
    return text + "\n`acrewright words WORD` explains one, with an example.\n";
}

std::string word_text(const lang::WordPage& page, bool color) {
    std::string text = heading(listed(page.words) + ": " + page.summary, color) + "\n";
    for (const std::string& form : page.forms)
        text += "    " + form + "\n";
    if (!page.meaning.empty())
        text += "\n" + wrap(page.meaning, page_width) + "\n";
    return text + "\n" + bold("Example, a ." + page.example.kind + " file:", color) + "\n\n" +
           indented(page.example.text);
}

} // namespace acre::cli
