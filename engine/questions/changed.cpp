#include "engine/questions/changed.h"

#include <limits>
#include <utility>

#include "engine/questions/subject.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

ChangedFigure figure(const char* name, const char* label, const std::string& unit, double before,
                     double after) {
    return {name,
            label,
            unit,
            before,
            after,
            lang::quantity_text(before, unit),
            lang::quantity_text(after, unit)};
}

} // namespace

std::optional<ChangedPrice> changed_price(const PricedJob& before, const PricedJob& after) {
    const lang::Outcome<Estimate> old_price = estimate(before), new_price = estimate(after);
    if (!old_price || !new_price)
        return std::nullopt;
    const Earnings &a = old_price->earnings, &b = new_price->earnings;
    const std::string& own = after.sheet().units.money();
    const auto money = [&](const char* name, const char* label, double old, double now) {
        return ChangedFigure{
            name, label, own, old, now, lang::money_text(old), lang::money_text(now)};
    };
    ChangedPrice changed;
    changed.figures.push_back(money("price.total", "price", a.price, b.price));
    if (!old_price->per.empty() && old_price->per == new_price->per)
        changed.figures.push_back(figure("price.per_unit", "price, all in",
                                         own + "/" + old_price->per, old_price->price_per_unit,
                                         new_price->price_per_unit));
    changed.figures.push_back(money("cost.total", "direct cost", a.direct_cost, b.direct_cost));
    changed.figures.push_back(money("overhead.total", "overhead carried", a.overhead, b.overhead));
    changed.figures.push_back(money("profit.total", "profit", a.profit(), b.profit()));
    changed.figures.push_back(
        figure("profit.share", "margin", "%", 100 * a.margin(), 100 * b.margin()));
    BridgeQuestion question;
    question.total = true;
    if (lang::Outcome<BridgeAnswer> why = ask(before, after, question))
        changed.why = std::move(*why);
    return changed;
}

std::optional<ChangedFigure> changed_line(const PricedJob& before, const PricedJob& after,
                                          std::string_view line) {
    const lang::LineId a = before.sheet().find(line), b = after.sheet().find(line);
    if (a == lang::none || b == lang::none)
        return std::nullopt;
    const Subject old_line = subject_of(before, a), new_line = subject_of(after, b);
    if (old_line.is_choice() != new_line.is_choice() || old_line.unit != new_line.unit)
        return std::nullopt;
    ChangedFigure changed{
        new_line.name, new_line.label, new_line.unit, before.value(a), after.value(b), {}, {}};
    changed.before_text = old_line.text(changed.before);
    changed.after_text = new_line.text(changed.after);
    if (new_line.is_choice())
        changed.before = changed.after = std::numeric_limits<double>::quiet_NaN();
    return changed;
}

} // namespace acre::engine
