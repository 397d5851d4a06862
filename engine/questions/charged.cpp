#include "engine/questions/charged.h"

#include <algorithm>
#include <cstddef>

#include "engine/words/money.h"

namespace acre::engine {
namespace {

// By a noun of the model: trees, loads.
bool is_counted(const lang::Unit& unit) {
    const auto& exponent = unit.dim.exponent;
    const auto* const nouns = exponent.begin() + lang::first_noun;
    return unit.scale == lang::Ratio{} &&
           std::all_of(exponent.begin(), nouns, [](std::int8_t e) { return e == 0; }) &&
           std::count(nouns, exponent.end(), 1) == 1 &&
           std::count(nouns, exponent.end(), 0) == exponent.end() - nouns - 1;
}

class Charge {
  public:
    Charge(const Plan& plan, const Values& values) : plan_(plan), values_(values) {}

    double value(lang::LineId line) const {
        const Slot slot = line == lang::none ? no_slot : plan_.line_slot[line];
        return slot == no_slot ? 0 : values_.slot[slot];
    }

    // Whether a minimum in force, or a rounding of the whole, has the last word on the amount.
    bool stands(const lang::PriceItem& item) const {
        for (std::size_t i = item.steps.size(); i-- > 0;) {
            const lang::PriceStep& step = item.steps[i];
            const double before = value(i == 0 ? item.cost : item.steps[i - 1].line);
            const bool rounds = step.kind == lang::ast::StepKind::RoundUp ||
                                step.kind == lang::ast::StepKind::RoundTo;
            if (!rounds && value(step.line) == before)
                continue;
            return !step.per_unit && (rounds || step.kind == lang::ast::StepKind::AtLeast);
        }
        return false;
    }

  private:
    const Plan& plan_;
    const Values& values_;
};

} // namespace

Billed charged(const lang::Sheet& sheet, const Plan& plan, const Values& values,
               const lang::PriceItem& item, std::uint32_t notation) {
    const Charge charge(plan, values);
    const double amount = charge.value(item.amount);
    const double quantity = charge.value(item.quantity);
    if (item.quantity != lang::none && quantity == 0)
        return {0, 0, to_cents(amount)}; // of nothing there is no rate
    if (item.quantity == lang::none || notation < 2)
        return {quantity, charge.value(item.rate), to_cents(amount)};
    return bill(amount, quantity, is_counted(sheet.lines[item.quantity].type.unit),
                charge.stands(item));
}

} // namespace acre::engine
