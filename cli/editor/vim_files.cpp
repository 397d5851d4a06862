#include "cli/editor/vim_files.h"

#include <initializer_list>

#include "lang/syntax/word_page.h"
#include "lang/syntax/words.h"
#include "lang/units/measures.h"

namespace acre::cli {

namespace {

std::string keywords(const char* group, std::initializer_list<lang::WordRole> roles) {
    std::string line = std::string("syntax keyword ") + group;
    for (const std::string_view word : lang::word_spellings) {
        const lang::WordRole role = lang::role_of(lang::keyword_of(word));
        for (const lang::WordRole wanted : roles)
            if (role == wanted && !word.empty())
                line.append(" ").append(word);
    }
    return line + "\n";
}

std::string functions() {
    std::string line = "syntax match acrewrightFunction \"\\<\\%(";
    bool first = true;
    for (const std::string_view word : lang::explained_words())
        if (!lang::form_of_function(word).empty()) {
            line.append(first ? "" : "\\|").append(word);
            first = false;
        }
    return line + "\\)\\ze(\"\n";
}

} // namespace

std::string vim_syntax() {
    using lang::WordRole;
    std::string text =
        "\" Made by `acrewright editor --print syntax`.\n"
        "if exists(\"b:current_syntax\")\n  finish\nendif\n"
        "syntax case match\n"
        "syntax match acrewrightNumber \"\\<\\d[0-9,]*\\%(\\.\\d\\+\\|:\\d\\d\\)\\=\"\n";
    text += keywords("acrewrightStatement", {WordRole::Opener, WordRole::Statement});
    text += keywords("acrewrightWord", {WordRole::Joint, WordRole::Free, WordRole::Inner});
    text += keywords("acrewrightValue", {WordRole::Value});
    text += functions();
    return text + "syntax region acrewrightText start=+\"+ end=+\"+ oneline\n"
                  "syntax match acrewrightComment \"#.*$\"\n"
                  "highlight default link acrewrightNumber Number\n"
                  "highlight default link acrewrightStatement Statement\n"
                  "highlight default link acrewrightWord Keyword\n"
                  "highlight default link acrewrightValue Constant\n"
                  "highlight default link acrewrightFunction Function\n"
                  "highlight default link acrewrightText String\n"
                  "highlight default link acrewrightComment Comment\n"
                  "let b:current_syntax = \"acrewright\"\n";
}

} // namespace acre::cli
