#include "lang/syntax/tokens.h"

#include <algorithm>

#include "lang/source/utf8.h"
#include "lang/syntax/words.h"

namespace acre::lang {

namespace {

// Digits, commas between digits, a point before a digit, an exponent; or the minutes of a clock
// time.
const char* end_of_number(const char* p, const char* end) {
    const auto digits = [&] {
        while (p != end && is_digit(*p))
            ++p;
    };
    digits();
    if (end - p > 1 && *p == ':' && is_digit(p[1])) {
        ++p;
        digits();
        return p;
    }
    while (end - p > 1 && *p == ',' && is_digit(p[1])) {
        ++p;
        digits();
    }
    if (end - p > 1 && *p == '.' && is_digit(p[1])) {
        ++p;
        digits();
    }
    if (p != end && (*p == 'e' || *p == 'E')) {
        const char* q = p + 1;
        if (q != end && (*q == '+' || *q == '-'))
            ++q;
        if (q != end && is_digit(*q)) {
            p = q;
            digits();
        }
    }
    return p;
}

bool is_double_sign(const char* p, const char* end) {
    if (end - p < 2)
        return false;
    return (p[0] == '.' && p[1] == '.') ||
           (p[1] == '=' && (p[0] == '<' || p[0] == '>' || p[0] == '=' || p[0] == '!'));
}

} // namespace

Token next_token(std::string_view text, std::uint32_t at, std::uint32_t end) {
    const char* const base = text.data();
    const char* const last = base + end;
    const char* p = base + at;
    while (p != last && (*p == ' ' || *p == '\t' || *p == '\r'))
        ++p;
    const auto token = [&](TokenKind kind, const char* stop) {
        return Token{kind, static_cast<std::uint32_t>(p - base),
                     static_cast<std::uint32_t>(stop - base)};
    };
    if (p == last)
        return token(TokenKind::End, p);
    if (*p == '\n')
        return token(TokenKind::LineEnd, p + 1);
    if (*p == '#')
        return token(TokenKind::Comment, std::find(p, last, '\n'));
    if (*p == '"') {
        const char* stop = std::find_if(p + 1, last, [](char c) { return c == '"' || c == '\n'; });
        return token(TokenKind::Text, stop != last && *stop == '"' ? stop + 1 : stop);
    }
    if (is_letter(*p))
        return token(TokenKind::Name, end_of_dotted_name(p, last));
    if (is_digit(*p))
        return token(TokenKind::Number, end_of_number(p, last));
    if (is_double_sign(p, last))
        return token(TokenKind::Sign, p + 2);
    auto stop = static_cast<std::size_t>(p - base);
    next_character(text.substr(0, end), stop);
    return token(TokenKind::Sign, base + stop);
}

Token next_solid_token(std::string_view text, std::uint32_t at, std::uint32_t end) {
    Token token = next_token(text, at, end);
    while (token.kind == TokenKind::Comment || token.kind == TokenKind::LineEnd)
        token = next_token(text, token.end, end);
    return token;
}

Token token_before(std::string_view text, std::uint32_t begin, std::uint32_t at) {
    Token before{TokenKind::End, begin, begin};
    for (Token t = next_solid_token(text, begin, at); t.kind != TokenKind::End;
         t = next_solid_token(text, t.end, at))
        before = t;
    return before;
}

} // namespace acre::lang
