#include "engine/questions/what_if/market.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/questions/what_if/break_even_range.h"
#include "engine/questions/what_if/crossings.h"
#include "engine/questions/what_if/curve.h"

namespace acre::engine {
namespace {

using lang::none;

const lang::PriceItem* first_per_unit(const PricedJob& job) {
    const std::vector<lang::PriceItem>& items = job.sheet().prices;
    const auto item = std::find_if(items.begin(), items.end(),
                                   [](const lang::PriceItem& one) { return one.quantity != none; });
    return item == items.end() ? nullptr : &*item;
}

lang::Diagnostic no_price_per_unit() {
    return lang::placeless(lang::Code::Q001, "the model has no price per unit");
}

// Where the curve is at or below zero, between its crossings. What only touches zero changes
// nothing.
std::vector<Range> covered(const BreakEvenAnswer& found, double at_low) {
    std::vector<Range> ranges;
    double from = found.range.low;
    bool enough = at_low <= 0;
    for (const Crossing& crossing : found.crossings) {
        if (crossing.kind != CrossingKind::Root && crossing.kind != CrossingKind::Jump)
            continue;
        // At a step of the price or the cost the curve may be there for less than anyone measures.
        if (crossing.rising && enough && crossing.x - from > 1e-6 * std::fabs(crossing.x))
            ranges.push_back({from, crossing.x});
        enough = !crossing.rising;
        from = crossing.kind == CrossingKind::Jump ? crossing.x_after : crossing.x;
    }
    if (enough)
        ranges.push_back({from, found.range.high});
    return ranges;
}

} // namespace

lang::Outcome<std::string> market_unit(const PricedJob& job) {
    const lang::PriceItem* item = first_per_unit(job);
    if (item == nullptr)
        return no_price_per_unit();
    return "$/" + item->per_text;
}

lang::Outcome<MarketAnswer> ask(const PricedJob& job, const MarketQuestion& question) {
    const lang::Sheet& sheet = job.sheet();
    const lang::PriceItem* item = first_per_unit(job);
    if (item == nullptr)
        return no_price_per_unit();
    lang::Outcome<Axis> axis = number_axis(job, question.given);
    if (!axis)
        return std::move(axis.said);
    lang::Said said = judged(job, {});
    if (said.diagnostics.has_errors())
        return said;
    lang::Outcome<Range> range = range_of(job, *axis, question.between);
    if (!range)
        return std::move(range.said);
    MarketAnswer answer{title_of(job),
                        subject_of(job, axis->line, question.names),
                        axis->value,
                        *range,
                        question.rate,
                        item->per_text,
                        {}};
    const auto curve_of = [&](lang::LineId line) {
        return Curve(job.compiled(), *axis, job.plan().line_slot[line]);
    };
    const Curve quantity = curve_of(item->quantity);
    const Curve overhead = curve_of(sheet.overhead_total);
    for (const MarketAim aim :
         {MarketAim::DirectCost, MarketAim::Overhead, MarketAim::FullMargin}) {
        Curve needed =
            curve_of(aim == MarketAim::FullMargin ? sheet.price_total : sheet.cost_total);
        if (aim == MarketAim::Overhead)
            needed.subtract(overhead, -1);
        needed.subtract(quantity, question.rate);
        MarketThreshold& threshold = answer.thresholds.emplace_back();
        threshold.aim = aim;
        threshold.found.value = axis->value;
        threshold.found.range = *range;
        if (auto beyond = find_crossings(needed, job, threshold.found))
            return std::move(*beyond);
        threshold.covered = covered(threshold.found, needed.at(range->low).y);
    }
    return {std::move(answer), std::move(said)};
}

} // namespace acre::engine
