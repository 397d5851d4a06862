// A statement as a row of tokens, for messages (what stands before the break?) and for the
// canonical layout. The grammar decides what is right; this only tells pieces apart, and takes any
// text without failing.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace acre::lang {

enum class TokenKind : std::uint8_t { End, Name, Number, Text, Sign, Comment, LineEnd };

struct Token {
    TokenKind kind = TokenKind::End;
    std::uint32_t begin = 0;
    std::uint32_t end = 0;

    std::string_view in(std::string_view text) const { return text.substr(begin, end - begin); }
};

// The token at or behind `at`; blanks are skipped. A sign is one of `..` `<=` `>=` `==` `!=`, or
// one character (code point). A name may be dotted. A text runs to its closing quote or the line
// end. LineEnd is one `\n`, before `end`.
Token next_token(std::string_view text, std::uint32_t at, std::uint32_t end);
// As next_token, without comments and line ends.
Token next_solid_token(std::string_view text, std::uint32_t at, std::uint32_t end);
// The last token, neither comment nor line end, that begins at `begin` or later and ends at `at` or
// before.
Token token_before(std::string_view text, std::uint32_t begin, std::uint32_t at);

} // namespace acre::lang
