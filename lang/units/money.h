// The money of a firm: its code, its sign, and the step it is rounded to. Nothing is converted.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace acre::lang {

struct Currency {
    std::string code = "USD"; // ISO 4217
    std::string sign = "$";   // letters and money signs only: it is markup nowhere
    std::int64_t step = 1;    // in hundredths: 1 for cents, 5, 100 for whole ones

    // How a unit is written in it: by one of the four signs that stand before a number, or else by
    // its code: "$", "€", "CHF".
    std::string_view word() const;
    int decimals() const { return step % 100 == 0 ? 0 : 2; }

    friend bool operator==(const Currency&, const Currency&) = default;
};

// Three capital letters that ISO 4217 lists as money in use (from memory).
bool is_money_code(std::string_view word);
// How many bytes of `text` are a sign that stands before a number: $ € £ ¥. 0: none.
std::size_t money_sign_size(std::string_view text);
// Whose sign it is where no firm says otherwise: USD of $, EUR of €, GBP of £, JPY of ¥.
std::string_view code_of_sign(std::string_view sign);
// Whether the money is one of those that are written with `$` (dollars, pesos, reais).
bool has_dollars(std::string_view code);

// The money in which the texts of this thread show amounts: that of the job made last, or of the
// record that is shown. All of a page is in one money, so what formats a figure asks here.
const Currency& shown_money();
void show_money(const Currency& money);

} // namespace acre::lang
