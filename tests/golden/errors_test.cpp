// The smallest text for every code of a diagnostic, and what it must say. tests/golden/errors holds
// CODE.rate, CODE.season or CODE.job, which `acrewright check` reads, or CODE.sh, lines for the
// shell where a file alone does not cause it; and CODE.txt, what is said. A mistake that can be
// made in several ways has more of them: CODE_slug.rate and so on. Everything runs in a copy of the
// folder. ACREWRIGHT_UPDATE=1 writes what came.
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <set>
#include <string>

#include <sys/wait.h>

#include "lang/diag/diagnostic.h"
#include "tests/support/scratch_folder.h"

namespace errors_test {

namespace fs = std::filesystem;
using namespace acre;
using tests::file_text;
using tests::ScratchFolder;

namespace {

const fs::path goldens = fs::path(ACREWRIGHT_ROOT) / "tests/golden/errors";

// An internal error: no text causes it; tests/cli/shared/reply_test.cpp does.
constexpr std::string_view by_itself = "P001";

// The line that causes the diagnostic; empty if there is none.
std::string command_for(const std::string& code) {
    for (const char* ending : {".rate", ".season", ".job", ".firm"})
        if (fs::exists(goldens / (code + ending)))
            return "acrewright check " + code + ending;
    return fs::exists(goldens / (code + ".sh")) ? "sh " + code + ".sh" : "";
}

// Of every code, and of every further way to cause one.
std::set<std::string> names() {
    std::set<std::string> out;
    for (std::size_t i = 0; i < lang::code_count(); ++i)
        if (const std::string_view name = lang::name_of(static_cast<lang::Code>(i));
            name != by_itself)
            out.emplace(name);
    for (const auto& entry : fs::directory_iterator(goldens)) {
        const std::string name = entry.path().stem();
        if (!entry.is_directory() && name.size() > 5 && name[4] == '_' &&
            out.count(name.substr(0, 4)) == 1)
            out.insert(name);
    }
    return out;
}

// How the program ends, by the code (cli/README.md).
int exit_code_of(const std::string& code) {
    const char letter = code[0];
    if (letter == 'F' || code == "R001" || code == "R003") // a book is files
        return 3;
    if (letter == 'C' || letter == 'Q' || code == "R002" || code == "R005")
        return 2;
    return letter == 'L' ? 0 : 1;
}

std::string said_by(const std::string& command, const ScratchFolder& scratch, int& code) {
    const std::string line = "cd '" + scratch.path("errors") + "' && env -i PATH='" +
                             scratch.path("bin") + ":/usr/bin:/bin' LC_ALL=C " + command + " >'" +
                             scratch.path("said") + "' 2>&1 </dev/null";
    const int status = std::system(line.c_str());
    code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
    return file_text(scratch.path("said"));
}

} // namespace

TEST_CASE("every code of a diagnostic has a text that causes it, and says what is kept beside it") {
    const bool update = std::getenv("ACREWRIGHT_UPDATE") != nullptr;
    const char* only = std::getenv("ACREWRIGHT_ONLY");
    const ScratchFolder scratch;
    fs::create_directory(scratch.path("bin"));
    fs::create_symlink(ACREWRIGHT_PROGRAM, scratch.path("bin/acrewright"));
    fs::copy(goldens, scratch.path("errors"),
             fs::copy_options::recursive | fs::copy_options::copy_symlinks);
    for (const std::string& name : names()) {
        if (only != nullptr && name.find(only) == std::string::npos)
            continue;
        CAPTURE(name);
        const std::string command = command_for(name);
        CHECK_MESSAGE(!command.empty(), "no text in tests/golden/errors causes " << name);
        if (command.empty())
            continue;
        int code = 0;
        const std::string said = said_by(command, scratch, code);
        CHECK_MESSAGE(said.find((name[0] == 'L' ? "warning " : "error ") + name.substr(0, 4) +
                                ":") != std::string::npos,
                      said);
        CHECK(code == exit_code_of(name.substr(0, 4)));
        const fs::path kept = goldens / (name + ".txt");
        if (update)
            std::ofstream(kept, std::ios::binary) << said;
        else
            CHECK_MESSAGE(said == (fs::exists(kept) ? file_text(kept) : ""), "it says\n" << said);
    }
}

TEST_CASE("nothing in the folder of errors is left over") {
    for (const auto& entry : fs::directory_iterator(goldens)) {
        if (entry.is_directory())
            continue;
        const std::string name = entry.path().stem();
        CHECK_MESSAGE(!command_for(name).empty(), entry.path());
        CHECK_MESSAGE(fs::exists(goldens / (name + ".txt")), entry.path());
    }
}

} // namespace errors_test
