// Every word of the notation and every function has a page (lang/syntax/word_pages), and the
// examples of the pages are files in which `check` finds nothing.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "lang/syntax/word_page.h"
#include "tests/support/scratch_folder.h"

namespace word_pages_test {

namespace fs = std::filesystem;
using namespace acre;
using tests::file_text;
using tests::ScratchFolder;

namespace {

// Heads of pages in the files themselves: what the reader leaves out is found too.
std::size_t heads() {
    std::size_t count = 0;
    for (const std::string_view text : lang::word_page_texts())
        for (std::size_t at = text.find("# "); at != std::string_view::npos;
             at = text.find("\n# ", at + 1))
            ++count;
    return count;
}

} // namespace

TEST_CASE("every word and every function has a page, in the form that its folder asks for") {
    const auto pages = lang::word_pages();
    CHECK(pages.size() == heads());
    const auto words = lang::explained_words();
    for (const std::string_view word : words)
        CHECK_MESSAGE(!lang::pages_of_word(word).empty(), std::string(word) << " has no page");
    for (const lang::WordPage& page : pages) {
        CHECK(!page.summary.empty());
        for (const std::string& form : page.forms)
            CHECK_MESSAGE(form.size() <= 76, form);
        for (const std::string_view word : page.words)
            CHECK_MESSAGE(std::find(words.begin(), words.end(), word) != words.end(),
                          std::string(word) << " is no word of the notation");
    }
}

TEST_CASE("a page fits a screen, and uses the words that it explains") {
    for (const lang::WordPage& page : lang::word_pages()) {
        const auto lines = std::count(page.example.text.begin(), page.example.text.end(), '\n');
        CHECK(lines + static_cast<long>(page.forms.size()) <= 20);
        std::string shown = page.example.text;
        for (const std::string& form : page.forms)
            shown += form + "\n";
        shown += page.meaning;
        for (const std::string_view word : page.words)
            CHECK_MESSAGE(shown.find(word) != std::string::npos, std::string(word));
    }
}

TEST_CASE("nothing is found in the example of a page") {
    const ScratchFolder scratch;
    fs::create_directory(scratch.path("pages"));
    for (const char* folder : {"models", "fields"})
        fs::copy(fs::path(ACREWRIGHT_ROOT) / "tests/golden/errors" / folder,
                 scratch.path("pages/") + folder, fs::copy_options::recursive);
    for (const lang::WordPage& page : lang::word_pages()) {
        const std::string name = "example." + page.example.kind;
        std::ofstream(scratch.path("pages/" + name), std::ios::binary) << page.example.text;
        const std::string line = "cd '" + scratch.path("pages") +
                                 "' && env -i PATH=/usr/bin:/bin LC_ALL=C '" ACREWRIGHT_PROGRAM
                                 "' check --terse " +
                                 name + " >/dev/null 2>'" + scratch.path("said") + "' </dev/null";
        const int status = std::system(line.c_str());
        const std::string said = file_text(scratch.path("said"));
        CHECK_MESSAGE((status == 0 && said.empty()), std::string(page.words[0]) << ":\n" << said);
        fs::remove(scratch.path("pages/" + name));
    }
}

} // namespace word_pages_test
