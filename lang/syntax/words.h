// The words of the notation and what each may do (the list is words.def).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "lang/units/letters.h"

namespace acre::lang {

enum class WordRole : std::uint8_t { None, Opener, Statement, Inner, Joint, Free, Value };

enum class Keyword : std::uint8_t {
    None, // any other word
#define ACRE_WORD(spelling, name, role) name,
#include "lang/syntax/words.def"
#undef ACRE_WORD
    Entry, // no word: the name of a list that begins an entry of a job
};

// A word of the version in force on this thread; None: no word, or not yet one.
Keyword keyword_of(std::string_view word);
WordRole role_of(Keyword word);

inline constexpr auto word_spellings = std::to_array<std::string_view>({
    "",
#define ACRE_WORD(spelling, name, role) spelling,
#include "lang/syntax/words.def"
#undef ACRE_WORD
});
constexpr std::string_view spelling_of(Keyword word) {
    return word == Keyword::Entry ? "entry" : word_spellings[static_cast<std::size_t>(word)];
}

// Whether the word cannot be the name of anything.
inline bool is_reserved(Keyword word) {
    const WordRole role = role_of(word);
    return role != WordRole::None && role != WordRole::Inner && role != WordRole::Free;
}
// Whether the word may stand for a value in a formula: no word of the notation, or `yes` and `no`.
inline bool is_value_word(Keyword word) {
    return !is_reserved(word) || word == Keyword::Yes || word == Keyword::No;
}
inline bool has_inner_lines(Keyword word) {
    return role_of(word) == WordRole::Opener;
}

constexpr bool is_name_char(char c) {
    return is_letter(c) || is_digit(c) || c == '_';
}
// While it lives, texts are read by the words of that version (lang/earlier/rules.h).
class WordsOfVersion {
  public:
    explicit WordsOfVersion(std::uint32_t notation);
    ~WordsOfVersion();
    WordsOfVersion(const WordsOfVersion&) = delete;
    WordsOfVersion& operator=(const WordsOfVersion&) = delete;

  private:
    std::uint32_t before_;
};

// The end of the name that begins at `begin`; the name may be dotted. `begin` itself if there is
// none.
const char* end_of_word(const char* begin, const char* end);
const char* end_of_dotted_name(const char* begin, const char* end);

} // namespace acre::lang
