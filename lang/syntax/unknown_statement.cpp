// A line that is no statement at all.
#include "lang/syntax/messages.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "lang/diag/suggest.h"
#include "lang/syntax/parse.h"
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

// `profit 12 %`, `minimum $450`: what a step is called here.
struct OtherWord {
    std::string_view word, step;
};
constexpr auto other_words = std::to_array<OtherWord>({{"minimum", "at least"},
                                                       {"min", "at least"},
                                                       {"least", "at least"},
                                                       {"rounding", "round to"},
                                                       {"overheads", "overhead"},
                                                       {"risk", "reserve"},
                                                       {"mark", "markup"}});

std::string in_small_letters(std::string_view word) {
    std::string out(word);
    for (char& c : out)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return out;
}

// `ground speed : mi/h = …`, and not `gven depth : ft`.
std::optional<Diagnostic> name_of_two_words(std::string_view text, Span line) {
    const Token first = next_token(text, line.begin, line.end);
    Token last = first;
    std::string name(first.in(text));
    Token next = next_token(text, first.end, line.end);
    for (; next.kind == TokenKind::Name && keyword_of(next.in(text)) == Keyword::None &&
           name.size() <= max_name_bytes;
         next = next_token(text, next.end, line.end)) {
        name += fmt::format("_{}", next.in(text));
        last = next;
    }
    if (first.kind != TokenKind::Name || last.begin == first.begin || next.in(text) != ":")
        return std::nullopt;
    const auto near = near_word(first.in(text), {WordRole::Statement});
    if (near == "given" || near == "cost" || near == "choice" || near == "event")
        return std::nullopt;
    const Span span{line.file, first.begin, last.end};
    return Diagnostic{Code::S110, "a name is one word",
                      {span, ""}, {},
                      {},         {{fmt::format("write  {}", name), Edit{span, name}}}};
}

// `block süd "South"`: a sign that no name has, within the first words.
std::optional<Span> foreign_sign_in_name(std::string_view text, Span line) {
    for (Token at = next_token(text, line.begin, line.end); at.kind == TokenKind::Name;) {
        const Token next = next_token(text, at.end, line.end);
        if (next.begin == at.end && next.kind == TokenKind::Sign && is_foreign_sign(next.in(text)))
            return Span{line.file, next.begin, next.end};
        at = next;
    }
    return std::nullopt;
}

std::string_view step_called(std::string_view word) {
    const std::string small = in_small_letters(word);
    for (const auto step : {"overhead", "reserve", "markup", "margin"})
        if (small == step)
            return step;
    for (const auto& [other, step] : other_words)
        if (small == other)
            return step;
    return {};
}

// Where the amount of a step begins, behind what else it is called: `mark up 10 %`.
Token amount_from(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    Token at = next_token(text, begin, end);
    const auto is_word = [&] {
        return at.kind == TokenKind::Name || at.in(text) == "=" || at.in(text) == ":";
    };
    while (is_word())
        at = next_token(text, at.end, end);
    return at.kind == TokenKind::End ? next_token(text, begin, end) : at;
}

} // namespace

Diagnostic describe_unknown_step(std::string_view text, Span line) {
    const Token first = next_token(text, line.begin, line.end);
    const std::string_view word = first.in(text);
    if (first.kind == TokenKind::Sign && is_foreign_sign(word))
        return describe_foreign_sign(word, {line.file, first.begin, first.end});
    Diagnostic d{Code::S100,
                 fmt::format("a statement in a price cannot start with `{}`", shortened(word)),
                 {{line.file, first.begin, first.end}, ""},
                 {},
                 {},
                 {}};
    const std::string_view sign = next_token(text, first.end, line.end).in(text);
    const Token amount = amount_from(text, first.end, line.end);
    const std::string rest = shortened(text.substr(amount.begin, line.end - amount.begin));
    if (in_small_letters(word) == "profit") {
        d.helps.push_back({fmt::format("for a percent of the price, write  margin {}", rest), {}});
        d.helps.push_back({fmt::format("for a percent of the cost, write  markup {}", rest), {}});
    } else if (std::string_view step = step_called(word); !step.empty()) {
        if ((sign == "=" || sign == ":") && keyword_of(word) != Keyword::None)
            d.title = fmt::format("a step of a price has no `{}`", sign);
        d.helps.push_back({fmt::format("write  {} {}", step, rest),
                           Edit{{line.file, first.begin, amount.begin}, fmt::format("{} ", step)}});
    } else if (const auto near = near_word(word, {WordRole::Inner});
               near && !step_called(*near).empty()) {
        d.helps.push_back({fmt::format("did you mean `{}`?", *near),
                           Edit{{line.file, first.begin, first.end}, std::string(*near)}});
    } else {
        d.helps.push_back({"the steps of a price are  overhead, reserve, markup, margin, at least, "
                           "round up to, round to",
                           {}});
    }
    return d;
}

Diagnostic describe_unknown(std::string_view text, Span line, std::string_view place, bool sets) {
    const Token first = next_token(text, line.begin, line.end);
    const std::string_view word = first.in(text);
    if (first.kind == TokenKind::Sign && is_foreign_sign(word))
        return describe_foreign_sign(word, {line.file, first.begin, first.end});
    if (std::optional<Span> sign = foreign_sign_in_name(text, line))
        return describe_foreign_sign(text.substr(sign->begin, sign->end - sign->begin), *sign);
    if (std::optional<Diagnostic> d = name_of_two_words(text, line); d && !sets)
        return *std::move(d);
    Diagnostic d{Code::S100,
                 fmt::format("a statement{}{} cannot start with `{}`", place.empty() ? "" : " ",
                             place, shortened(word)),
                 {{line.file, first.begin, first.end}, ""},
                 {},
                 {},
                 {}};
    const Token second = next_token(text, first.end, line.end);
    const bool gives = second.in(text) == "=";
    if (gives && (word == "date" || word == "for" || word == "model" || word == "season")) {
        const Token behind = next_token(text, second.end, line.end);
        d.title = fmt::format("`{}` has no `=`", word);
        d.helps.push_back(
            {fmt::format("write  {} {}", word,
                         shortened(text.substr(behind.begin, line.end - behind.begin))),
             Edit{{line.file, second.begin, behind.begin}, ""}});
    } else if (in_small_letters(word) == "end" || in_small_letters(word) == "endif") {
        d.helps.push_back({"nothing is closed: what is not indented any more stands outside; take "
                           "this line out",
                           {}});
    } else if (sets && second.kind == TokenKind::Text) {
        d.helps.push_back({fmt::format("an entry of a list has a name before its label: write  {} "
                                       "NAME {}",
                                       shortened(word), shortened(second.in(text))),
                           {}});
    } else if (sets && first.kind == TokenKind::Name && gives) {
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
