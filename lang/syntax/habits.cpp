// Quotes, comments and signs of other habits.
#include "lang/syntax/habits.h"

#include <array>
#include <optional>

#include <fmt/format.h>

#include "lang/syntax/broken_tokens.h"
#include "lang/units/money.h"

namespace acre::lang {

namespace {

constexpr std::size_t longest_quote = 70;
constexpr auto double_quotes =
    std::to_array<std::string_view>({"\u201C", "\u201D", "\u201E", "\u00AB", "\u00BB"});
constexpr auto single_quotes = std::to_array<std::string_view>({"\u2018", "\u2019", "'"});

class SignHabit : private BrokenTokens {
  public:
    using BrokenTokens::BrokenTokens;

    std::optional<Diagnostic> run() const {
        using Look = std::optional<Diagnostic> (SignHabit::*)() const;
        static constexpr auto looks =
            std::to_array<Look>({&SignHabit::quotes, &SignHabit::comment, &SignHabit::equals});
        return first_of(*this, looks);
    }

  private:
    // A whole text in quotes of another kind is one edit.
    std::optional<Diagnostic> quotes() const {
        const bool is_double = is_one_of(text(0), double_quotes);
        if (!is_double && !is_one_of(text(0), single_quotes))
            return std::nullopt;
        const std::uint32_t begin = token(0).begin;
        const std::uint32_t end = line_end();
        for (std::uint32_t p = token(0).end; p < end; ++p) {
            const std::uint32_t close =
                is_double ? std::max(mark_at(p, double_quotes), b_.text[p] == '"' ? 1U : 0U)
                          : mark_at(p, single_quotes);
            if (close == 0)
                continue;
            const std::string_view inside = between(token(0).end, p);
            if (inside.find('"') != std::string_view::npos)
                break;
            return mended(Code::S100, fmt::format("unknown sign `{}`", text(0)), begin, p + close,
                          fmt::format("\"{}\"", inside));
        }
        return std::nullopt;
    }

    std::optional<Diagnostic> comment() const {
        for (const int first : {-1, 0})
            if (text(first) == "/" && text(first + 1) == "/" && touch(first, first + 1))
                return mended(Code::S100, "a comment begins with `#`", token(first).begin,
                              token(first + 1).end, "#", "# …");
        return std::nullopt;
    }

    // `=>`, `:=`, `==`, `:` or nothing where `=` gives a value.
    std::optional<Diagnostic> equals() const {
        for (const int first : {-1, 0}) {
            const std::string_view a = text(first);
            if (((a == "=" && text(first + 1) == ">") || (a == ":" && text(first + 1) == "=")) &&
                touch(first, first + 1) && gives_value(first))
                return equals_at(token(first).begin, token(first + 1).end);
        }
        const bool set = b_.statement == Keyword::Set && b_.expected == Expected::Equals;
        if (set && text(0) == ":")
            if (std::optional<Diagnostic> d = unit_of_set())
                return d;
        if (set && (text(0) == ":" || text(0) == "to"))
            return equals_at(token(0).begin, token(0).end);
        const bool gives = b_.expected == Expected::Equals || b_.expected == Expected::Colon;
        if (gives && text(-1) == "==" && gives_value(-1)) // it broke off at its second sign
            return equals_at(token(-1).begin, token(-1).end);
        const bool given = b_.statement == Keyword::Given && at_ == 3 && text(-1) == ":";
        if (given && (is(0, TokenKind::Number) || money_sign_size(text(0)) > 0) &&
            b_.expected == Expected::Unit)
            return equals_at(token(-1).begin, token(-1).end);
        const bool named = at_ == 2 && is(-1, TokenKind::Name) && !touch(-1, 0);
        const bool value =
            is(0, TokenKind::Number) || money_sign_size(text(0)) > 0 || text(0) == "(";
        if (named && value && (set || b_.statement == Keyword::Given))
            return equals_at(token(-1).end, token(-1).end);
        return std::nullopt;
    }
    // `set depth : ft = 5`: a value brings its unit along. Of a choice it has none.
    std::optional<Diagnostic> unit_of_set() const {
        const std::uint32_t end = line_end();
        Token equals = next_token(b_.text, token(0).end, end);
        while (equals.kind != TokenKind::End && equals.in(b_.text) != "=")
            equals = next_token(b_.text, equals.end, end);
        const Token value = next_token(b_.text, equals.end, end);
        if (equals.kind == TokenKind::End || value.kind == TokenKind::End)
            return std::nullopt;
        std::string_view unit = between(token(0).end, equals.begin);
        unit.remove_prefix(std::min(unit.find_first_not_of(" \t"), unit.size()));
        unit = unit.substr(0, unit.find_last_not_of(" \t") + 1);
        const Token behind = next_token(b_.text, value.end, end);
        std::string write = fmt::format("= {}", value.in(b_.text));
        if (value.kind == TokenKind::Number && !unit.empty() && unit != "1" &&
            money_sign_size(unit) == 0 &&
            (behind.kind == TokenKind::End || behind.kind == TokenKind::Comment ||
             keyword_of(behind.in(b_.text)) != Keyword::None))
            write += fmt::format(" {}", unit);
        return mended(Code::S103, "a `set` has no unit of its own: its value has", token(0).begin,
                      value.end, write,
                      fmt::format("{}{}", between(b_.begin, token(0).begin), write));
    }
    // Whether the `=` there is the first of a statement that gives a value: a later one may be
    // meant to compare.
    bool gives_value(int sign) const {
        const auto before = tokens_.begin() + std::max(at_ + sign, 0);
        return b_.statement != Keyword::Require && b_.statement != Keyword::Caution &&
               b_.statement != Keyword::Example &&
               std::none_of(tokens_.begin(), before,
                            [&](const Token& t) { return t.in(b_.text) == "="; });
    }
    Diagnostic equals_at(std::uint32_t begin, std::uint32_t end) const {
        const std::string_view head = between(b_.begin, begin);
        const std::string_view rest = between(end, std::min(b_.end, line_end()));
        std::string write = "=";
        if (head.size() + rest.size() < longest_quote)
            write = fmt::format("{}{}={}", head, head.ends_with(' ') ? "" : " ", rest);
        Diagnostic d = mended(Code::S103, "a value is given with `=`", begin, end,
                              begin == end ? " =" : "=", write);
        if (begin == end)
            d.primary.span = {b_.file, token(-1).begin, token(-1).end};
        return d;
    }
};

} // namespace

std::optional<Diagnostic> describe_habit(const Break& b) {
    if (b.row)
        return std::nullopt;
    for (const auto look : {describe_number_habit, describe_range_habit, describe_word_habit})
        if (std::optional<Diagnostic> d = look(b))
            return d;
    return SignHabit(b).run();
}

} // namespace acre::lang
