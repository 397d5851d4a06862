#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/job/priced_job.h"
#include "engine/questions/charged.h"
#include "engine/questions/earnings.h"
#include "engine/questions/risk/held.h"
#include "engine/questions/risk/trials.h"
#include "engine/questions/what_if/reach.h"
#include "engine/questions/what_if/relaid.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::none;
using lang::placeless;
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

struct UnsaidPair {
    std::size_t first = 0, second = 0, third = 0;
    double strength = 0; // what the third alone makes of it
};
std::optional<UnsaidPair> strongest_unsaid(const std::vector<double>& a, std::size_t n) {
    UnsaidPair best;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = i + 1; j < n; ++j)
            for (std::size_t k = 0; k < n && a[i * n + j] == 0; ++k)
                if (const double strength = a[i * n + k] * a[k * n + j];
                    std::fabs(strength) > std::fabs(best.strength))
                    best = {i, j, k, strength};
    return best.strength == 0 ? std::nullopt : std::optional(best);
}

// The first pair to say something of, where saying it of all such pairs leaves no contradiction.
std::optional<UnsaidPair> unsaid_pair(std::vector<double> a, std::size_t n) {
    constexpr std::size_t most_tried = 20;
    const std::optional<UnsaidPair> first = strongest_unsaid(a, n);
    if (!first || n > most_tried)
        return std::nullopt;
    for (std::optional<UnsaidPair> next = first; next; next = strongest_unsaid(a, n))
        a[next->first * n + next->second] = a[next->second * n + next->first] = next->strength;
    return root_of(a, n) ? first : std::nullopt;
}

std::size_t axis_of(const std::vector<Axis>& axes, std::uint32_t given) {
    const auto at = std::find_if(axes.begin(), axes.end(),
                                 [&](const Axis& axis) { return axis.given == given; });
    return at == axes.end() ? nowhere : static_cast<std::size_t>(at - axes.begin());
}

} // namespace

lang::Outcome<Trials> Trials::make(const PricedJob& job, const RiskQuestion& question,
                                   RiskAnswer& result) {
    Trials trials;
    if (Fault fault = trials.read_factors(job, question, result))
        return std::move(*fault);
    if (Fault fault = trials.read_correlations(job, result))
        return std::move(*fault);
    if (Fault fault = trials.read_targets(job, question, result))
        return std::move(*fault);
    const std::size_t judged = trials.targets_.size();
    std::vector<std::optional<Range>> promised;
    for (const Axis& axis : trials.axes_)
        promised.push_back(axis.swing);
    trials.refusals_.read(job, trials.axes_, PlanBounds(job.plan(), trials.axes_, promised),
                          trials.targets_, result);
    for (std::size_t f = 0; f < trials.factors(); ++f)
        trials.alone_.push_back(f);
    trials.reader_.emplace(job.compiled(), trials.axes_, trials.targets_, judged, promised);
    return trials;
}

Trials::Fault Trials::read_factors(const PricedJob& job, const RiskQuestion& question,
                                   RiskAnswer& result) {
    const lang::Sheet& sheet = job.sheet();
    const lang::Outcome<DrawnGivens> drawn = DrawnGivens::read(job, question);
    if (!drawn)
        return drawn.said.diagnostics.all().front();
    const std::vector<Axis> axes = all_axes(job);
    result.held = drawn->held(job, axes);
    LaidOut laid_out(job);
    for (const Axis& axis : axes) {
        if (!drawn->draws(axis))
            continue;
        if (Fault trouble = swing_trouble(job, axis))
            return trouble;
        if (laid_out.otherwise(axis))
            return laid_out_by(job, axis);
        axes_.push_back(axis);
        shapes_.push_back(shape_of(axis));
        Factor& factor = result.factors.emplace_back();
        factor.given = subject_of(job, axis.line, question.names);
        factor.swing = axis.swing;
        factor.of_it = axis.is_share;
        if (axis.is_share) {
            factor.given.unit = "%";
            factor.swing = Range{axis.swing->low * 100, axis.swing->high * 100};
        }
    }
    if (sheet.cost_total != none)
        for (const lang::Event& event : sheet.events)
            result.factors.push_back({subject_of(job, event.count, question.names), {}, false});
    if (result.factors.empty())
        return placeless(lang::Code::Q005, "nothing in this job swings", {},
                         {"give the givens that move a swing: swing LOW .. HIGH"});
    if (result.factors.size() * 2 > max_point_dimensions)
        return placeless(lang::Code::Q006,
                         fmt::format("{} givens swing; at most {} can be drawn together",
                                     lang::number_text(static_cast<double>(result.factors.size())),
                                     lang::number_text(max_point_dimensions / 2)));
    return std::nullopt;
}

Trials::Fault Trials::read_correlations(const PricedJob& job, RiskAnswer& result) {
    const lang::Sheet& sheet = job.sheet();
    place_together_.assign(axes_.size(), nowhere);
    for (const lang::Correlation& correlation : sheet.correlations) {
        const std::size_t pair[] = {axis_of(axes_, correlation.first),
                                    axis_of(axes_, correlation.second)};
        if (pair[0] == nowhere || pair[1] == nowhere || pair[0] == pair[1])
            continue; // one of them does not move in this job
        for (const std::size_t axis : pair)
            if (place_together_[axis] == nowhere) {
                place_together_[axis] = together_.size();
                together_.push_back(axis);
            }
    }
    result.dependent = !together_.empty();
    if (together_.empty())
        return std::nullopt;
    if (Fault fault = mix(job, result))
        return fault;
    normal_ = normal_quantiles();
    shares_ = normal_shares();
    return std::nullopt;
}

Trials::Fault Trials::mix(const PricedJob& job, const RiskAnswer& result) {
    const lang::Sheet& sheet = job.sheet();
    const std::size_t n = together_.size();
    mix_.assign(n * n, 0);
    for (std::size_t i = 0; i < n; ++i)
        mix_[i * n + i] = 1;
    for (std::size_t k = 0; k < sheet.correlations.size(); ++k) {
        const std::size_t first = axis_of(axes_, sheet.correlations[k].first),
                          second = axis_of(axes_, sheet.correlations[k].second);
        if (first == nowhere || second == nowhere || first == second)
            continue;
        const double strength = job.values().slot[job.plan().correlation_slot[k]];
        if (!(std::fabs(strength) <= 1))
            return placeless(lang::Code::Q008,
                             fmt::format("`{}` and `{}` cannot move together by {:g} %",
                                         result.factors[first].given.name,
                                         result.factors[second].given.name, strength * 100),
                             {}, {"write a share between -100 % and 100 %"});
        // The strength is that of ranks; normal deviates of this correlation have it. All the way
        // together is a hair less.
        const double normal =
            std::clamp(2 * std::sin(std::acos(-1.0) * strength / 6), -0.999999, 0.999999);
        const std::size_t i = place_together_[first], j = place_together_[second];
        mix_[i * n + j] = mix_[j * n + i] = normal;
    }
    if (std::vector<double> root = mix_; root_of(root, n)) {
        mix_ = std::move(root);
        return std::nullopt;
    }
    return placeless(
        lang::Code::Q008,
        "the correlations contradict each other: no givens can move together like this", {},
        {weaken_or_say(result)});
}

// Two givens that both go with a third have a correlation, and nobody may have said it: without a
// word it is none, which the two others may not leave room for.
std::string Trials::weaken_or_say(const RiskAnswer& result) const {
    const auto name = [&](std::size_t i) { return result.factors[together_[i]].given.name; };
    const std::optional<UnsaidPair> pair = unsaid_pair(mix_, together_.size());
    if (!pair)
        return "weaken one of them";
    return fmt::format("`{0}` and `{1}` both move with `{2}`; without a word they do not move with "
                       "each other: write  correlate {0}, {1} {3:.0f} %, or weaken one of the two",
                       name(pair->first), name(pair->second), name(pair->third),
                       600 / std::acos(-1.0) * std::asin(pair->strength / 2));
}

Trials::Fault Trials::read_targets(const PricedJob& job, const RiskQuestion& question,
                                   RiskAnswer& result) {
    const lang::Sheet& sheet = job.sheet();
    std::vector<std::string> names = question.lines;
    if (names.empty())
        names.emplace_back();
    for (const std::string& name : names) {
        lang::Outcome<lang::LineId> line = find_line(job, name);
        if (!line)
            return line.said.diagnostics.all().front();
        targets_.push_back(job.plan().line_slot[*line]);
        const Subject subject = asked_subject(job, *line, question.names);
        Measured& measured = result.measured.emplace_back();
        measured.name = subject.name;
        measured.called = subject.called;
        measured.unit = subject.unit;
    }
    lines_ = targets_.size();
    has_price_ = sheet.cost_total != none && !sheet.prices.empty();
    return has_price_ ? read_money(job, question, result) : std::nullopt;
}

Trials::Fault Trials::read_money(const PricedJob& job, const RiskQuestion& question,
                                 RiskAnswer& result) {
    const lang::Sheet& sheet = job.sheet();
    const Plan& plan = job.plan();
    const std::vector<double>& value = job.values().slot;
    const auto target = [&](lang::LineId line) {
        targets_.push_back(plan.line_slot[line]);
        return targets_.size() - 1;
    };
    cost_ = target(sheet.cost_total);
    const auto quoted_for = [&](const lang::PriceItem& item) {
        return static_cast<double>(
                   charged(sheet, plan, job.values(), item, job.request().notation).cents) /
               100;
    };
    double quoted = 0;
    for (const lang::PriceItem& item : sheet.prices)
        quoted += quoted_for(item);
    paid_ = question.total.value_or(quoted);
    if (!(paid_ > 0) || !std::isfinite(paid_))
        return placeless(lang::Code::Q005, "the price is not above zero");
    for (const lang::PriceItem& item : sheet.prices) {
        const double amount = quoted_for(item) * (paid_ / quoted);
        const double quantity = item.quantity == none ? 0 : value[plan.line_slot[item.quantity]];
        if (question.lump || quantity == 0) // no rate was quoted
            lumps_ += amount;
        else
            items_.push_back({target(item.quantity), amount / quantity});
    }
    const std::vector<char> in_cost = rested_on(plan, std::span(&targets_[cost_], 1));
    for (const lang::Event& event : sheet.events) {
        const bool counted = in_cost[plan.line_slot[event.amount]] != 0;
        const std::size_t count = target(event.count), money = target(event.money);
        events_.push_back({count, money, counted});
    }
    for (const auto& [name, called] : {std::pair("cost", "the direct cost"),
                                       {"contribution", "the contribution"},
                                       {"profit", "the profit"},
                                       {"margin", "the margin"}}) {
        Measured& measured = result.measured.emplace_back();
        measured.name = name;
        measured.called = called;
        measured.is_share = measured.name == "margin";
        measured.unit = measured.is_share ? "1" : sheet.units.money();
    }
    result.paid = paid_;
    result.overhead = overhead_ = overhead_of(sheet, plan, job.values());
    return std::nullopt;
}

} // namespace acre::engine
