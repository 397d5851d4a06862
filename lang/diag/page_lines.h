// Pages that are compiled into the program as text: what they are made of, and taking one apart
// line by line.
#pragma once

#include <string>
#include <string_view>

namespace acre::lang {

struct PageExample {
    std::string
        kind; // "rate", "season" or "job": a whole file of this kind; empty: words, or a part
    std::string text; // lines, each with its line end
};

// Takes the first line off, without its line end.
std::string_view take_line(std::string_view& text);
void skip_empty_lines(std::string_view& text);
// Lines up to an empty one, as one.
std::string take_paragraph(std::string_view& text);
// The lines that are indented by four spaces, without them, each with its line end.
std::string take_indented(std::string_view& text);
// `Wrong .rate`, and below it the indented lines. False if this is not there.
bool take_example(std::string_view& text, std::string_view word, PageExample& example);

// What stands below the next line `# HEAD`, up to the one after it; `text` goes on behind it.
// False: there is no further page.
bool take_page(std::string_view& text, std::string_view& head, std::string_view& body);

} // namespace acre::lang
