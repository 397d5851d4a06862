// A whole command line, one word a line, run in process in a folder of small files. No word leads
// out of the folder.
#include <algorithm>

#include "tests/fuzz/scratch.h"
#include "tests/fuzz/small_folder.h"
#include "tests/fuzz/target.h"

namespace command_line_fuzz {

using namespace acre;

namespace {

// Whoever asks for many trials waits for them; that is no fault. Every other number may be as large
// as it likes: an answer or a refusal must come in time.
bool asks_for_little(const std::vector<std::string>& words) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string_view word = words[i];
        const bool counts = word.starts_with("--trials") || word.starts_with("--threads") ||
                            (i > 0 && (words[i - 1] == "--trials" || words[i - 1] == "--threads"));
        if (counts && std::count_if(word.begin(), word.end(),
                                    [](char c) { return c >= '0' && c <= '9'; }) > 4)
            return false;
    }
    return true;
}

} // namespace

ACREWRIGHT_TARGET(command_line, text) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < text.size() && words.size() < 24;) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (text.substr(at, end - at).find('\0') == std::string_view::npos)
            words.emplace_back(text.substr(at, end - at));
        at = end + 1;
    }
    if (!fuzz::stays_inside(words) || !asks_for_little(words))
        return;
    if (!words.empty() && words[0] == "risk") {
        words.emplace_back("--trials");
        words.emplace_back("300");
        words.emplace_back("--threads");
        words.emplace_back("1");
    }
    fuzz::set_out(fuzz::small_folder());
    cli::Console console;
    fuzz::hold_command(words, console);
}

} // namespace command_line_fuzz
