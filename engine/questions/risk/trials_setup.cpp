#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/priced_job.h"
#include "engine/questions/risk/trials.h"
#include "engine/questions/what_if/reach.h"
#include "engine/words/money.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::none;
constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

// The lower triangular root of a symmetric matrix (Cholesky), by row; false when the matrix is none
// of correlations.
bool root_of(std::vector<double>& a, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = a[i * n + j];
            for (std::size_t k = 0; k < j; ++k)
                sum -= a[i * n + k] * a[j * n + k];
            if (i == j && !(sum > 1e-12))
                return false;
            a[i * n + j] = i == j ? std::sqrt(sum) : sum / a[j * n + j];
        }
    return true;
}

} // namespace

std::optional<Trials> Trials::make(const PricedJob& job, const RiskQuestion& question, Risk& result,
                                   Refusal& refusal) {
    const Compiled& compiled = job.compiled();
    Trials trials;
    if (!trials.read_factors(job, result, refusal) ||
        !trials.read_correlations(job, result, refusal) ||
        !trials.read_targets(job, question, result, refusal))
        return std::nullopt;
    std::vector<std::optional<Range>> promised;
    for (const Axis& axis : trials.axes_)
        promised.push_back(axis.swing);
    for (std::size_t f = 0; f < trials.factors(); ++f)
        trials.alone_.push_back(f);
    trials.reader_.emplace(compiled, trials.axes_, trials.targets_, trials.targets_.size(),
                           promised);
    return trials;
}

bool Trials::read_factors(const PricedJob& job, Risk& result, Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    std::vector<char> is_input(sheet.lines.size(), 0);
    for (const Axis& axis : all_axes(job)) {
        is_input[axis.line] = 1;
        if (!axis.swing || axis.options > 0)
            continue;
        if (!swing_is_sound(sheet, axis, refusal))
            return false;
        axes_.push_back(axis);
        shapes_.push_back(shape_of(axis));
        result.factors.push_back(
            {axis, 0, sheet.lines[axis.line].name, sheet.lines[axis.line].label});
    }
    for (const lang::Given& given : sheet.givens)
        if (!is_input[given.line] && given.swing_low != none)
            result.not_drawn.push_back(given.line);
    if (sheet.cost_total != none)
        for (std::uint32_t e = 0; e < sheet.events.size(); ++e)
            result.factors.push_back({std::nullopt, e, sheet.lines[sheet.events[e].count].name,
                                      sheet.lines[sheet.events[e].count].label});
    if (result.factors.empty()) {
        refusal = {"nothing in this job swings",
                   {"give the givens that move a swing: swing LOW .. HIGH"}};
        return false;
    }
    if (result.factors.size() * 2 > max_point_dimensions) {
        refusal = {fmt::format("{} givens swing; at most {} can be drawn together",
                               lang::number_text(static_cast<double>(result.factors.size())),
                               lang::number_text(max_point_dimensions / 2)),
                   {}};
        return false;
    }
    return true;
}

bool Trials::read_correlations(const PricedJob& job, Risk& result, Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    place_together_.assign(axes_.size(), nowhere);
    const auto axis_of = [&](std::uint32_t given) {
        const auto at = std::find_if(axes_.begin(), axes_.end(),
                                     [&](const Axis& axis) { return axis.given == given; });
        return at == axes_.end() ? nowhere : static_cast<std::size_t>(at - axes_.begin());
    };
    struct Pair {
        std::size_t first, second;
        double strength;
    };
    std::vector<Pair> pairs;
    for (std::size_t k = 0; k < sheet.correlations.size(); ++k) {
        const lang::Correlation& correlation = sheet.correlations[k];
        const std::size_t first = axis_of(correlation.first), second = axis_of(correlation.second);
        if (first == nowhere || second == nowhere || first == second)
            continue; // one of them stands still in this job
        const double strength = values.slot[compiled.plan.correlation_slot[k]];
        if (!(std::fabs(strength) <= 1)) {
            refusal = {fmt::format("`{}` and `{}` cannot move together by {:g} %",
                                   result.factors[first].name, result.factors[second].name,
                                   strength * 100),
                       {"write a share between -100 % and 100 %"}};
            return false;
        }
        pairs.push_back({first, second, strength});
        for (const std::size_t axis : {first, second})
            if (place_together_[axis] == nowhere) {
                place_together_[axis] = together_.size();
                together_.push_back(axis);
            }
    }
    result.dependent = !together_.empty();
    if (together_.empty())
        return true;
    const std::size_t n = together_.size();
    mix_.assign(n * n, 0);
    for (std::size_t i = 0; i < n; ++i)
        mix_[i * n + i] = 1;
    for (const Pair& pair : pairs) {
        // The strength is that of ranks; normal deviates of this correlation have it. All the way
        // together is a hair less.
        const double normal =
            std::clamp(2 * std::sin(std::acos(-1.0) * pair.strength / 6), -0.999999, 0.999999);
        const std::size_t i = place_together_[pair.first], j = place_together_[pair.second];
        mix_[i * n + j] = mix_[j * n + i] = normal;
    }
    if (!root_of(mix_, n)) {
        refusal = {"the correlations contradict each other: no givens can move together like this",
                   {"weaken one of them"}};
        return false;
    }
    normal_ = normal_quantiles();
    shares_ = normal_shares();
    return true;
}

bool Trials::read_targets(const PricedJob& job, const RiskQuestion& question, Risk& result,
                          Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    const Plan& plan = compiled.plan;
    const auto measured = [&](std::string name, lang::LineId line, std::string unit) {
        Measured m;
        m.name = std::move(name);
        m.line = line;
        m.unit = std::move(unit);
        result.measured.push_back(std::move(m));
    };
    std::vector<std::string_view> names = question.lines;
    if (names.empty())
        names.emplace_back();
    for (const std::string_view name : names) {
        const auto line = line_named(sheet, compiled, name, refusal);
        if (!line)
            return false;
        targets_.push_back(plan.line_slot[*line]);
        measured(sheet.lines[*line].name, *line, unit_text(sheet, sheet.lines[*line]));
    }
    lines_ = targets_.size();
    has_price_ = sheet.cost_total != none && !sheet.prices.empty();
    if (!has_price_)
        return true;
    const auto target = [&](lang::LineId line) {
        targets_.push_back(plan.line_slot[line]);
        return targets_.size() - 1;
    };
    cost_ = target(sheet.cost_total);
    double quoted = 0;
    for (const lang::PriceItem& item : sheet.prices)
        quoted += static_cast<double>(to_cents(values.slot[plan.line_slot[item.amount]])) / 100;
    paid_ = question.total.value_or(quoted);
    if (!(paid_ > 0) || !std::isfinite(paid_)) {
        refusal = {"the price is not above zero", {}};
        return false;
    }
    for (const lang::PriceItem& item : sheet.prices) {
        const double amount =
            static_cast<double>(to_cents(values.slot[plan.line_slot[item.amount]])) / 100 *
            (paid_ / quoted);
        if (question.lump || item.quantity == none)
            lumps_ += amount;
        else
            items_.push_back(
                {target(item.quantity), amount / values.slot[plan.line_slot[item.quantity]]});
    }
    const std::vector<char> in_cost = rested_on(plan, std::span(&targets_[cost_], 1));
    for (const lang::Event& event : sheet.events) {
        const bool counted = in_cost[plan.line_slot[event.amount]] != 0;
        const std::size_t count = target(event.count), money = target(event.money);
        events_.push_back({count, money, counted});
    }
    measured("cost", none, "$");
    measured("profit", none, "$");
    measured("margin", none, "1");
    result.paid = paid_;
    return true;
}

} // namespace acre::engine
