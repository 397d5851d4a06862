#include "lang/diag/described.h"

#include <algorithm>

#include <fmt/format.h>

namespace acre::lang {
namespace {

constexpr std::size_t most_words = 8;   // that are looked for
constexpr std::size_t most_asked = 100; // bytes of what is asked
constexpr std::size_t most_said = 400;  // bytes of a label that are read

bool is_word(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

bool says_nothing(std::string_view word) {
    constexpr std::string_view plain[] = {"the", "of",  "and", "per", "for",
                                          "my",  "our", "is",  "in"};
    return word.size() < 2 ||
           std::find(std::begin(plain), std::end(plain), word) != std::end(plain);
}

std::vector<std::string> words_of(std::string_view text, std::size_t at_most) {
    std::vector<std::string> words;
    std::string word;
    const auto end_word = [&] {
        if (!says_nothing(word) && words.size() < at_most)
            words.push_back(word);
        word.clear();
    };
    for (const char c : text)
        if (is_word(c))
            word += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        else
            end_word();
    end_word();
    return words;
}

bool meets(std::string_view asked, std::string_view word) {
    return word.starts_with(asked) || (word.size() >= 4 && asked.starts_with(word));
}

bool is_among(std::string_view asked, const std::vector<std::string>& words) {
    return std::any_of(
        words.begin(), words.end(), [&](const std::string& word) { return meets(asked, word); });
}

std::string_view behind_dots(std::string_view name) {
    return name.substr(name.rfind('.') + 1); // npos + 1 is 0
}

struct Match {
    std::size_t score;
    Described what;
};

bool is_same(const Described& a, const Described& b) {
    return behind_dots(a.name) == behind_dots(b.name) && a.label == b.label;
}

} // namespace

std::vector<Described> described_by(std::string_view words, std::span<const Described> all,
                                    std::size_t at_most) {
    const std::vector<std::string> asked = words_of(words.substr(0, most_asked), most_words);
    if (asked.empty())
        return {};
    std::vector<Match> found;
    for (const Described& one : all) {
        const std::vector<std::string> name = words_of(one.name, most_words);
        const std::vector<std::string> label = words_of(one.label.substr(0, most_said), most_said);
        std::size_t in_name = 0;
        bool whole = true;
        for (const std::string& word : asked) {
            const bool named = is_among(word, name);
            in_name += named ? 1 : 0;
            whole = whole && (named || is_among(word, label));
        }
        // What a label begins with is what its line is about.
        const bool heads = !label.empty() && meets(asked[0], label[0]);
        if (whole)
            found.push_back({in_name + (heads ? 1U : 0U), one});
    }
    std::stable_sort(found.begin(), found.end(), [](const Match& a, const Match& b) {
        if (a.score != b.score)
            return a.score > b.score;
        return behind_dots(a.what.name).size() < behind_dots(b.what.name).size();
    });
    std::vector<Described> out;
    for (const Match& match : found)
        if (out.size() < at_most && std::none_of(out.begin(), out.end(), [&](const Described& had) {
                return is_same(had, match.what);
            }))
            out.push_back(match.what);
    return out;
}

std::string described_help(const Described& found) {
    return found.label.empty() ? fmt::format("`{}`", found.name)
                               : fmt::format("`{}`: {}", found.name, found.label);
}

} // namespace acre::lang
