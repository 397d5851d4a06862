// Transcripts of the program. Each folder of tests/golden/cli holds `cmd`, lines for the shell that
// say `acrewright ...`, and what must come of them: `out`, `err` (missing: nothing is said) and
// `code` (missing: 0). With a folder `files` the lines run in a copy of it, otherwise in the root
// of the project; so every path is relative. ACREWRIGHT_UPDATE=1 writes what came.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <sys/wait.h>

#include "tests/support/scratch_folder.h"

namespace cli_test {

namespace fs = std::filesystem;
using acre::tests::file_text;
using acre::tests::ScratchFolder;

namespace {

const fs::path root = ACREWRIGHT_ROOT;

struct Came {
    std::string out, err;
    int code = 0;
};

Came run(const fs::path& golden, const ScratchFolder& scratch) {
    const std::string bin = scratch.path("bin");
    fs::create_directory(bin);
    fs::create_symlink(ACREWRIGHT_PROGRAM, fs::path(bin) / "acrewright");
    fs::path folder = root;
    if (fs::exists(golden / "files")) {
        folder = scratch.path("files");
        fs::copy(golden / "files", folder,
                 fs::copy_options::recursive | fs::copy_options::copy_symlinks);
    }
    // The same on every machine: no color, no language, no variables of whoever runs the tests.
    const std::string line = "cd '" + folder.string() + "' && env -i PATH='" + bin +
                             ":/usr/bin:/bin' LC_ALL=C sh '" + (golden / "cmd").string() + "' >'" +
                             scratch.path("out") + "' 2>'" + scratch.path("err") + "' </dev/null";
    const int status = std::system(line.c_str());
    return {file_text(scratch.path("out")), file_text(scratch.path("err")),
            WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status)};
}

void settle(const fs::path& path, const std::string& came, const std::string& nothing) {
    static const bool update = std::getenv("ACREWRIGHT_UPDATE") != nullptr;
    if (!update) {
        CHECK_MESSAGE(came == (fs::exists(path) ? file_text(path) : nothing),
                      path << " is another; if the new text is right, run again with "
                              "ACREWRIGHT_UPDATE=1\n--- came\n"
                           << came << "--- end");
    } else if (came == nothing) {
        fs::remove(path);
    } else {
        std::ofstream(path, std::ios::binary) << came;
    }
}

} // namespace

TEST_CASE("the program says what its transcripts say") {
    const char* only = std::getenv("ACREWRIGHT_ONLY"); // part of a name, while one is at work on it
    std::vector<fs::path> goldens;
    for (const auto& entry : fs::directory_iterator(root / "tests/golden/cli"))
        goldens.push_back(entry.path());
    std::sort(goldens.begin(), goldens.end());
    REQUIRE(!goldens.empty());
    for (const fs::path& golden : goldens) {
        if (only != nullptr && golden.filename().string().find(only) == std::string::npos)
            continue;
        CAPTURE(golden.filename().string());
        for (const auto& entry : fs::directory_iterator(golden)) {
            const std::string name = entry.path().filename();
            const bool known = name == "cmd" || name == "out" || name == "err" || name == "code" ||
                               name == "files";
            CHECK_MESSAGE(known, entry.path() << " belongs to no transcript");
        }
        const ScratchFolder scratch;
        const Came came = run(golden, scratch);
        settle(golden / "out", came.out, "");
        settle(golden / "err", came.err, "");
        settle(golden / "code", std::to_string(came.code) + "\n", "0\n");
    }
}

} // namespace cli_test
