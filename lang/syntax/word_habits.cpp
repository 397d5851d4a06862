// Words of other habits: `if … else`, labels and names without what holds them together, `=` where
// none stands, steps of a price in one line with it.
#include <array>
#include <optional>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/syntax/broken_tokens.h"
#include "lang/syntax/habits.h"
#include "lang/units/money.h"

namespace acre::lang {

namespace {

constexpr std::size_t longest_quoted = 70;
constexpr auto step_words = std::to_array<std::string_view>(
    {"overhead", "reserve", "markup", "margin", "contingency", "at", "round"});
// What stands behind a title or a reason, and so ends one that has no quotes.
constexpr auto ends_of_text =
    std::to_array<std::string_view>({"per", "lump", "covers", "each", "within", "swing", "choose",
                                     "because", "heading", "as", "with", "over", "costs", "may"});

class WordHabit : private BrokenTokens {
  public:
    using BrokenTokens::BrokenTokens;

    std::optional<Diagnostic> run() const {
        using Look = std::optional<Diagnostic> (WordHabit::*)() const;
        static constexpr auto looks = std::to_array<Look>(
            {&WordHabit::unquoted, &WordHabit::if_else, &WordHabit::step_of_a_price,
             &WordHabit::round_down, &WordHabit::commas_for_bars, &WordHabit::two_words,
             &WordHabit::no_unit, &WordHabit::between_bounds, &WordHabit::label});
        return first_of(*this, looks);
    }

  private:
    bool is_word(int at) const {
        return is(at, TokenKind::Name) && keyword_of(text(at)) == Keyword::None;
    }
    // Where text without quotes ends that begins at the token.
    std::uint32_t end_of_words(int first, bool at_words) const {
        int last = first;
        while (token(last + 1).kind != TokenKind::End && token(last + 1).begin < line_end() &&
               !is(last + 1, TokenKind::Text) &&
               !(at_words && is_one_of(text(last + 1), ends_of_text)))
            ++last;
        return token(last).end;
    }

    // `season 2027`, `covers Costs`, `because our log`.
    std::optional<Diagnostic> unquoted() const {
        const bool begins = is(0, TokenKind::Name) || is(0, TokenKind::Number);
        if (b_.expected != Expected::Text || !begins || token(0).begin >= line_end() ||
            is_one_of(text(0), ends_of_text))
            return std::nullopt;
        const bool head = at_ == 1 && b_.statement != Keyword::Price &&
                          b_.statement != Keyword::Part && b_.statement != Keyword::Use;
        const std::uint32_t end = end_of_words(0, !head);
        const std::string quoted = fmt::format("\"{}\"", between(token(0).begin, end));
        if (quoted.size() > longest_quoted)
            return std::nullopt;
        return mended(Code::S103, fmt::format("text in quotes is missing after `{}`", text(-1)),
                      token(0).begin, end, quoted, fmt::format("{} {}", text(-1), quoted));
    }

    // The token before the bracket that the one at `close` belongs to; 0 for none.
    int call_that_ends(int close) const {
        int open = 0;
        for (int at = close; at_ + at > 0; --at) {
            open += text(at) == ")" ? 1 : text(at) == "(" ? -1 : 0;
            if (open == 0)
                return at - 1;
        }
        return 0;
    }

    // `if C then A else B`, `if(C) A else B`.
    std::optional<Diagnostic> if_else() const {
        if (text(0) == "else" || text(0) == "otherwise:")
            return mended(Code::S110, "the other cases follow `otherwise`", token(0).begin,
                          token(0).end, "otherwise");
        if ((text(-1) == "if" || text(-1) == "If" || text(-1) == "IF") && text(0) != "(")
            return mended(Code::S110, "a condition is written with `when`", token(-1).begin,
                          token(-1).end, "when", "when CONDITION then VALUE otherwise VALUE");
        if (const int at = text(-1) == ")" ? call_that_ends(-1) : 0; at != 0 && text(at) == "if")
            return Diagnostic{Code::S110,
                              "a condition is written with `when`",
                              {{b_.file, token(at).begin, token(at).end}, ""},
                              {},
                              {},
                              {{"write  when CONDITION then VALUE otherwise VALUE", {}}}};
        return std::nullopt;
    }

    // `price … per ac area`, `price … per ac of area margin 12 %`, `overhead of 8 %`, `for
    // "Costs"`.
    std::optional<Diagnostic> step_of_a_price() const {
        if (b_.statement == Keyword::Price && text(0) == "for" && is(1, TokenKind::Text))
            return mended(Code::S110, "the parts of a price follow `covers`", token(0).begin,
                          token(0).end, "covers", fmt::format("covers {}", text(1)));
        if (b_.statement == Keyword::Price && text(-2) == "per" && is_word(-1) && is_word(0))
            return mended(Code::S103, "`of` is missing before the quantity", token(0).begin,
                          token(0).begin, "of ", fmt::format("per {} of {}", text(-1), text(0)));
        const int step = text(0) == "," ? 1 : 0;
        if (b_.statement == Keyword::Price && is_one_of(text(step), step_words) && at_ > 2)
            return Diagnostic{
                Code::S110,
                fmt::format("`{}` is a step of the price and has a line of its own", text(step)),
                {{b_.file, token(step).begin, token(step).end}, ""},
                {},
                {},
                {{fmt::format("write it below the price, indented:  {}",
                              between(token(step).begin, end_of_words(step, false))),
                  {}}}};
        const std::string_view head = spelling_of(b_.statement);
        if (is_one_of(head, step_words) && at_ == 1 && text(0) == "of")
            return mended(
                Code::S110, fmt::format("the share follows `{}` directly", head), token(0).begin,
                token(1).begin, "",
                fmt::format("{} {}", head, between(token(1).begin, end_of_words(1, false))));
        if (b_.statement == Keyword::At && at_ == 1 && text(0) == "most")
            return Diagnostic{Code::S103,
                              "a price has a smallest amount, `at least`, and no largest",
                              {{b_.file, token(-1).begin, token(0).end}, ""},
                              {},
                              {},
                              {{"for a largest amount, charge a line that is  min(…, …)", {}}}};
        return std::nullopt;
    }

    // `round up $5`, `round down to $5`, `round to nearest $5`.
    std::optional<Diagnostic> round_down() const {
        if (b_.statement != Keyword::Round)
            return std::nullopt;
        if (at_ == 2 && text(-1) == "up" && text(0) != "to" && !is(0, TokenKind::End)) {
            const std::uint32_t begin = token(0).begin;
            Diagnostic d =
                mended(Code::S103, "`to` is missing after `up`", begin, begin, "to ",
                       fmt::format("round up to {}", between(begin, end_of_words(0, false))));
            d.primary.span = {b_.file, token(-1).begin, token(-1).end};
            return d;
        }
        for (const int at : {-1, 0})
            if (text(at) == "nearest" || (text(at) == "down" && text(at + 1) == "to")) {
                const int amount = text(at + 1) == "to" ? at + 2 : at + 1;
                const std::uint32_t end = token(amount).begin;
                return mended(
                    Code::S110,
                    text(at) == "down" ? "a price is rounded up, or to the nearest step"
                                       : "`round to` goes to the nearest step",
                    token(at).begin, end, text(at - 1) == "to" ? "" : "to ",
                    fmt::format("round to {}", between(end, end_of_words(amount, false))));
            }
        return std::nullopt;
    }

    // `list size = small, big`, `given soil = clay, sand`; `closed saturday, sunday`.
    std::optional<Diagnostic> commas_for_bars() const {
        if (text(0) != "," || !is_word(-1) || !is_word(1))
            return std::nullopt;
        if (b_.statement == Keyword::Closed)
            return Diagnostic{
                Code::S110,
                "a line closes one day of the week",
                {{b_.file, token(0).begin, token(0).end}, ""},
                {},
                {},
                {{fmt::format("write two lines:  closed {}  and  closed {}", text(-1), text(1)),
                  {}}}};
        if (b_.statement != Keyword::List && b_.statement != Keyword::Choice &&
            b_.statement != Keyword::Given)
            return std::nullopt;
        if (text(-2) != "=")
            return std::nullopt;
        std::string names(text(-1));
        int at = 0;
        for (; text(at) == "," && is_word(at + 1); at += 2)
            names += fmt::format(" | {}", text(at + 1));
        return mended(Code::S110, "choices are parted by `|`", token(-1).begin, token(at - 1).end,
                      names);
    }

    // `given ground speed = 4 mi/h`, `set ground speed = 4 mi/h`.
    std::optional<Diagnostic> two_words() const {
        const bool names = b_.statement == Keyword::Given || b_.statement == Keyword::Set ||
                           b_.statement == Keyword::Cost || b_.statement == Keyword::Event;
        if (!names || at_ != 2 || !is_word(-1) || !is_word(0))
            return std::nullopt;
        std::string name = fmt::format("{}_{}", text(-1), text(0));
        int last = 1;
        for (; is_word(last) && last < 5; ++last)
            name += fmt::format("_{}", text(last));
        if (text(last) != "=" && text(last) != ":")
            return std::nullopt;
        return mended(Code::S110, "a name is one word", token(-1).begin, token(last - 1).end, name);
    }

    // `speed = 4 mi/h` in a model: a given, as it has a number of its own. `cost fuel = …`.
    std::optional<Diagnostic> no_unit() const {
        if (b_.expected != Expected::Colon || text(0) != "=" || !is_word(-1))
            return std::nullopt;
        Diagnostic d{Code::S105,
                     fmt::format("the unit of `{}` is missing", text(-1)),
                     {{b_.file, token(-1).begin, token(-1).end}, "no unit"},
                     {},
                     {},
                     {}};
        const bool number =
            is(1, TokenKind::Number) || (money_sign_size(text(1)) > 0 && is(2, TokenKind::Number));
        if (b_.statement == Keyword::Cost && at_ == 2) {
            d.helps.push_back({fmt::format("write money per unit behind the name, as in  cost {} : "
                                           "$/h = … over …",
                                           text(-1)),
                               {}});
            d.helps.push_back(
                {fmt::format("for a lump sum, write  cost {} : $ = … over 1", text(-1)), {}});
            return d;
        }
        if (at_ != 1 || !number)
            return std::nullopt;
        const std::uint32_t begin = token(-1).begin;
        int last = is(1, TokenKind::Number) ? 1 : 2;
        while (!is(last + 1, TokenKind::End) &&
               (touch(last, last + 1) || (last < 3 && is_word(last + 1))))
            ++last;
        if (is(last + 1, TokenKind::Sign)) // a formula: no given takes its first number alone
            return std::nullopt;
        d.helps.push_back({fmt::format("a figure that a season or a job may set is a given: write  "
                                       "given {}",
                                       between(begin, token(last).end)),
                           Edit{{b_.file, begin, begin}, "given "}});
        d.helps.push_back(
            {fmt::format("one that stays is a line: write  {} : UNIT = …", text(-1)), {}});
        return d;
    }

    // `between 3 ft and 5 ft`.
    std::optional<Diagnostic> between_bounds() const {
        if (b_.statement != Keyword::Given || text(0) != "between")
            return std::nullopt;
        return Diagnostic{Code::S110,
                          "a range is written with `..`",
                          {{b_.file, token(0).begin, token(0).end}, ""},
                          {},
                          {},
                          {{"for what is allowed, write  within LOW .. HIGH", {}},
                           {"for what may happen, write  swing LOW .. HIGH", {}}}};
    }

    // `given speed = 4 mi/h ground speed`: two words behind a value, or one behind a number.
    std::optional<Diagnostic> label() const {
        const bool labeled = b_.statement == Keyword::Given || b_.statement == Keyword::Cost ||
                             b_.statement == Keyword::None;
        const bool number = is(-1, TokenKind::Name) && is(-2, TokenKind::Number);
        if (!labeled || at_ < 4 || text(-1) == text(0) || text(0).size() == 1 || text(-1) == "x" ||
            text(-1) == "X" || !is_word(0) || token(0).begin >= line_end() ||
            !(is_word(-1) || is(-1, TokenKind::Number) || text(-1) == ")") ||
            !(number || is(1, TokenKind::Name)))
            return std::nullopt;
        int last = 0;
        while (is(last + 1, TokenKind::Name) && !is_one_of(text(last + 1), ends_of_text) &&
               token(last + 1).begin < line_end())
            ++last;
        const bool ends = is(last + 1, TokenKind::End) || token(last + 1).begin >= line_end() ||
                          is_one_of(text(last + 1), ends_of_text);
        if (!ends || (last == 0 && !number))
            return std::nullopt;
        const std::string quoted = fmt::format("\"{}\"", between(token(0).begin, token(last).end));
        return mended(Code::S110, "a label stands in quotes", token(0).begin, token(last).end,
                      quoted);
    }
};

} // namespace

std::optional<Diagnostic> describe_word_habit(const Break& b) {
    return WordHabit(b).run();
}

} // namespace acre::lang
