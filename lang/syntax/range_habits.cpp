// Ranges where one value stands, and ranges of other habits: `5..7 ft`, `6 ft ± 1 ft`,
// `swing 5 ft to 7 ft`.
#include <array>
#include <charconv>
#include <optional>

#include <fmt/format.h>

#include "lang/syntax/broken_tokens.h"
#include "lang/syntax/habits.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

constexpr auto range_signs = std::to_array<std::string_view>({"..", "\u2026", "to", "\u2013"});
constexpr auto signs_of_units = std::to_array<std::string_view>({"/", ".", "^", "%"});
constexpr auto plus_and_minus = std::to_array<std::string_view>({"+", "-", "/", "\u00B1"});
constexpr auto dashes = std::to_array<std::string_view>({"-", "\u2013"});

// A number as written, with the sign of money before it and the unit behind it.
struct Measure {
    std::string_view sign, number, unit;

    std::string with(std::string_view other_number, std::string_view other_unit) const {
        const bool apart = !other_unit.empty() && other_unit.front() != '/';
        return fmt::format("{}{}{}{}", sign, other_number, apart ? " " : "", other_unit);
    }
    std::string text(std::string_view unit_if_none = {}) const {
        return with(number, unit.empty() ? unit_if_none : unit);
    }
    std::optional<double> value() const {
        double out = 0;
        const auto [end, error] =
            std::from_chars(number.data(), number.data() + number.size(), out);
        return error == std::errc() && end == number.data() + number.size() ? std::optional(out)
                                                                            : std::nullopt;
    }
};

class RangeHabit : private BrokenTokens {
  public:
    using BrokenTokens::BrokenTokens;

    std::optional<Diagnostic> run() const {
        if (text(-1) == ".." && text(0) == "." && touch(-1, 0))
            return mended(Code::S103, "a range is written with `..`", token(-1).begin, token(0).end,
                          "..");
        if (std::optional<Diagnostic> d = share_for_a_swing())
            return d;
        if (b_.expected == Expected::Dots)
            return other_dots();
        if (b_.statement != Keyword::Set && b_.statement != Keyword::Given)
            return std::nullopt;
        for (const auto look : {&RangeHabit::plus_or_minus, &RangeHabit::range_for_a_value})
            if (std::optional<Diagnostic> d = (this->*look)())
                return d;
        return std::nullopt;
    }

  private:
    // The measure between two tokens; nothing: something else stands there.
    std::optional<Measure> measure(int first, int last) const {
        if (last < first || at_ + first < 0 || !is(first, TokenKind::Number))
            return std::nullopt;
        for (int i = first + 1; i <= last; ++i)
            if (!is(i, TokenKind::Name) && !is_one_of(text(i), signs_of_units))
                return std::nullopt;
        Measure out{"", text(first), ""};
        if (last > first)
            out.unit = between(token(first + 1).begin, token(last).end);
        const std::string_view sign = text(first - 1);
        if (at_ + first > 0 && touch(first - 1, first) && money_sign_size(sign) == sign.size())
            out.sign = sign;
        return out;
    }
    // The measure that ends right before token `end`.
    std::optional<Measure> measure_before(int end) const {
        int first = end - 1;
        while (at_ + first > 0 && !is(first, TokenKind::Number))
            --first;
        return measure(first, end - 1);
    }
    // The measure that begins at token `first`, with all that belongs to it.
    std::optional<Measure> measure_from(int first, int& behind) const {
        if (money_sign_size(text(first)) > 0)
            ++first;
        for (behind = first + 1; touch(behind - 1, behind) || behind == first + 1; ++behind) {
            const bool name =
                is(behind, TokenKind::Name) && keyword_of(text(behind)) == Keyword::None;
            if (!name && !is_one_of(text(behind), signs_of_units))
                break;
        }
        return measure(first, behind - 1);
    }

    // `set depth = 5 ft .. 7 ft`, `5..7 ft`, `5 ft to 7 ft`.
    std::optional<Diagnostic> range_for_a_value() const {
        int behind = 0;
        const std::optional<Measure> low = measure_before(0);
        const std::optional<Measure> high = measure_from(1, behind);
        if (!is_one_of(text(0), range_signs) || !low || !high)
            return std::nullopt;
        Diagnostic d{Code::S110,
                     "a value is one figure, not a range",
                     {{b_.file, token(0).begin, token(behind - 1).end}, ""},
                     {},
                     {},
                     {}};
        d.helps.push_back({fmt::format("write the one figure, and behind it how far it may go:  "
                                       "swing {} .. {}",
                                       low->text(high->unit), high->text()),
                           {}});
        return d;
    }

    // `6 ft ± 1 ft` and `6 ft +/- 10 %`.
    std::optional<Diagnostic> plus_or_minus() const {
        const bool one_sign = text(0) == "\u00B1";
        const bool three =
            text(-1) == "+" && text(0) == "/" && text(1) == "-" && touch(-1, 0) && touch(0, 1);
        if (!one_sign && !three)
            return std::nullopt;
        const int sign = one_sign ? 0 : -1;
        int behind = 0;
        const std::optional<Measure> value = measure_before(sign);
        const std::optional<Measure> far = measure_from(one_sign ? 1 : 2, behind);
        const Span span{b_.file, token(sign).begin, token(behind - 1).end};
        Diagnostic d{Code::S110, "how far a value may go is its swing", {span, ""}, {}, {}, {}};
        const std::string swing = value && far ? swing_of(*value, *far) : "";
        if (swing.empty())
            d.helps.push_back({"write  swing LOW .. HIGH  behind the value", {}});
        else
            d.helps.push_back({fmt::format("write  {}", swing), Edit{span, swing}});
        return d;
    }
    // `swing 10 %`, `swing +-10 %`.
    std::optional<Diagnostic> share_for_a_swing() const {
        int sign = 0;
        while (at_ + sign > 0 && text(sign) != "swing")
            --sign;
        int number = sign + 1;
        while (number <= 3 && is_one_of(text(number), plus_and_minus))
            ++number;
        const std::string_view digits = text(number);
        const Measure far{"", digits, "%"};
        if (text(sign) != "swing" || text(number + 1) != "%" || !is(number, TokenKind::Number) ||
            !far.value() || *far.value() >= 100)
            return std::nullopt;
        int behind = number + 2;
        if (text(behind) == "of" && text(behind + 1) == "it")
            behind += 2;
        const bool clause =
            is(behind, TokenKind::Name) && keyword_of(text(behind)) != Keyword::None;
        if (!is(behind, TokenKind::End) && !is(behind, TokenKind::Text) && !clause)
            return std::nullopt; // `swing 10 % .. 20 %`, `swing 10 % down, 20 % up`
        const Span span{b_.file, token(sign).begin, token(behind - 1).end};
        const std::string swing = swing_of(Measure{"", "100", ""}, far);
        Diagnostic d{Code::S103, "a swing goes from a low end to a high one", {span, ""}, {}, {},
                     {}};
        const Measure value = share_before(sign);
        const std::string points =
            behind == number + 2 && value.unit == "%" ? swing_of(value, far) : "";
        if (points.empty()) {
            d.helps.push_back({fmt::format("write  {}", swing), Edit{span, swing}});
            return d;
        }
        d.helps.push_back({fmt::format("for {} points either way, write  {}", digits, points), {}});
        d.helps.push_back({fmt::format("for {} % of it, write  {}", digits, swing), {}});
        return d;
    }
    // The value of `given lost = 15 %`; none where it is no share.
    Measure share_before(int end) const {
        for (int at = end - 1; at_ + at > 1; --at)
            if (text(at) == "%" && is(at - 1, TokenKind::Number) && text(at - 2) == "=")
                return {"", text(at - 1), "%"};
        return {};
    }
    static std::string swing_of(const Measure& value, const Measure& far) {
        const bool share = far.unit == "%" && value.unit != "%";
        const std::optional<double> middle = share ? 100 : value.value();
        const std::optional<double> half = far.value();
        if (!middle || !half || (!share && (far.unit != value.unit || far.sign != value.sign)))
            return "";
        return fmt::format("swing {} .. {}{}", far.with(number_text(*middle - *half), far.unit),
                           far.with(number_text(*middle + *half), far.unit), share ? " of it" : "");
    }

    // `swing 5 ft to 7 ft`, `within 5 ft - 7 ft`: a range of two measures, but not by `..`.
    std::optional<Diagnostic> other_dots() const {
        int sign = 0;
        if (!is_one_of(text(0), range_signs))
            for (sign = -1; at_ + sign > 0 && !is_one_of(text(sign), dashes); --sign)
                if (is(sign, TokenKind::Name) && keyword_of(text(sign)) != Keyword::None)
                    return std::nullopt;
        int behind = 0;
        const std::optional<Measure> low = measure_before(sign);
        const std::optional<Measure> high = measure_from(sign + 1, behind);
        if (!low || !high || (sign < 0 && behind != 0))
            return std::nullopt;
        return mended(Code::S103, "a range is written with `..`", token(sign).begin,
                      token(sign).end, "..",
                      fmt::format("{} .. {}", low->text(high->unit), high->text()));
    }
};

} // namespace

std::optional<Diagnostic> describe_range_habit(const Break& b) {
    return RangeHabit(b).run();
}

} // namespace acre::lang
