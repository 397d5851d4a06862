// The tokens of a statement that broke off, told from the place of the break, and mends of them.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lang/syntax/messages.h"
#include "lang/syntax/tokens.h"

namespace acre::lang {

class BrokenTokens {
  public:
    explicit BrokenTokens(const Break& b);

  protected:
    // The token where the statement broke off is 0, the one before it -1.
    Token token(int from_break) const {
        const int i = at_ + from_break;
        return i >= 0 && i < static_cast<int>(tokens_.size())
                   ? tokens_[static_cast<std::size_t>(i)]
                   : Token{TokenKind::End, b_.end, b_.end};
    }
    std::string_view text(int from_break) const { return token(from_break).in(b_.text); }
    bool is(int from_break, TokenKind kind) const { return token(from_break).kind == kind; }
    bool touch(int first, int second) const { return token(first).end == token(second).begin; }
    std::string_view between(std::uint32_t begin, std::uint32_t end) const {
        return b_.text.substr(begin, end - begin);
    }

    // What the first of some looks finds, that finds anything.
    template <class Habit, class Looks>
    static std::optional<Diagnostic> first_of(const Habit& habit, const Looks& looks) {
        for (const auto look : looks)
            if (std::optional<Diagnostic> d = (habit.*look)())
                return d;
        return std::nullopt;
    }

    // `write`: what stands there then, with as much around it as makes it plain.
    Diagnostic mended(Code code, std::string title, std::uint32_t begin, std::uint32_t end,
                      std::string replacement, std::string write = "") const;

    std::uint32_t line_end() const {
        const std::size_t end = b_.text.find('\n', std::min(b_.at, b_.end));
        return static_cast<std::uint32_t>(std::min(end, b_.text.size()));
    }
    template <std::size_t N>
    std::uint32_t mark_at(std::uint32_t p, const std::array<std::string_view, N>& marks) const {
        for (const std::string_view mark : marks)
            if (b_.text.substr(p).starts_with(mark))
                return static_cast<std::uint32_t>(mark.size());
        return 0;
    }

    template <std::size_t N>
    static bool is_one_of(std::string_view sign, const std::array<std::string_view, N>& signs) {
        return std::find(signs.begin(), signs.end(), sign) != signs.end();
    }

    const Break& b_;
    std::vector<Token> tokens_;
    int at_ = 0; // index of the token where the statement broke off
};

} // namespace acre::lang
