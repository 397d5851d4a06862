// Numbers as people read them: thousands grouped, no more digits than carry meaning, the unit where
// it is said.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace acre::lang {

// "1,850,000", "0.9892", "2.5e-7". A number that takes five digits or fewer, or is whole, is shown
// as it is ("12.125"); any other is rounded to four significant digits, never fewer than its whole
// part has. NaN is "no answer".
std::string number_text(double value);

// The number with its unit as the author writes it: "80 ac", "18 %", "$4.35/gal", "$1,850,000",
// "-$12.50/ac". Money per something has cents at least; a plain number (unit "1" or empty) stands
// alone. A clock time is shown as people say it: "7:30 pm".
std::string quantity_text(double value, std::string_view unit_text);
// The same in a sentence: "30 days", "1 day", "3,000 trees", "2 per day". Units that are signs stay
// signs.
std::string spoken_text(double value, std::string_view unit_text);
// The same as a file has it, to be pasted: a clock time is "19:30".
std::string written_text(double value, std::string_view unit_text);

// So many decimals whatever they are, for a column of figures: "1,234.50", "-0.1", "0" for -0.04
// without decimals. Half up as a calculator rounds. From 1e15 on as number_text has it.
std::string fixed_text(double value, int decimals);

// The sign of the money shown as it stands before a number: "$", "A$", "kr ".
std::string sign_before();

// The texts of money have the sign and the decimals of the money that is shown (money.h).
//
// Money to the cent: "$1,234.50", "-$0.07", "¥1,235". For columns of amounts. Cents are hundredths.
std::string money_text(double amount);
std::string money_text(double amount, int decimals);
std::string cents_text(std::int64_t cents);
// How many bytes a unit of money or of money per something begins with for the money: 1 of "$/ac",
// 3 of "CHF/h". 0: another unit.
std::size_t money_in(std::string_view unit_text);

} // namespace acre::lang
