// Below the lines of a job: how each condition stands, and what is charged, to the cent.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/words/billing.h"

namespace acre::engine {

class SheetWriter;
class JobLines;

inline constexpr std::string_view not_below_zero = "not below 0"; // marks such lines

// How a condition stands, as a number that its format shows in words.
inline constexpr double condition_met = 0, condition_not_met = 1, condition_unknown = 2;
inline constexpr const char* condition_format = "[=0]\"met\";[=1]\"NOT MET\";\"no answer\"";

struct CheckRow {
    enum Kind : std::uint8_t { Require, Within, BelowZero } kind = Require;
    std::size_t index = 0; // of the requirement, of the given
    std::uint32_t row = 0;
    std::string what, message; // the condition, and what it means when it fails
    double state = condition_met;
};
struct ChargedRows { // of an item of the price
    std::uint32_t quantity = 0, amount = 0, cents = 0, rate = 0;
};
struct JobChecks {
    std::vector<CheckRow> conditions;
    std::vector<ChargedRows> items;
    std::uint32_t first_row = 0; // of the title above them
    std::uint32_t failing = 0;   // how many conditions are not met
    std::uint32_t total = 0;     // of what is charged
    std::uint32_t status = 0;    // a text: why this is no price; empty if it is one
    std::uint32_t last_row = 0;
};

// `asked`: by slot, 1 where the price rests on it, on any branch.
JobChecks place_checks(const PricedJob& job, std::uint32_t first_row,
                       const std::vector<char>& asked);
// What is charged now; nothing where the amount has no answer.
Billed charged_for(const PricedJob& job, const lang::PriceItem& item);
void write_checks(const JobLines& lines, SheetWriter& out);

} // namespace acre::engine
