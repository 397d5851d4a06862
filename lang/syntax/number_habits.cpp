// Numbers, units and money of other habits.
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "lang/syntax/broken_tokens.h"
#include "lang/syntax/habits.h"
#include "lang/syntax/signs.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

constexpr std::size_t most_digits = 20; // and commas, of one number

constexpr auto foot_marks = std::to_array<std::string_view>({"'", "\u2019", "\u2032"});
constexpr auto inch_marks = std::to_array<std::string_view>({"\"", "\u201D", "\u2033"});
constexpr auto wide_blanks = std::to_array<std::string_view>({"\u00A0", "\u2009", "\u202F"});
constexpr auto vulgar = std::to_array<std::pair<std::string_view, double>>(
    {{"\u00BC", 0.25}, {"\u00BD", 0.5}, {"\u00BE", 0.75}});

// The smaller unit that is said behind the larger one, and how many make one of that.
struct Pair {
    std::string_view large, small;
    int count;
};
constexpr auto pairs = std::to_array<Pair>({{"ft", "in", 12},
                                            {"feet", "inches", 12},
                                            {"feet", "in", 12},
                                            {"h", "min", 60},
                                            {"hr", "min", 60},
                                            {"min", "s", 60},
                                            {"yd", "ft", 3},
                                            {"lb", "oz", 16}});

std::optional<double> value_of(std::string_view digits) {
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size())
        return std::nullopt;
    return value;
}

bool all_digits(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

// Whether four decimals say the number whole.
bool is_short(double value) {
    const double shifted = value * 1e4;
    return std::abs(shifted - std::round(shifted)) < 1e-7 && std::abs(shifted) < 1e12;
}

class NumberHabit : private BrokenTokens {
  public:
    using BrokenTokens::BrokenTokens;

    std::optional<Diagnostic> run() const {
        using Look = std::optional<Diagnostic> (NumberHabit::*)() const;
        static constexpr auto looks = std::to_array<Look>(
            {&NumberHabit::spaced_number, &NumberHabit::fraction, &NumberHabit::two_units,
             &NumberHabit::foot_mark, &NumberHabit::inch_mark, &NumberHabit::per,
             &NumberHabit::money_letters, &NumberHabit::thousands, &NumberHabit::letter_for_zero,
             &NumberHabit::sign_apart});
        return first_of(*this, looks);
    }

  private:
    // `6 500`, with a blank of any width.
    std::optional<Diagnostic> spaced_number() const {
        const Token first = token(-1);
        if (first.kind != TokenKind::Number || first.end - first.begin > 3 ||
            !all_digits(text(-1)) || text(-1).front() == '0')
            return std::nullopt;
        std::uint32_t end = first.end;
        std::string number(text(-1));
        for (;;) {
            std::uint32_t p = end;
            while (p < b_.end && (b_.text[p] == ' ' || b_.text[p] == '\t'))
                ++p;
            for (const std::string_view blank : wide_blanks)
                if (b_.text.substr(p).starts_with(blank))
                    p += static_cast<std::uint32_t>(blank.size());
            std::uint32_t q = p;
            while (q < b_.end && is_digit(b_.text[q]))
                ++q;
            if (p == end || q - p != 3 || number.size() > most_digits)
                break;
            number.append(",").append(between(p, q));
            end = q;
        }
        if (end == first.end)
            return std::nullopt;
        if (end + 1 < b_.end && b_.text[end] == '.' && is_digit(b_.text[end + 1])) {
            std::uint32_t q = end + 1;
            while (q < b_.end && is_digit(b_.text[q]))
                ++q;
            number.append(between(end, q));
            end = q;
        }
        const std::string_view sign = touch(-2, -1) && is_sign(-2) ? text(-2) : "";
        return mended(Code::S106,
                      fmt::format("`{}{}` is not one number: groups of three digits have a comma",
                                  sign, shortened(between(first.begin, end))),
                      first.begin, end, number, std::string(sign) + number);
    }

    // `6 1/2` and `6½`.
    std::optional<Diagnostic> fraction() const {
        const bool mixed = is(-1, TokenKind::Number);
        const std::optional<double> whole = mixed ? value_of(text(-1)) : 0;
        if (!whole)
            return std::nullopt;
        std::optional<double> part;
        std::uint32_t end = token(0).end;
        for (const auto& [sign, value] : vulgar)
            if (text(0) == sign)
                part = value;
        if (!part && mixed && is(0, TokenKind::Number) && text(1) == "/" &&
            is(2, TokenKind::Number) && touch(0, 1) && touch(1, 2) && all_digits(text(-1)) &&
            all_digits(text(0)) && all_digits(text(2))) {
            const std::optional<double> above = value_of(text(0));
            const std::optional<double> below = value_of(text(2));
            if (above && below && *above > 0 && *above < *below)
                part = *above / *below;
            end = token(2).end;
        }
        if (!part)
            return std::nullopt;
        const std::uint32_t begin = token(mixed ? -1 : 0).begin;
        const std::string title =
            fmt::format("`{}` is not one number", shortened(between(begin, end)));
        const double value = *whole + *part;
        if (is_short(value))
            return mended(Code::S106, title, begin, end, fmt::format("{}", value),
                          with_unit(value, end));
        return Diagnostic{
            Code::S106,
            title,
            {{b_.file, begin, end}, ""},
            {},
            {},
            {{"write it with decimals, or as a sum of two values, each in its unit", {}}}};
    }
    // "6.5 ft": with the unit that follows at `end`.
    std::string with_unit(double value, std::uint32_t end) const {
        const Token unit = next_token(b_.text, end, b_.end);
        return unit.kind == TokenKind::Name ? fmt::format("{} {}", value, unit.in(b_.text))
                                            : fmt::format("{}", value);
    }

    // `6 ft 6 in`.
    std::optional<Diagnostic> two_units() const {
        if (!is(-2, TokenKind::Number) || !is(-1, TokenKind::Name) || !is(0, TokenKind::Number) ||
            !is(1, TokenKind::Name))
            return std::nullopt;
        const std::string title =
            fmt::format("`{}` is two values", shortened(between(token(-2).begin, token(1).end)));
        for (const Pair& pair : pairs)
            if (text(-1) == pair.large && text(1) == pair.small)
                if (const auto large = value_of(text(-2)), small = value_of(text(0));
                    large && small)
                    return mended(Code::S106, title, token(-2).begin, token(1).end,
                                  sum(*large, *small, pair));
        return std::nullopt;
    }
    static std::string sum(double large, double small, const Pair& pair) {
        const double value = large + small / pair.count;
        return is_short(value)
                   ? fmt::format("{} {}", value, pair.large)
                   : fmt::format("({} {} + {} {})", large, pair.large, small, pair.small);
    }

    // The number that begins at `p`, and where it ends.
    std::optional<double> number_at(std::uint32_t p, std::uint32_t& end) const {
        const Token t = next_token(b_.text, p, line_end());
        end = t.end;
        return t.kind == TokenKind::Number && t.begin == p ? value_of(t.in(b_.text)) : std::nullopt;
    }
    // `7'` and `6'6"`.
    std::optional<Diagnostic> foot_mark() const {
        const std::optional<double> feet = value_of(text(-1));
        if (!is(-1, TokenKind::Number) || !feet || !touch(-1, 0) || !is_one_of(text(0), foot_marks))
            return std::nullopt;
        std::uint32_t end = token(0).end;
        std::uint32_t p = end;
        while (p < b_.end && (b_.text[p] == ' ' || b_.text[p] == '-'))
            ++p;
        std::uint32_t behind = p;
        const std::optional<double> inches = number_at(p, behind);
        const std::uint32_t mark = inches ? mark_at(behind, inch_marks) : 0;
        std::string write = fmt::format("{} ft", *feet);
        if (mark > 0) {
            end = behind + mark;
            write = sum(*feet, *inches, pairs[0]);
        }
        return mended(Code::S106, "feet and inches are written `ft` and `in`", token(-1).begin, end,
                      std::move(write));
    }

    // `78"`: what follows the number is read as text.
    std::optional<Diagnostic> inch_mark() const {
        for (std::size_t i = 1; i < tokens_.size() && tokens_[i].begin <= b_.at; ++i) {
            const Token& number = tokens_[i - 1];
            const Token& mark = tokens_[i];
            const bool inch =
                mark.kind == TokenKind::Text ||
                (mark.kind == TokenKind::Sign && is_one_of(mark.in(b_.text), inch_marks));
            if (inch && number.kind == TokenKind::Number && number.end == mark.begin)
                return mended(Code::S106, "feet and inches are written `ft` and `in`", number.begin,
                              number.end + std::max(1U, mark_at(mark.begin, inch_marks)),
                              fmt::format("{} in", number.in(b_.text)));
        }
        return std::nullopt;
    }

    // `$38 per h`, `$38 an hour`.
    std::optional<Diagnostic> per() const {
        const bool number = is(-1, TokenKind::Number) || is_sign(-1) ||
                            (is(-1, TokenKind::Name) && is(-2, TokenKind::Number));
        if ((text(0) != "per" && text(0) != "a" && text(0) != "an" && text(0) != "each") ||
            !is(1, TokenKind::Name) || !number)
            return std::nullopt;
        std::uint32_t begin = token(is(-1, TokenKind::Name) ? -2 : -1).begin;
        if (is_sign(-2) && token(-2).end == begin)
            begin = token(-2).begin;
        return mended(Code::S107, "a rate is written with `/`", token(-1).end, token(1).end,
                      fmt::format("/{}", text(1)),
                      fmt::format("{}/{}", between(begin, token(-1).end), text(1)));
    }

    // `USD 38/h`, `AUD 38/h`.
    std::optional<Diagnostic> money_letters() const {
        if (!is(-1, TokenKind::Name) || !is(0, TokenKind::Number) || !is_money_code(text(-1)))
            return std::nullopt;
        if (text(-1) == "USD")
            return mended(Code::S107, "money is written with `$`", token(-1).begin, token(0).begin,
                          "$", "$" + std::string(amount_at(token(0).begin)));
        const std::string behind = fmt::format("{} {}", text(0), text(-1));
        return mended(Code::S107, "the code of money is written after the number", token(-1).begin,
                      token(0).end, behind,
                      behind + std::string(amount_at(token(0).begin).substr(text(0).size())));
    }
    std::string_view amount_at(std::uint32_t begin) const {
        const std::size_t end = b_.text.find_first_of(" \t\n\"#", begin);
        return b_.text.substr(begin, std::min<std::size_t>(end, b_.end) - begin);
    }

    // `$6.5k`.
    std::optional<Diagnostic> thousands() const {
        const std::string_view letter = text(0);
        const double times = letter == "k" || letter == "K" ? 1e3 : letter == "M" ? 1e6 : 0;
        const std::optional<double> value = value_of(text(-1));
        if (times == 0 || !is(-1, TokenKind::Number) || !value || !is_sign(-2) || !touch(-1, 0))
            return std::nullopt;
        const double whole = std::round(*value * times);
        if (std::abs(whole - *value * times) > 1e-6 || whole >= 1e12)
            return std::nullopt;
        const std::string digits = number_text(whole);
        return mended(Code::S106,
                      fmt::format("`{}{}{}` is not a number", text(-2), text(-1), letter),
                      token(-1).begin, token(0).end, digits, std::string(text(-2)) + digits);
    }

    // `$6O/h`.
    std::optional<Diagnostic> letter_for_zero() const {
        const int at = is(-1, TokenKind::Number) ? 0 : -1; // `2OO gal` breaks off behind it
        const std::string_view letters = text(at);
        if (!is(at - 1, TokenKind::Number) || !is(at, TokenKind::Name) || !touch(at - 1, at) ||
            letters.find_first_not_of("oO") != std::string_view::npos)
            return std::nullopt;
        const std::string digits =
            fmt::format("{}{}", text(at - 1), std::string(letters.size(), '0'));
        return mended(Code::S106, "a letter stands in a number", token(at - 1).begin, token(at).end,
                      digits, fmt::format("{}{}", is_sign(at - 2) ? text(at - 2) : "", digits));
    }

    // `$ 38/h`.
    std::optional<Diagnostic> sign_apart() const {
        if (!is_sign(-1) || !is(0, TokenKind::Number))
            return std::nullopt;
        return mended(Code::S106, fmt::format("`{}` stands right before its number", text(-1)),
                      token(-1).begin, token(0).begin, std::string(text(-1)),
                      std::string(text(-1)) + std::string(amount_at(token(0).begin)));
    }
    bool is_sign(int at) const {
        return !text(at).empty() && money_sign_size(text(at)) == text(at).size();
    }
};

} // namespace

std::optional<Diagnostic> describe_number_habit(const Break& b) {
    return NumberHabit(b).run();
}

} // namespace acre::lang
