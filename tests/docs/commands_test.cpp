// The commands of every README run, and say what the README says they say.
//
//   ```sh       every line is a command and ends with 0
//   ```console  lines that begin with `$ ` are commands, the lines below are what they say (both
//   streams); a line `...` stands for
//               any lines left out. ACREWRIGHT_UPDATE=1 writes what came; blocks with `...` are
//               left to a person
//
// Commands run in a copy of examples/ and models/, with the program in front of the path.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <sys/wait.h>

#include "cli/command.h"
#include "tests/support/scratch_folder.h"

namespace commands_test {

namespace fs = std::filesystem;
using acre::tests::file_text;
using acre::tests::ScratchFolder;

namespace {

const fs::path root = ACREWRIGHT_ROOT;

struct Block {
    std::string language;
    std::size_t begin = 0, end = 0; // lines of its inside, from 0
};

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

std::vector<Block> blocks_of(const std::vector<std::string>& lines) {
    std::vector<Block> blocks;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].starts_with("```")) {
            Block block{lines[i].substr(3), i + 1, i + 1};
            while (block.end < lines.size() && lines[block.end] != "```")
                ++block.end;
            i = block.end;
            blocks.push_back(block);
        }
    }
    return blocks;
}

class Shell {
  public:
    Shell() {
        fs::create_directory(scratch_.path("bin"));
        fs::create_symlink(ACREWRIGHT_PROGRAM, scratch_.path("bin/acrewright"));
        fs::create_directory(scratch_.path("root"));
        for (const char* folder : {"examples", "models"}) {
            fs::copy(root / folder, scratch_.path("root") + "/" + folder,
                     fs::copy_options::recursive);
        }
    }
    std::string run(const std::string& command, int& code) const {
        std::ofstream(scratch_.path("command")) << command << '\n';
        const std::string line = "cd '" + scratch_.path("root") + "' && env -i PATH='" +
                                 scratch_.path("bin") + ":/usr/bin:/bin' LC_ALL=C sh '" +
                                 scratch_.path("command") + "' >'" + scratch_.path("said") +
                                 "' 2>&1 </dev/null";
        const int status = std::system(line.c_str());
        code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
        return file_text(scratch_.path("said"));
    }

  private:
    ScratchFolder scratch_;
};

// What building and testing themselves do: running them from a test would go round in a circle.
bool is_of_the_build(const std::string& command) {
    for (const char* word : {"cmake ", "ctest ", "git ", "ACREWRIGHT_UPDATE=1 "})
        if (command.starts_with(word))
            return true;
    return false;
}

bool matches(const std::vector<std::string>& expected, std::size_t e,
             const std::vector<std::string>& came, std::size_t c) {
    for (; e < expected.size(); ++e, ++c) {
        if (expected[e] == "...") {
            for (std::size_t skip = c; skip <= came.size(); ++skip)
                if (matches(expected, e + 1, came, skip))
                    return true;
            return false;
        }
        if (c >= came.size() || came[c] != expected[e])
            return false;
    }
    return c == came.size();
}

void check_script(const std::string& command) {
    const fs::path script = root / command.substr(0, command.find(' '));
    CHECK_MESSAGE(fs::exists(script), command << " is not there");
    CHECK_MESSAGE((fs::status(script).permissions() & fs::perms::owner_exec) != fs::perms::none,
                  command << " cannot be run");
}

void check_readme(const fs::path& path, const Shell& shell, int& commands) {
    const bool update = std::getenv("ACREWRIGHT_UPDATE") != nullptr;
    std::vector<std::string> lines = lines_of(file_text(path));
    std::vector<std::string> written;
    std::size_t copied = 0;
    for (const Block& block : blocks_of(lines)) {
        const bool console = block.language == "console";
        if (!console && block.language != "sh")
            continue;
        for (std::size_t i = block.begin; i < block.end;) {
            std::string command = lines[i++];
            if (console) {
                REQUIRE_MESSAGE(command.starts_with("$ "),
                                path << ": a block of a console begins with a command");
                command.erase(0, 2);
            }
            std::vector<std::string> expected;
            while (console && i < block.end && !lines[i].starts_with("$ "))
                expected.push_back(lines[i++]);
            if (command.empty() || is_of_the_build(command))
                continue;
            ++commands;
            CAPTURE(path);
            CAPTURE(command);
            if (command.starts_with(".dev/")) {
                check_script(command);
                continue;
            }
            int code = 0;
            const std::string said = shell.run(command, code);
            if (!console) {
                CHECK_MESSAGE(code == 0, said);
                continue;
            }
            const std::vector<std::string> came = lines_of(said);
            const bool right = matches(expected, 0, came, 0);
            const bool has_gap =
                std::find(expected.begin(), expected.end(), "...") != expected.end();
            if (!right && update && !has_gap) {
                written.insert(written.end(), lines.begin() + static_cast<std::ptrdiff_t>(copied),
                               lines.begin() + static_cast<std::ptrdiff_t>(i - expected.size()));
                written.insert(written.end(), came.begin(), came.end());
                copied = i;
            } else {
                CHECK_MESSAGE(right, "it says:\n" << said);
            }
        }
    }
    if (copied > 0) {
        written.insert(written.end(), lines.begin() + static_cast<std::ptrdiff_t>(copied),
                       lines.end());
        std::ofstream out(path, std::ios::binary);
        for (const std::string& line : written)
            out << line << '\n';
    }
}

} // namespace

TEST_CASE("every command of every README runs and says what the README says") {
    const Shell shell;
    int commands = 0;
    for (const char* path :
         {"README.md", "DEVELOPERS.md", "lang/README.md", "engine/README.md", "cli/README.md",
          "tests/README.md", "models/README.md", "examples/README.md"}) {
        REQUIRE_MESSAGE(fs::exists(root / path), path << " is missing");
        check_readme(root / path, shell, commands);
    }
    CHECK(commands >= 20);
}

TEST_CASE("every entry that a README lists is there") {
    // Words in backquotes in the first column of a table, if they look like a file or a folder.
    for (const char* folder : {"lang", "engine", "cli", "tests", "models", "examples"}) {
        int entries = 0;
        bool lists_files = false;
        for (const std::string& line : lines_of(file_text(root / folder / "README.md"))) {
            const bool in_table = line.starts_with("| ");
            lists_files = line.starts_with("| entry |") || line.starts_with("| file |") ||
                          line.starts_with("| folder |") || line.starts_with("| job |") ||
                          (lists_files && line.starts_with("|"));
            if (!in_table || !lists_files || line.find('`') == std::string::npos)
                continue;
            const std::string column = line.substr(0, line.find('|', 1));
            for (std::size_t at = column.find('`'); at != std::string::npos;
                 at = column.find('`', at)) {
                const auto end = column.find('`', at + 1);
                const std::string entry = column.substr(at + 1, end - at - 1);
                at = end + 1;
                const bool path = entry.find_first_of("/.") != std::string::npos &&
                                  entry.find('*') == std::string::npos;
                if (path) {
                    ++entries;
                    CHECK_MESSAGE(fs::exists(root / folder / entry),
                                  std::string(folder) << "/README.md lists " << entry);
                }
            }
        }
        CHECK_MESSAGE(entries > 0, folder);
    }
}

TEST_CASE("every folder and every header of a layer stands in its README") {
    for (const char* layer : {"lang", "engine", "cli", "tests"}) {
        const std::string readme = file_text(root / layer / "README.md");
        for (const auto& entry : fs::directory_iterator(root / layer)) {
            const std::string name = entry.path().filename();
            if (entry.is_directory()) {
                CHECK_MESSAGE(readme.find("`" + name + "/") != std::string::npos,
                              std::string(layer) << "/README.md does not list " << name << "/");
            } else if (name.ends_with(".h")) {
                CHECK_MESSAGE(readme.find("`" + name + "`") != std::string::npos,
                              std::string(layer) << "/README.md does not list " << name);
            }
        }
    }
}

TEST_CASE("every command has a section in the README of the commands, and its example runs") {
    const Shell shell;
    const std::string readme = file_text(root / "cli/README.md");
    for (const acre::cli::Command& command : acre::cli::commands()) {
        const std::string name(command.name);
        CHECK_MESSAGE(readme.find("\n## " + name + "\n") != std::string::npos,
                      name << " has no section");
        int code = 0;
        const std::string help = shell.run("acrewright " + name + " --help", code);
        CHECK(code == 0);
        const auto example = help.find("\nexample:\n  ");
        REQUIRE_MESSAGE(example != std::string::npos, name << " has no example");
        const std::string line =
            help.substr(example + 12, help.find('\n', example + 12) - example - 12);
        const std::string said = shell.run(line, code);
        CHECK_MESSAGE(code == 0, line << " ends with " << code << "\n" << said);
    }
}

} // namespace commands_test
