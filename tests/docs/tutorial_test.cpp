// The tutorial, typed: every command of examples/first-model.md runs in an empty folder with
// nothing but the program, and says what the page says. A command may go on over lines up to END.
// ACREWRIGHT_UPDATE=1 writes what came.
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/support/scratch_folder.h"

namespace tutorial_test {

namespace fs = std::filesystem;
using acre::tests::file_text;
using acre::tests::ScratchFolder;

namespace {

const fs::path page = fs::path(ACREWRIGHT_ROOT) / "examples/first-model.md";

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

// A program as it is installed, without its models, and an empty folder. At noon (UTC) of March 10,
// 2027: the seal of a record holds the time of writing.
class Shell {
  public:
    Shell() {
        fs::create_directories(scratch_.path("usr/bin"));
        fs::create_directory(scratch_.path("empty"));
        fs::copy_file(ACREWRIGHT_PROGRAM, scratch_.path("usr/bin/acrewright"));
    }
    std::string run(const std::string& command) const {
        std::ofstream(scratch_.path("command")) << command << '\n';
        const std::string line =
            "cd '" + scratch_.path("empty") + "' && env -i PATH='" + scratch_.path("usr/bin") +
            ":/usr/bin:/bin' LC_ALL=C SOURCE_DATE_EPOCH=1804680000 sh '" +
            scratch_.path("command") + "' >'" + scratch_.path("said") + "' 2>&1 </dev/null";
        if (std::system(line.c_str()) == -1)
            FAIL("the shell cannot be run");
        return file_text(scratch_.path("said"));
    }
    std::string text(const std::string& file) const {
        return file_text(scratch_.path("empty/" + file));
    }

  private:
    ScratchFolder scratch_;
};

struct Typed {
    std::size_t steps = 0, commands = 0;
    std::string said; // all of it
};

// Plays the page; with what came in the place of what it says.
std::vector<std::string> played(const Shell& shell, const std::vector<std::string>& lines,
                                Typed& typed) {
    std::vector<std::string> out;
    bool console = false;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string& line = lines[i];
        if (!console) {
            out.push_back(line);
            typed.steps += line.starts_with("## ") ? 1 : 0;
            console = line == "```console";
            continue;
        }
        if (line == "```") {
            console = false;
            out.push_back(line);
            continue;
        }
        if (!line.starts_with("$ "))
            continue; // what the page says
        std::string command = line.substr(2);
        out.push_back(line);
        for (bool open = line.ends_with("<<'END'"); open && ++i < lines.size();
             open = lines[i] != "END") {
            command += "\n" + lines[i];
            out.push_back(lines[i]);
        }
        ++typed.commands;
        const std::string said = shell.run(command);
        typed.said += said;
        for (std::string& one : lines_of(said))
            out.push_back(std::move(one));
    }
    return out;
}

} // namespace

TEST_CASE("whoever types what the tutorial shows gets what it shows") {
    const Shell shell;
    const std::vector<std::string> lines = lines_of(file_text(page));
    Typed typed;
    const std::vector<std::string> came = played(shell, lines, typed);
    CHECK(typed.steps == 12);
    CHECK(typed.commands >= 24); // each step: what one does, and the commonest mistake
    if (std::getenv("ACREWRIGHT_UPDATE") != nullptr) {
        std::ofstream out(page, std::ios::binary);
        for (const std::string& line : came)
            out << line << '\n';
    } else {
        REQUIRE(came.size() == lines.size());
        for (std::size_t i = 0; i < lines.size(); ++i)
            CHECK_MESSAGE(came[i] == lines[i], "line " << i + 1);
    }
    // A price, a comparison and a quote were reached, and no error was the program's own.
    for (const char* reached : {"Total", "P001"})
        CHECK((typed.said.find(reached) != std::string::npos) == (reached[0] == 'T'));
    CHECK(fs::path(page).has_filename());
    CHECK(shell.text("stumps/quote.txt").find("Stump grinding") != std::string::npos);
    CHECK(shell.text("stumps/book/000001.json").find("acrewright.record/2") != std::string::npos);
}

TEST_CASE("no line of the tutorial is wider than a terminal") {
    bool console = false;
    for (const std::string& line : lines_of(file_text(page))) {
        console = line.starts_with("```") ? line == "```console" : console;
        if (console && !line.starts_with("$ "))
            CHECK_MESSAGE(line.size() <= 150, line);
    }
}

} // namespace tutorial_test
