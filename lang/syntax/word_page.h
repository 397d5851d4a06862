// What the words of the notation mean, for people: `acrewright words WORD` shows it. The texts are
// lang/syntax/word_pages/*.txt, compiled into the program; the README there says how one is
// written.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lang/diag/page_lines.h"

namespace acre::lang {

struct WordPage {
    std::vector<std::string_view> words; // that it explains: of words.def, or functions of
                                         // operations.def
    std::string summary;                 // one line
    std::vector<std::string> forms;      // how they are written; of a function its form
    std::string meaning;                 // one paragraph, perhaps none
    PageExample example;
};

// In the order of the files; what is not in the form that the README asks for is left out.
std::vector<WordPage> word_pages();
// The pages that explain a word, of a statement before one of a function.
std::vector<WordPage> pages_of_word(std::string_view word);

// Every word that a page may explain: those of the notation, then its functions.
std::vector<std::string_view> explained_words();
// The call of a function of the notation, "ceil(a, step)"; empty: there is none of that name.
std::string_view form_of_function(std::string_view name);

// Each file of pages as it is.
std::span<const std::string_view> word_page_texts();

} // namespace acre::lang
