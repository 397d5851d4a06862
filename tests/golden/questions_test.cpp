// The questions of examples/README.md: each command runs, and says the figures that the table marks
// as its answer.
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <sys/wait.h>

#include "tests/support/scratch_folder.h"

namespace questions_test {

namespace fs = std::filesystem;

namespace {

// The cells of a row of a table; a bar never stands inside one.
std::vector<std::string> cells_of(const std::string& row) {
    std::vector<std::string> cells;
    for (std::size_t at = 1; at < row.size();) {
        const std::size_t end = std::min(row.find('|', at), row.size());
        cells.push_back(row.substr(at, end - at));
        at = end + 1;
    }
    return cells;
}

// What stands between backquotes.
std::vector<std::string> marked(const std::string& cell) {
    std::vector<std::string> out;
    for (std::size_t at = cell.find('`'); at != std::string::npos; at = cell.find('`', at + 1)) {
        const std::size_t end = cell.find('`', at + 1);
        if (end == std::string::npos)
            break;
        out.push_back(cell.substr(at + 1, end - at - 1));
        at = end;
    }
    return out;
}

std::string run(const acre::tests::ScratchFolder& scratch, std::string command, int& code) {
    const std::string program = "acrewright";
    REQUIRE(command.compare(0, program.size(), program) == 0);
    command.replace(0, program.size(), ACREWRIGHT_PROGRAM);
    const std::string said = scratch.path("said");
    const int status = std::system((command + " >'" + said + "' 2>&1 </dev/null").c_str());
    code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return acre::tests::file_text(said);
}

} // namespace

TEST_CASE("the commands of the table say what it says") {
    fs::current_path(ACREWRIGHT_ROOT);
    const acre::tests::ScratchFolder scratch;
    std::ifstream in("examples/README.md");
    int questions = 0;
    for (std::string row; std::getline(in, row);) {
        const std::vector<std::string> cells = cells_of(row);
        if (cells.size() != 5 || cells[0].find_first_of("123456789") == std::string::npos)
            continue;
        ++questions;
        CAPTURE(cells[2]);
        const std::vector<std::string> commands = marked(cells[3]), figures = marked(cells[4]);
        for (const std::string& command : commands) {
            int code = 0;
            const std::string said = run(scratch, command, code);
            CHECK_MESSAGE(code == 0, said);
            CHECK(!figures.empty());
            for (const std::string& figure : figures)
                CHECK_MESSAGE(said.find(figure) != std::string::npos, figure << " is not in\n"
                                                                             << said);
        }
    }
    CHECK(questions == 41);
}

// A word that a model does not show stops a quote, so every example is tried.
TEST_CASE("every example can be quoted in the firm's words, and says each thing once") {
    fs::current_path(ACREWRIGHT_ROOT);
    const acre::tests::ScratchFolder scratch;
    int quoted = 0;
    for (const auto& entry : fs::directory_iterator("examples")) {
        if (entry.path().extension() != ".job")
            continue;
        CAPTURE(entry.path().string());
        ++quoted;
        int code = 0;
        const std::string page = run(scratch,
                                     "acrewright quote " + entry.path().string() +
                                         " --draft --wording examples/quote.wording",
                                     code);
        CHECK_MESSAGE(code == 0, page);
        CHECK(page.find("$0.00") == std::string::npos);
        CHECK(page.find("(s)") == std::string::npos);
        std::size_t wetlands = 0, overhead = 0, call = 0;
        for (const auto& [words, count] : {std::pair{"- Wetlands", &wetlands},
                                           {"- Overhead lines", &overhead},
                                           {"- Utilities", &call}})
            for (std::size_t at = page.find(words); at != std::string::npos;
                 at = page.find(words, at + 1))
                ++*count;
        CHECK(wetlands <= 1);
        CHECK(overhead <= 1);
        CHECK(call <= 1);
        // No heading stands over nothing.
        for (std::size_t at = page.find("\n-----"); at != std::string::npos;
             at = page.find("\n-----", at + 1)) {
            const std::size_t end = page.find('\n', at + 1);
            REQUIRE(end + 1 < page.size());
            CHECK(page[end + 1] != '\n');
        }
    }
    CHECK(quoted == 21);
}

} // namespace questions_test
