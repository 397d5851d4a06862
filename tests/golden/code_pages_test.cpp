// Every code has a page (lang/diag/code_pages), and the examples of the pages are true: what is
// shown as wrong causes that very code, what is shown as right causes nothing.
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <string>
#include <vector>

#include <sys/wait.h>

#include "lang/diag/code_page.h"
#include "tests/support/scratch_folder.h"

namespace code_pages_test {

namespace fs = std::filesystem;
using namespace acre;
using tests::file_text;
using tests::ScratchFolder;

namespace {

constexpr const char* how =
    ": lang/diag/code_pages/README.md says how a page is written and where it goes";

// Codes of the models and jobs that no single small file can cause; their pages use words.
const std::set<std::string> in_words = {"S109", "S118", "S119", "S120", "S122", "N207", "N209",
                                        "N214", "G403", "I605", "I609", "I613", "I620", "L813",
                                        "L814", "L822", "L830", "L834", "L836", "L837", "L838",
                                        "L839", "L840", "L841", "L843", "L844"};

bool needs_files(const std::string& code) {
    return std::string("SNUGEIL").find(code.front()) != std::string::npos &&
           in_words.count(code) == 0;
}

std::vector<lang::Code> codes() {
    std::vector<lang::Code> out;
    for (std::size_t i = 0; i < lang::code_count(); ++i)
        out.push_back(static_cast<lang::Code>(i));
    return out;
}

// What `check --terse` says of an example, in a folder with the models that examples name.
std::string said_of(const lang::PageExample& example, const ScratchFolder& scratch) {
    const std::string name = "example." + example.kind;
    std::ofstream(scratch.path("pages/" + name), std::ios::binary) << example.text;
    const std::string line = "cd '" + scratch.path("pages") +
                             "' && env -i PATH=/usr/bin:/bin LC_ALL=C '" ACREWRIGHT_PROGRAM
                             "' check --terse " +
                             name + " >/dev/null 2>'" + scratch.path("said") + "' </dev/null";
    const int status = std::system(line.c_str());
    CHECK_MESSAGE((WIFEXITED(status) && WEXITSTATUS(status) <= 3), line);
    fs::remove(scratch.path("pages/" + name)); // a season is within reach of the next one
    return file_text(scratch.path("said"));
}

// The codes of terse lines, `FILE:LINE:COLUMN: error: CODE TITLE`.
std::set<std::string> codes_in(const std::string& said) {
    std::set<std::string> out;
    for (const char* word : {"error: ", "warning: "})
        for (std::size_t at = said.find(word); at != std::string::npos;
             at = said.find(word, at + 1)) {
            const std::size_t line = said.rfind('\n', at) + 1;
            if (said.substr(line, at - line).find("error: ") == std::string::npos)
                out.insert(said.substr(at + std::string(word).size(), 4));
        }
    return out;
}

} // namespace

TEST_CASE("every code has a page in the form that its folder asks for") {
    for (const lang::Code code : codes()) {
        const std::string name(lang::name_of(code));
        const auto page = lang::page_of(code);
        CHECK_MESSAGE(page.has_value(), name << " has no page, or one of another form" << how);
        if (!page)
            continue;
        CHECK_MESSAGE(page->wrong.kind == page->right.kind,
                      name << " shows a wrong and a right example of different kinds" << how);
        CHECK_MESSAGE(page->wrong.text != page->right.text, name);
        if (needs_files(name))
            CHECK_MESSAGE(!page->wrong.kind.empty(),
                          name << " needs whole files as examples" << how);
    }
}

TEST_CASE("the wrong example of a page causes its code alone, the right one nothing") {
    const ScratchFolder scratch;
    fs::create_directory(scratch.path("pages"));
    for (const char* folder : {"models", "fields"})
        fs::copy(fs::path(ACREWRIGHT_ROOT) / "tests/golden/errors" / folder,
                 scratch.path("pages/") + folder, fs::copy_options::recursive);
    std::size_t run = 0;
    for (const lang::Code code : codes()) {
        const auto page = lang::page_of(code);
        if (!page || page->wrong.kind.empty())
            continue;
        ++run;
        const std::string name(lang::name_of(code));
        const std::string wrong = said_of(page->wrong, scratch);
        CHECK_MESSAGE(codes_in(wrong) == std::set<std::string>{name},
                      name << ": its wrong example says\n"
                           << wrong);
        const std::string right = said_of(page->right, scratch);
        CHECK_MESSAGE(right.empty(), name << ": its right example says\n" << right);
    }
    CHECK(run >= 70);
}

} // namespace code_pages_test
