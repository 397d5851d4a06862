#include "lang/diag/page_lines.h"

#include <algorithm>

namespace acre::lang {
namespace {

constexpr std::string_view margin = "    "; // of the lines of an example

} // namespace

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

std::string take_indented(std::string_view& text) {
    skip_empty_lines(text);
    std::string lines;
    while (text.starts_with(margin))
        lines.append(take_line(text).substr(margin.size())) += '\n';
    return lines;
}

bool take_example(std::string_view& text, std::string_view word, PageExample& example) {
    skip_empty_lines(text);
    if (!text.starts_with(word))
        return false;
    std::string_view head = take_line(text).substr(word.size());
    if (head.starts_with(" ."))
        example.kind = head.substr(2);
    else if (!head.empty())
        return false;
    example.text = take_indented(text);
    return !example.text.empty();
}

bool take_page(std::string_view& text, std::string_view& head, std::string_view& body) {
    constexpr std::string_view mark = "# ";
    while (!text.empty() && !text.starts_with(mark))
        take_line(text);
    if (text.empty())
        return false;
    head = take_line(text).substr(mark.size());
    const std::size_t next = std::min(text.find("\n# "), text.size() - (text.empty() ? 0 : 1));
    body = text.substr(0, text.empty() ? 0 : next + 1);
    text.remove_prefix(body.size());
    return true;
}

} // namespace acre::lang
