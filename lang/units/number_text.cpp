#include "lang/units/number_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "lang/units/clock.h"
#include "lang/units/letters.h"
#include "lang/units/money.h"

namespace acre::lang {

std::string sign_before() {
    const std::string& sign = shown_money().sign;
    return is_letter(sign.back()) || sign.back() == '.' ? sign + " " : sign;
}

namespace {

constexpr int exact_digits = 5;
constexpr int shown_digits = 4;

using Buffer = std::array<char, 400>;

// Half up as a calculator does it: 25.025 is 25.03 although the double lies a hair below.
std::string_view fixed(double value, int decimals, Buffer& buffer) {
    if (value != std::floor(value))
        value *= 1 + 1e-12;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::fixed, decimals)
                         .ptr;
    return {buffer.data(), static_cast<std::size_t>(end - buffer.data())};
}

// Digits of the shortest decimal that is this double, and how many of them stand behind the point.
struct Shortest {
    int digits = 0;
    int decimals = 0;
};
Shortest shortest(double value) {
    Buffer buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::scientific)
                         .ptr;
    const std::string_view text{buffer.data(), static_cast<std::size_t>(end - buffer.data())};
    const auto e = text.find('e');
    const int digits = static_cast<int>(e) - (text.find('.') == std::string_view::npos ? 0 : 1);
    int exponent = 0;
    const auto* first = text.data() + e + 1 + (text[e + 1] == '+' ? 1 : 0);
    std::from_chars(first, text.data() + text.size(), exponent);
    return {digits, std::max(0, digits - 1 - exponent)};
}

int exponent_of(double magnitude) {
    return static_cast<int>(std::floor(std::log10(magnitude)));
}

// `digits` as "1234567.50" to "1,234,567.50".
std::string grouped(std::string_view digits) {
    const auto point = std::min(digits.find('.'), digits.size());
    std::string text;
    text.reserve(digits.size() + point / 3);
    for (std::size_t i = 0; i < point; ++i) {
        if (i > 0 && (point - i) % 3 == 0)
            text += ',';
        text += digits[i];
    }
    return text.append(digits.substr(point));
}

std::string without_trailing_zeros(std::string text) {
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.')
            text.pop_back();
    }
    return text;
}

std::string scientific(double magnitude) {
    Buffer buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), magnitude,
                                   std::chars_format::scientific, shown_digits - 1)
                         .ptr;
    const std::string_view text{buffer.data(), static_cast<std::size_t>(end - buffer.data())};
    const auto e = text.find('e');
    int exponent = 0;
    std::from_chars(text.data() + e + 1 + (text[e + 1] == '+' ? 1 : 0), text.data() + text.size(),
                    exponent);
    return without_trailing_zeros(std::string(text.substr(0, e))) + "e" + std::to_string(exponent);
}

std::string magnitude_text(double magnitude, int least_decimals) {
    if (magnitude >= 1e15 || (magnitude > 0 && magnitude < 1e-4))
        return scientific(magnitude);
    Buffer buffer;
    if (magnitude == 0)
        return grouped(fixed(0.0, least_decimals, buffer));
    const Shortest exact = shortest(magnitude);
    if (exact.digits <= exact_digits || magnitude == std::floor(magnitude))
        return grouped(fixed(magnitude, std::max(exact.decimals, least_decimals), buffer));
    int decimals = std::max(least_decimals, shown_digits - 1 - exponent_of(magnitude));
    std::string text(fixed(magnitude, decimals, buffer));
    for (; decimals > least_decimals && text.back() == '0'; --decimals)
        text.pop_back();
    if (text.back() == '.')
        text.pop_back();
    return grouped(text);
}

std::string signed_text(double value, std::string_view before, int least_decimals,
                        std::string_view after) {
    if (std::isnan(value))
        return "no answer";
    std::string text = std::signbit(value) && value != 0 ? "-" : "";
    text.append(before);
    text += std::isinf(value) ? "infinite" : magnitude_text(std::abs(value), least_decimals);
    return text.append(after);
}

std::string amount_text(double value) {
    const bool whole = std::abs(value - std::round(value)) <= 1e-9 * std::max(1.0, std::abs(value));
    return whole || !std::isfinite(value) ? signed_text(std::round(value), sign_before(), 0, "")
                                          : money_text(value);
}

// Above a dollar the cents are what a bill shows; below it the digits that matter. An author's own
// digits stay. Of money without cents, whole ones are shown from a hundred on.
std::string money_rate_text(double value, std::string_view per) {
    const int decimals = shown_money().decimals();
    const double magnitude = std::abs(value);
    const bool long_tail = std::isfinite(value) && magnitude >= (decimals == 0 ? 100 : 1) &&
                           magnitude < 1e13 && shortest(magnitude).digits > exact_digits;
    return long_tail ? money_text(value).append(per)
                     : signed_text(value, sign_before(), decimals, per);
}

} // namespace

std::size_t money_in(std::string_view unit_text) {
    for (const std::string_view word : {std::string_view("$"), shown_money().word()})
        if (unit_text.starts_with(word) &&
            (unit_text.size() == word.size() || unit_text[word.size()] == '/'))
            return word.size();
    return 0;
}

std::string number_text(double value) {
    return signed_text(value, "", 0, "");
}

std::string quantity_text(double value, std::string_view unit_text) {
    if (unit_text.empty() || unit_text == "1")
        return number_text(value);
    if (unit_text == clock_unit)
        return clock_text(value);
    if (const std::size_t money = money_in(unit_text); money > 0)
        return money == unit_text.size() ? amount_text(value)
                                         : money_rate_text(value, unit_text.substr(money));
    return signed_text(value, "", 0, "").append(" ").append(unit_text);
}

std::string spoken_text(double value, std::string_view unit_text) {
    if (unit_text.starts_with("1/"))
        return number_text(value).append(" per ").append(unit_text.substr(2));
    std::string text = quantity_text(value, unit_text);
    // A noun: "day", "shift", "ton" and whatever models count. Signs are short, or stand here.
    constexpr std::array<std::string_view, 12> no_nouns = {
        "gal", "bcy", "lcy", "cwt", "min", "clock", "deg", "rad", "lbf", "kgf", "psi", "psf"};
    const bool noun = unit_text.size() > 2 &&
                      std::all_of(unit_text.begin(), unit_text.end(),
                                  [](char c) { return c >= 'a' && c <= 'z'; }) &&
                      std::find(no_nouns.begin(), no_nouns.end(), unit_text) == no_nouns.end();
    if (!noun || number_text(value) == "1" || number_text(value) == "-1")
        return text;
    const bool hisses = unit_text.ends_with('s') || unit_text.ends_with('x') ||
                        unit_text.ends_with("ch") || unit_text.ends_with("sh");
    return text += hisses ? "es" : "s";
}

std::string written_text(double value, std::string_view unit_text) {
    return unit_text == clock_unit ? written_clock(value) : quantity_text(value, unit_text);
}

namespace {

std::string fixed_text(double value, int decimals, std::string_view before) {
    const double magnitude = std::abs(value);
    if (!(magnitude < 1e15))
        return signed_text(value, before, 0, "");
    Buffer buffer;
    const std::string_view digits = fixed(magnitude, decimals, buffer);
    const bool zero = digits.find_first_not_of("0.") == std::string_view::npos;
    return (value < 0 && !zero ? "-" : "") + std::string(before) + grouped(digits);
}

} // namespace

std::string fixed_text(double value, int decimals) {
    return fixed_text(value, decimals, "");
}

std::string money_text(double amount) {
    return money_text(amount, shown_money().decimals());
}

std::string money_text(double amount, int decimals) {
    return fixed_text(amount, decimals, sign_before());
}

std::string cents_text(std::int64_t cents) {
    const std::uint64_t magnitude =
        cents < 0 ? 0 - static_cast<std::uint64_t>(cents) : static_cast<std::uint64_t>(cents);
    std::string digits = std::to_string(magnitude / 100);
    if (shown_money().decimals() > 0 || magnitude % 100 != 0) {
        digits += '.';
        digits += static_cast<char>('0' + magnitude % 100 / 10);
        digits += static_cast<char>('0' + magnitude % 10);
    }
    return (cents < 0 ? "-" : "") + sign_before() + grouped(digits);
}

} // namespace acre::lang
