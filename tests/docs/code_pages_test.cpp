// The pages of the codes (lang/diag/code_pages) and the table of codes (lang/diag/codes.def) hold
// the same codes, each once.
#include <doctest/doctest.h>

#include <filesystem>
#include <map>
#include <regex>
#include <string>

#include "lang/diag/code_page.h"
#include "tests/support/scratch_folder.h"

namespace code_pages_test {

namespace fs = std::filesystem;
using namespace acre;
using tests::file_text;

namespace {

// How often a code heads a page, `# U302` on a line of its own, and in which file last.
struct Page {
    int count = 0;
    std::string file;
};

std::map<std::string, Page> pages() {
    std::map<std::string, Page> found;
    const std::regex head("(^|\n)# ([^\n]*)");
    for (const auto& entry :
         fs::directory_iterator(fs::path(ACREWRIGHT_ROOT) / "lang/diag/code_pages")) {
        if (entry.path().extension() != ".txt")
            continue;
        const std::string text = file_text(entry.path());
        for (std::sregex_iterator it(text.begin(), text.end(), head), end; it != end; ++it) {
            Page& page = found[(*it)[2]];
            ++page.count;
            page.file = entry.path().filename();
        }
    }
    return found;
}

} // namespace

TEST_CASE("every code of the table has one page, and every page is of a code of the table") {
    std::map<std::string, Page> left = pages();
    CHECK(left.size() > 100);
    for (std::size_t i = 0; i < lang::code_count(); ++i) {
        const std::string name(lang::name_of(static_cast<lang::Code>(i)));
        CHECK_MESSAGE(left[name].count == 1, name << " has " << left[name].count << " pages");
        left.erase(name);
    }
    for (const auto& [name, page] : left)
        CHECK_MESSAGE(false, "`" << name << "` in " << page.file << " is no code of the table");
}

TEST_CASE("a page is in the file of its letter") {
    for (const auto& [name, page] : pages())
        CHECK_MESSAGE(page.file.substr(0, 1) == name.substr(0, 1), name << " is in " << page.file);
}

} // namespace code_pages_test
