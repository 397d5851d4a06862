// Runs command lines in process and judges all they say.
#pragma once

#include <set>
#include <string>
#include <vector>

namespace acre::tests {

using Line = std::vector<std::string>; // words after the program's name

struct Said {
    int code = 0;
    std::string out, err;
};

Said say(const Line& words, bool color = false);
std::string shown(const Line& words);

// True if there is a line that the stranger made the program begin: with the word FORGED.
bool forged(const std::string& text);

// Without the inks of the program.
std::string without_ink(const std::string& text);

enum class Form { Text, Json, Csv, Source };

// A command line, the form of what it says, and a file it writes whose name tells what it is.
struct Judged {
    Line words;
    Form form = Form::Text;
    std::string file = {};
    int code = 0; // as it must end, if it can do its work
};

// Every command with every form it has, in the folder of a small_firm. The book gets two quotes and
// a word.
std::vector<Judged> all_commands();

class Judge {
  public:
    // `work`: the command must be able to do its work. `markup`: where elements and attributes of
    // the pages go.
    Said run(const Judged& judged, bool work, std::set<std::string>& markup);

    int runs = 0;

  private:
    static void file(const std::string& path, std::set<std::string>& markup);
};

} // namespace acre::tests
