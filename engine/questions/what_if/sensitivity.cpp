#include "engine/questions/what_if/sensitivity.h"
#include "engine/priced_job.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "engine/plan/effort.h"
#include "engine/questions/what_if/curve.h"
#include "engine/questions/what_if/reach.h"
#include "engine/readers/adjoint.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

class Study {
  public:
    Study(const PricedJob& job, lang::LineId line)
        : job_(job),
          sheet_(job.sheet()),
          compiled_(job.compiled()),
          values_(job.values()),
          target_(job.plan().line_slot[line]) {
        const lang::Sheet& sheet = job.sheet();
        const Values& values = job.values();
        result_.line = line;
        result_.value = values.slot[target_];
        result_.unit = unit_text(sheet, sheet.lines[line]);
    }

    std::optional<Sensitivity> run(SensitivityLimits limits, Refusal& refusal) {
        collect();
        if (!few_enough(refusal) || !swing_effects(refusal))
            return std::nullopt;
        rank();
        for (Effect& effect : result_.effects) {
            if (effort_ > max_effort / 2)
                break;
            if (effect.reached && effect.axis.options == 0)
                nearby(effect);
            ++result_.looked_near;
        }
        interactions(limits.interactions);
        return std::move(result_);
    }

  private:
    void collect() {
        const std::vector<double> slope = slopes(compiled_.plan, values_, target_);
        const std::vector<char> rested = rested_on(compiled_.plan, std::span(&target_, 1));
        std::vector<char> is_input(sheet_.lines.size(), 0);
        for (Axis& axis : all_axes(job_)) {
            is_input[axis.line] = 1;
            Effect effect;
            effect.axis = axis;
            effect.reached = rested[compiled_.plan.inputs[axis.input].slot] != 0;
            effect.slope = slope[axis.input];
            const double ratio = axis.value / result_.value;
            effect.elasticity = std::isfinite(ratio) && ratio != 0 ? effect.slope * ratio : nothing;
            effect.slope_unit =
                fmt::format("{} per {}", result_.unit, unit_text(sheet_, sheet_.lines[axis.line]));
            Refusal trouble;
            if (effect.reached && axis.options == 0 && axis.swing &&
                !swing_is_sound(sheet_, axis, trouble))
                effect.swing_trouble = trouble.what;
            result_.effects.push_back(std::move(effect));
        }
        for (const lang::Given& given : sheet_.givens)
            if (!is_input[given.line])
                result_.computed.push_back(given.line);
    }

    bool swings(const Effect& effect) const {
        return effect.reached && effect.axis.options == 0 && effect.axis.swing &&
               effect.swing_trouble.empty();
    }

    // Reads the line at variants of the job. Each variant: which axes are set, and to what.
    struct Variant {
        std::array<std::size_t, 2> effect;
        std::array<double, 2> x;
        std::size_t count;
    };
    // Empty when that takes more than the budget; `refusal` says so.
    std::optional<std::vector<double>> read(const std::vector<Variant>& variants,
                                            Refusal& refusal) {
        std::vector<Axis> axes;
        std::vector<std::size_t> column(result_.effects.size(), 0);
        for (const Variant& v : variants)
            for (std::size_t k = 0; k < v.count; ++k)
                if (column[v.effect[k]] == 0) {
                    axes.push_back(result_.effects[v.effect[k]].axis);
                    column[v.effect[k]] = axes.size();
                }
        std::vector<double> answer(variants.size());
        if (axes.empty())
            return answer;
        const JobLanes reader(compiled_, axes, std::span(&target_, 1), 1);
        effort_of_variant_ = reader.size().effort;
        const double effort =
            static_cast<double>(effort_of_variant_) * static_cast<double>(variants.size());
        if (!affordable("trying every swing", effort, refusal, max_effort / 4))
            return std::nullopt;
        effort_ += static_cast<std::uint64_t>(effort);
        JobLanes::Scratch scratch = reader.scratch();
        std::vector<double> memory(axes.size() * lanes_per_run);
        std::vector<const double*> in;
        for (std::size_t k = 0; k < axes.size(); ++k)
            in.push_back(memory.data() + k * lanes_per_run);
        for (std::size_t from = 0; from < variants.size(); from += lanes_per_run) {
            const std::size_t lanes = std::min(lanes_per_run, variants.size() - from);
            for (std::size_t k = 0; k < axes.size(); ++k)
                std::fill_n(memory.data() + k * lanes_per_run, lanes, axes[k].value);
            for (std::size_t i = 0; i < lanes; ++i) {
                const Variant& v = variants[from + i];
                for (std::size_t k = 0; k < v.count; ++k)
                    memory[(column[v.effect[k]] - 1) * lanes_per_run + i] = v.x[k];
            }
            double* out = answer.data() + from;
            reader.run(lanes, in.data(), &out, scratch);
        }
        return answer;
    }

    bool few_enough(Refusal& refusal) const {
        const auto moved = static_cast<std::size_t>(
            std::count_if(result_.effects.begin(), result_.effects.end(), [&](const Effect& e) {
                return swings(e) || (e.reached && e.axis.options > 0);
            }));
        if (moved <= max_moved)
            return true;
        refusal = {fmt::format("{} givens swing or choose; at most {} can be tried",
                               lang::number_text(static_cast<double>(moved)),
                               lang::number_text(max_moved)),
                   {}};
        return false;
    }

    bool swing_effects(Refusal& refusal) {
        std::vector<Variant> variants;
        for (std::size_t i = 0; i < result_.effects.size(); ++i) {
            const Effect& effect = result_.effects[i];
            if (swings(effect))
                for (const double x : {effect.axis.swing->low, effect.axis.swing->high})
                    variants.push_back({{i, 0}, {x, 0}, 1});
            else if (effect.reached)
                for (std::uint32_t option = 0; option < effect.axis.options; ++option)
                    variants.push_back({{i, 0}, {static_cast<double>(option), 0}, 1});
        }
        const auto read_all = read(variants, refusal);
        if (!read_all)
            return false;
        const std::vector<double>& y = *read_all;
        for (std::size_t k = 0; k < variants.size(); ++k) {
            Effect& effect = result_.effects[variants[k].effect[0]];
            if (effect.axis.options > 0)
                effect.at_option.push_back(y[k]);
            else if (!effect.at_low)
                effect.at_low = y[k];
            else
                effect.at_high = y[k];
        }
        return true;
    }

    // Looks from the job's value down and up, as far as the swing goes, or the lawful range, or a
    // fifth of the value.
    void nearby(Effect& effect) {
        const Axis& axis = effect.axis;
        const double fifth = std::fabs(axis.value) / 5;
        Range range{axis.value - fifth, axis.value + fifth};
        if (swings(effect))
            range = {std::min(axis.swing->low, axis.value), std::max(axis.swing->high, axis.value)};
        if (axis.within)
            range = {std::max(range.low, axis.within->low),
                     std::min(range.high, axis.within->high)};
        const Curve curve(compiled_, axis, target_);
        for (const double end : {range.low, range.high})
            if (std::isfinite(end) && end != axis.value)
                look_towards(effect, curve, end);
        effort_ += curve.effort();
        std::sort(effect.nearby.begin(), effect.nearby.end(), [](const Nearby& a, const Nearby& b) {
            return std::fabs(a.distance) < std::fabs(b.distance);
        });
    }

    void look_towards(Effect& effect, const Curve& curve, double end) const {
        constexpr std::size_t points = 256;
        constexpr int most_changes = 24; // of decisions that turn out not to matter
        std::vector<double> x(points);
        std::vector<CurvePoint> seen(points);
        const double start = effect.axis.value;
        for (std::size_t k = 0; k < points; ++k)
            x[k] = start + (end - start) * static_cast<double>(k) / (points - 1);
        curve.read(x, seen);
        bool step = false, kink = false;
        int changes = 0;
        for (std::size_t k = 0; k + 1 < points && !step; ++k) {
            CurvePoint from = seen[k];
            while (from.state != seen[k + 1].state && !step) {
                if (std::isnan(from.y) || ++changes > most_changes)
                    return;
                const Curve::Change change = curve.first_change(from, seen[k + 1]);
                judge(effect, curve, change, step, kink);
                from = change.after;
            }
        }
    }

    void judge(Effect& effect, const Curve& curve, const Curve::Change& change, bool& step,
               bool& kink) const {
        const auto& [near, far, decided] = change;
        Nearby place{
            .at = near.x, .distance = near.x - effect.axis.value, .line = line_of(decided)};
        const double scale =
            std::max({std::fabs(near.y), std::fabs(far.y), std::fabs(result_.value)});
        if (!(std::fabs(far.y - near.y) <= 1e-9 * scale)) { // or the end of all answers
            place.step = step = true;
            place.before = near.y;
            place.after = far.y;
            effect.nearby.push_back(place);
        } else if (!kink) {
            place.before = curve.slope(near.x);
            place.after = curve.slope(far.x);
            kink = std::fabs(place.after - place.before) >
                   1e-6 * std::max(std::fabs(place.before), std::fabs(place.after));
            if (kink)
                effect.nearby.push_back(place);
        }
    }

    lang::LineId line_of(Slot slot) const {
        return slot == no_slot ? lang::none : compiled_.origins.line[slot];
    }

    void rank() {
        const auto key = [&](const Effect& e) {
            return std::pair(e.width(result_.value),
                             std::isnan(e.elasticity) ? 0 : std::fabs(e.elasticity));
        };
        std::stable_sort(result_.effects.begin(), result_.effects.end(),
                         [&](const Effect& a, const Effect& b) { return key(b) < key(a); });
    }

    void interactions(std::size_t at_most) {
        std::vector<std::size_t> swinging;
        for (std::size_t i = 0; i < result_.effects.size(); ++i)
            if (const Effect& e = result_.effects[i];
                swings(e) && std::isfinite(*e.at_low) && std::isfinite(*e.at_high))
                swinging.push_back(i);
        const auto pairs = static_cast<double>(max_effort) / 4 / 4 /
                           static_cast<double>(std::max<std::uint64_t>(effort_of_variant_, 1));
        swinging.resize(std::min(
            {swinging.size(), max_paired, static_cast<std::size_t>(std::sqrt(2 * pairs))}));
        result_.looked_together = swinging.size();
        std::vector<Variant> corners;
        for (std::size_t a = 0; a < swinging.size(); ++a)
            for (std::size_t b = a + 1; b < swinging.size(); ++b)
                for (int corner = 0; corner < 4; ++corner) {
                    const std::size_t i = swinging[a], j = swinging[b];
                    const Range &x = *result_.effects[i].axis.swing,
                                &y = *result_.effects[j].axis.swing;
                    corners.push_back(
                        {{i, j},
                         {(corner & 1) != 0 ? x.high : x.low, (corner & 2) != 0 ? y.high : y.low},
                         2});
                }
        Refusal none_left;
        const auto read_all = read(corners, none_left);
        if (!read_all)
            return;
        const std::vector<double>& y = *read_all;
        for (std::size_t k = 0; k < corners.size(); k += 4) {
            Interaction greatest{.first = corners[k].effect[0], .second = corners[k].effect[1]};
            const Effect &first = result_.effects[greatest.first],
                         &second = result_.effects[greatest.second];
            for (std::size_t corner = 0; corner < 4; ++corner) {
                const bool high = (corner & 1) != 0, other_high = (corner & 2) != 0;
                const double amount = y[k + corner] - (high ? *first.at_high : *first.at_low) -
                                      (other_high ? *second.at_high : *second.at_low) +
                                      result_.value;
                if (std::fabs(amount) > std::fabs(greatest.amount))
                    greatest = {greatest.first, greatest.second, high, other_high, amount};
            }
            if (std::fabs(greatest.amount) > 1e-3 * std::fabs(result_.value))
                result_.interactions.push_back(greatest);
        }
        std::stable_sort(result_.interactions.begin(), result_.interactions.end(),
                         [](const Interaction& a, const Interaction& b) {
                             return std::fabs(a.amount) > std::fabs(b.amount);
                         });
        if (result_.interactions.size() > at_most)
            result_.interactions.resize(at_most);
    }

    const PricedJob& job_;
    const lang::Sheet& sheet_;
    const Compiled& compiled_;
    const Values& values_;
    Slot target_;
    Sensitivity result_;
    std::uint64_t effort_ = 0, effort_of_variant_ = 0;
};

} // namespace

double Effect::width(double base) const {
    double least = base, greatest = base;
    const auto take = [&](double y) {
        if (std::isfinite(y)) {
            least = std::min(least, y);
            greatest = std::max(greatest, y);
        }
    };
    if (at_low && at_high) {
        take(*at_low);
        take(*at_high);
    }
    for (const double y : at_option)
        take(y);
    return greatest - least;
}

std::optional<Sensitivity> sensitivity(const PricedJob& job, std::string_view line,
                                       Refusal& refusal, SensitivityLimits limits) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    const auto target = line_named(sheet, compiled, line, refusal);
    if (!target)
        return std::nullopt;
    if (std::isnan(values.slot[compiled.plan.line_slot[*target]])) {
        refusal = {fmt::format("`{}` has no answer in this job", sheet.lines[*target].name), {}};
        return std::nullopt;
    }
    return Study(job, *target).run(limits, refusal);
}

} // namespace acre::engine
