// A line that is no statement at all.
#include "lang/syntax/messages.h"

#include <algorithm>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "lang/diag/suggest.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/tokens.h"

namespace acre::lang {

std::optional<std::string_view> near_word(std::string_view word,
                                          std::initializer_list<WordRole> roles) {
    std::vector<std::string_view> words;
    for (std::size_t i = 1; i < std::size(word_spellings); ++i)
        if (std::find(roles.begin(), roles.end(), role_of(static_cast<Keyword>(i))) != roles.end())
            words.push_back(word_spellings[i]);
    const std::vector<std::string_view> near = near_names(word, words, 1);
    return near.empty() ? std::nullopt : std::optional(near.front());
}

namespace {

// `depth = 6 ft` where a value is set by `set`; nothing else is said by a name and `=` there.
std::string as_set(std::string_view text, Span line) {
    constexpr std::size_t longest = 70;
    const std::string_view written = text.substr(
        line.begin, std::min<std::size_t>(line.end, text.find('\n', line.begin)) - line.begin);
    return written.size() <= longest ? fmt::format("set {}", written) : "set NAME = VALUE";
}

} // namespace

Diagnostic describe_unknown(std::string_view text, Span line, std::string_view place, bool sets) {
    const Token first = next_token(text, line.begin, line.end);
    const std::string_view word = first.in(text);
    if (first.kind == TokenKind::Sign && is_foreign_sign(word))
        return describe_foreign_sign(word, {line.file, first.begin, first.end});
    Diagnostic d{Code::S100,
                 fmt::format("a statement{}{} cannot start with `{}`", place.empty() ? "" : " ",
                             place, shortened(word)),
                 {{line.file, first.begin, first.end}, ""},
                 {},
                 {},
                 {}};
    if (sets && first.kind == TokenKind::Name &&
        next_token(text, first.end, line.end).in(text) == "=") {
        d.helps.push_back({fmt::format("write  {}", as_set(text, line)),
                           Edit{{line.file, first.begin, first.begin}, "set "}});
    } else if (first.kind == TokenKind::Name) {
        const std::optional<std::string_view> near =
            near_word(word, {WordRole::Opener, WordRole::Statement, WordRole::Inner});
        if (near)
            d.helps.push_back({fmt::format("did you mean `{}`?", *near),
                               Edit{{line.file, first.begin, first.end}, std::string(*near)}});
        else
            d.helps.push_back(
                {sets ? "to give a value, write  set NAME = VALUE"
                      : fmt::format("write a line as  {} : UNIT = FORMULA", shortened(word)),
                 {}});
    }
    return d;
}

} // namespace acre::lang
