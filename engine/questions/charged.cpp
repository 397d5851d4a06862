#include "engine/questions/charged.h"

#include <algorithm>
#include <cstddef>

#include "engine/words/money.h"

namespace acre::engine {

bool is_counted(const lang::Unit& unit) {
    const auto& exponent = unit.dim.exponent;
    const auto* const nouns = exponent.begin() + lang::first_noun;
    return unit.scale == lang::Ratio{} &&
           std::all_of(exponent.begin(), nouns, [](std::int8_t e) { return e == 0; }) &&
           std::count(nouns, exponent.end(), 1) == 1 &&
           std::count(nouns, exponent.end(), 0) == exponent.end() - nouns - 1;
}

Billed charged(const lang::Sheet& sheet, const Plan& plan, const Values& values,
               const lang::PriceItem& item, std::uint32_t notation) {
    const auto value = [&](lang::LineId line) {
        const Slot slot = line == lang::none ? no_slot : plan.line_slot[line];
        return slot == no_slot ? 0 : values.slot[slot];
    };
    const double amount = value(item.amount);
    const std::int64_t step = sheet.firm.money.step;
    const double quantity = value(item.quantity);
    if (item.quantity != lang::none && quantity == 0)
        return {0, 0, to_cents(amount, step)}; // of nothing there is no rate
    if (item.quantity == lang::none || !lang::rules_of(notation).quantities_are_rounded)
        return {quantity, value(item.rate), to_cents(amount, step)};
    return bill(amount, quantity, is_counted(sheet.lines[item.quantity].type.unit), step);
}

} // namespace acre::engine
