#include "lang/syntax/words.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "lang/earlier/rules.h"

namespace acre::lang {

namespace {

struct Entry {
    std::string_view spelling;
    Keyword keyword;
    WordRole role;
};

constexpr auto listed = std::to_array<Entry>({
#define ACRE_WORD(spelling, name, role) {spelling, Keyword::name, WordRole::role},
#include "lang/syntax/words.def"
#undef ACRE_WORD
});
constexpr std::size_t count = listed.size();

// The words by their first letter: those of letter i stand from first[i] to first[i + 1].
struct Index {
    std::array<Entry, count> words{};
    std::array<std::uint8_t, 27> first{};
    std::size_t longest = 0;
};

constexpr Index make_index() {
    Index index;
    std::size_t next = 0;
    for (std::size_t letter = 0; letter < 26; ++letter) {
        index.first[letter] = static_cast<std::uint8_t>(next);
        for (const Entry& entry : listed) {
            if (static_cast<std::size_t>(entry.spelling.front() - 'a') != letter)
                continue;
            index.words[next++] = entry;
            index.longest = std::max(index.longest, entry.spelling.size());
        }
    }
    index.first[26] = static_cast<std::uint8_t>(next);
    return index;
}
constexpr Index words = make_index();

std::uint32_t& notation_in_force() {
    thread_local std::uint32_t notation = current_notation;
    return notation;
}

} // namespace

Keyword keyword_of(std::string_view word) {
    if (word.empty() || word.size() > words.longest || word.front() < 'a' || word.front() > 'z')
        return Keyword::None;
    const auto letter = static_cast<std::size_t>(word.front() - 'a');
    for (std::size_t i = words.first[letter]; i < words.first[letter + 1]; ++i)
        if (words.words[i].spelling == word)
            return is_a_word_of(notation_in_force(), word) ? words.words[i].keyword : Keyword::None;
    return Keyword::None;
}

WordsOfVersion::WordsOfVersion(std::uint32_t notation) : before_(notation_in_force()) {
    notation_in_force() = notation;
}

WordsOfVersion::~WordsOfVersion() {
    notation_in_force() = before_;
}

WordRole role_of(Keyword word) {
    if (word == Keyword::Entry)
        return WordRole::Opener;
    return word == Keyword::None ? WordRole::None : listed[static_cast<std::size_t>(word) - 1].role;
}

const char* end_of_word(const char* begin, const char* end) {
    if (begin == end || !is_letter(*begin))
        return begin;
    const char* p = begin;
    while (p != end && is_name_char(*p))
        ++p;
    return p;
}

const char* end_of_dotted_name(const char* begin, const char* end) {
    const char* p = end_of_word(begin, end);
    while (p != begin && end - p > 1 && *p == '.' && is_letter(p[1]))
        p = end_of_word(p + 1, end);
    return p;
}

} // namespace acre::lang
