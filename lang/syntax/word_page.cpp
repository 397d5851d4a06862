#include "lang/syntax/word_page.h"

#include <algorithm>
#include <array>

#include "lang/syntax/words.h"

namespace acre::lang {
namespace {

struct Function {
    std::string_view name, form;
};
constexpr auto functions = std::to_array<Function>({
#define ACRE_PREFIX(...)
#define ACRE_BINARY(...)
#define ACRE_FUNCTION(op, name, least, most, form, ...) {name, form},
#include "lang/syntax/operations.def"
});

std::vector<std::string_view> words_of(std::string_view head) {
    std::vector<std::string_view> words;
    while (!head.empty()) {
        const std::size_t end = std::min(head.find(' '), head.size());
        words.push_back(head.substr(0, end));
        head.remove_prefix(std::min(end + 1, head.size()));
    }
    return words;
}

std::optional<WordPage> read_page(std::string_view head, std::string_view text) {
    WordPage page;
    page.words = words_of(head);
    page.summary = take_line(text);
    std::string forms = take_indented(text);
    for (std::string_view rest = forms; !rest.empty();)
        page.forms.emplace_back(take_line(rest));
    if (page.forms.empty())
        for (const std::string_view word : page.words)
            page.forms.emplace_back(form_of_function(word));
    skip_empty_lines(text);
    if (!text.starts_with("Example"))
        page.meaning = take_paragraph(text);
    if (!take_example(text, "Example", page.example))
        return std::nullopt;
    skip_empty_lines(text);
    return text.empty() ? std::optional(std::move(page)) : std::nullopt;
}

} // namespace

std::vector<WordPage> word_pages() {
    std::vector<WordPage> pages;
    std::string_view head;
    std::string_view body;
    for (std::string_view text : word_page_texts())
        while (take_page(text, head, body))
            if (auto page = read_page(head, body))
                pages.push_back(std::move(*page));
    return pages;
}

std::vector<WordPage> pages_of_word(std::string_view word) {
    std::vector<WordPage> found = word_pages();
    std::erase_if(found, [&](const WordPage& page) {
        return std::find(page.words.begin(), page.words.end(), word) == page.words.end();
    });
    return found;
}

std::vector<std::string_view> explained_words() {
    std::vector<std::string_view> words(word_spellings.begin() + 1, word_spellings.end());
    for (const Function& function : functions)
        if (std::find(words.begin(), words.end(), function.name) == words.end())
            words.push_back(function.name);
    return words;
}

std::string_view form_of_function(std::string_view name) {
    for (const Function& function : functions)
        if (function.name == name)
            return function.form;
    return {};
}

} // namespace acre::lang
