#include "lang/diag/code_page.h"

#include <algorithm>

namespace acre::lang {
namespace {

constexpr std::string_view margin = "    "; // of the lines of an example
constexpr std::string_view cause_lead = "Cause: ";

// Takes the first line off, without its line end.
std::string_view take_line(std::string_view& text) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    return line;
}

void skip_empty_lines(std::string_view& text) {
    while (text.starts_with('\n'))
        text.remove_prefix(1);
}

std::string take_paragraph(std::string_view& text) {
    skip_empty_lines(text);
    std::string paragraph;
    while (!text.empty() && !text.starts_with('\n')) {
        if (!paragraph.empty())
            paragraph += ' ';
        paragraph += take_line(text);
    }
    return paragraph;
}

// `Wrong .rate`, and below it the indented lines. False if this is not there.
bool take_example(std::string_view& text, std::string_view word, CodeExample& example) {
    skip_empty_lines(text);
    if (!text.starts_with(word))
        return false;
    std::string_view head = take_line(text).substr(word.size());
    if (head.starts_with(" ."))
        example.kind = head.substr(2);
    else if (!head.empty())
        return false;
    while (text.starts_with(margin))
        example.text.append(take_line(text).substr(margin.size())) += '\n';
    return !example.text.empty();
}

std::optional<CodePage> read_page(std::string_view text) {
    CodePage page;
    page.meaning = take_paragraph(text);
    page.cause = take_paragraph(text);
    if (page.meaning.empty() || !page.cause.starts_with(cause_lead))
        return std::nullopt;
    page.cause.erase(0, cause_lead.size());
    if (!take_example(text, "Wrong", page.wrong) || !take_example(text, "Right", page.right))
        return std::nullopt;
    skip_empty_lines(text);
    return text.empty() ? std::optional(std::move(page)) : std::nullopt;
}

} // namespace

std::optional<CodePage> page_of(Code code) {
    const std::string head = "# " + std::string(name_of(code)) + "\n";
    for (const std::string_view text : code_page_texts()) {
        const std::size_t at = text.find(head);
        if (at == std::string_view::npos || (at > 0 && text[at - 1] != '\n'))
            continue;
        const std::size_t begin = at + head.size();
        const std::size_t next = std::min(text.find("\n# ", begin), text.size() - 1);
        return read_page(text.substr(begin, next + 1 - begin));
    }
    return std::nullopt;
}

} // namespace acre::lang
