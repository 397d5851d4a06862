#include "engine/questions/what_if/study.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/what_if/curve.h"
#include "engine/questions/what_if/reach.h"
#include "engine/questions/what_if/relaid.h"
#include "engine/questions/work_limit.h"
#include "engine/readers/adjoint.h"
#include "engine/words/words.h"
#include "lang/units/clock.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

std::optional<Range> scaled(const Axis& axis) {
    if (!axis.swing)
        return std::nullopt;
    return Range{axis.swing->low * axis.unit, axis.swing->high * axis.unit};
}

class Study {
  public:
    Study(const PricedJob& job, lang::LineId line)
        : job_(job),
          sheet_(job.sheet()),
          compiled_(job.compiled()),
          target_(job.plan().line_slot[line]) {
        result_.line = line;
        result_.value = job.values().slot[target_];
    }

    lang::Outcome<LineStudy> run(const StudyDepth& depth) {
        collect();
        if (auto fault = depth.swings ? few_enough() : std::nullopt)
            return std::move(*fault);
        if (auto fault = depth.swings ? swing_effects() : std::nullopt)
            return std::move(*fault);
        rank();
        if (depth.nearby)
            look_near();
        interactions(depth.interactions);
        return std::move(result_);
    }

  private:
    void collect() {
        const std::vector<double> slope = slopes(compiled_.plan, job_.values(), target_);
        const std::vector<char> rested = rested_on(compiled_.plan, std::span(&target_, 1));
        const std::string unit = unit_text(sheet_, sheet_.lines[result_.line]);
        std::vector<char> is_input(sheet_.lines.size(), 0);
        LaidOut laid_out(job_);
        for (Axis& axis : all_axes(job_)) {
            is_input[axis.line] |= axis.is_share ? 0 : 1;
            Moved moved;
            moved.axis = axis;
            moved.value = axis.value * axis.unit;
            moved.swing = scaled(axis);
            moved.chosen = axis.chosen;
            moved.reached = rested[compiled_.plan.inputs[axis.input].slot] != 0;
            moved.slope = slope[axis.input] / axis.unit;
            const double ratio = moved.value / result_.value;
            moved.elasticity = std::isfinite(ratio) && ratio != 0 ? moved.slope * ratio : nothing;
            moved.slope_unit =
                fmt::format("{} per {}", lang::unit_of_difference(unit),
                            lang::unit_of_difference(unit_text(sheet_, sheet_.lines[axis.line])));
            moved.relaid = laid_out.otherwise(axis);
            moved.reached = moved.reached && !moved.relaid;
            if (moved.relaid && axis.swing)
                moved.swing_trouble = laid_out_by(job_, axis).title;
            if (moved.reached && axis.options == 0 && axis.swing)
                if (const auto trouble = swing_trouble(job_, axis))
                    moved.swing_trouble = trouble->title;
            result_.moved.push_back(std::move(moved));
        }
        for (const lang::Given& given : sheet_.givens)
            // What a model binds of one that it uses is no given of the job.
            if (!is_input[given.line] && !is_bound(given))
                result_.computed.push_back(given.line);
    }

    static bool is_bound(const lang::Given& given) {
        return !given.settings.empty() && given.settings.back().layer == lang::Layer::Binding;
    }
    bool swings(const Moved& effect) const {
        return effect.reached && effect.axis.options == 0 && effect.axis.swing &&
               effect.swing_trouble.empty();
    }

    // Reads the line at variants of the job. Each variant: which axes are set, and to what.
    struct Variant {
        std::array<std::size_t, 2> effect;
        std::array<double, 2> x;
        std::size_t count;
    };
    // Q004 when that takes more than the budget.
    lang::Outcome<std::vector<double>> read(const std::vector<Variant>& variants) {
        std::vector<Axis> axes;
        std::vector<std::size_t> column(result_.moved.size(), 0);
        for (const Variant& v : variants)
            for (std::size_t k = 0; k < v.count; ++k)
                if (column[v.effect[k]] == 0) {
                    axes.push_back(result_.moved[v.effect[k]].axis);
                    column[v.effect[k]] = axes.size();
                }
        std::vector<double> answer(variants.size());
        if (axes.empty())
            return answer;
        const JobLanes reader(compiled_, axes, std::span(&target_, 1), 1);
        effort_of_variant_ = reader.size().effort;
        const double effort =
            static_cast<double>(effort_of_variant_) * static_cast<double>(variants.size());
        if (auto beyond = beyond_effort("trying every swing", effort, max_effort / 4))
            return std::move(*beyond);
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

    std::optional<lang::Diagnostic> few_enough() const {
        const auto moved = static_cast<std::size_t>(
            std::count_if(result_.moved.begin(), result_.moved.end(), [&](const Moved& m) {
                return swings(m) || (m.reached && m.axis.options > 0);
            }));
        if (moved <= max_moved)
            return std::nullopt;
        return lang::placeless(lang::Code::Q006,
                               fmt::format("{} givens swing or choose; at most {} can be tried",
                                           lang::number_text(static_cast<double>(moved)),
                                           lang::number_text(max_moved)));
    }

    std::optional<lang::Diagnostic> swing_effects() {
        std::vector<Variant> variants;
        for (std::size_t i = 0; i < result_.moved.size(); ++i) {
            const Moved& effect = result_.moved[i];
            if (swings(effect))
                for (const double x : {effect.axis.swing->low, effect.axis.swing->high})
                    variants.push_back({{i, 0}, {x, 0}, 1});
            else if (effect.reached)
                for (std::uint32_t option = 0; option < effect.axis.options; ++option)
                    variants.push_back({{i, 0}, {static_cast<double>(option), 0}, 1});
        }
        const auto read_all = read(variants);
        if (!read_all)
            return read_all.said.diagnostics.all().front();
        const std::vector<double>& y = *read_all;
        for (std::size_t k = 0; k < variants.size(); ++k) {
            Moved& effect = result_.moved[variants[k].effect[0]];
            if (effect.axis.options > 0)
                effect.at_option.push_back(y[k]);
            else if (!effect.at_low)
                effect.at_low = y[k];
            else
                effect.at_high = y[k];
        }
        return std::nullopt;
    }

    void look_near() {
        for (Moved& moved : result_.moved) {
            if (effort_ > max_effort / 2)
                break;
            if (moved.reached && moved.axis.options == 0)
                nearby(moved);
            ++result_.looked_near;
        }
    }

    // Looks from the job's value down and up, as far as the swing goes, or the allowed range, or a
    // fifth of the value.
    void nearby(Moved& effect) {
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
        std::stable_sort(effect.nearby.begin(), effect.nearby.end(),
                         [](const Nearby& a, const Nearby& b) {
                             return std::fabs(a.distance) < std::fabs(b.distance);
                         });
    }

    void look_towards(Moved& effect, const Curve& curve, double end) const {
        constexpr std::size_t points = 256;
        constexpr int most_idle_changes = 24; // of decisions that turn out not to matter
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
                if (std::isnan(from.y) || ++changes > most_idle_changes)
                    return;
                const Curve::Change change = curve.first_change(from, seen[k + 1]);
                judge(effect, curve, change, step, kink);
                from = change.after;
            }
        }
    }

    void judge(Moved& effect, const Curve& curve, const Curve::Change& change, bool& step,
               bool& kink) const {
        const auto& [near, far, decided] = change;
        const double unit = effect.axis.unit;
        Nearby place{.at = near.x * unit,
                     .distance = (near.x - effect.axis.value) * unit,
                     .line = name_of(decided)};
        const double scale =
            std::max({std::fabs(near.y), std::fabs(far.y), std::fabs(result_.value)});
        if (!(std::fabs(far.y - near.y) <= 1e-9 * scale)) { // or the end of all answers
            place.step = step = true;
            place.before = near.y;
            place.after = far.y;
            effect.nearby.push_back(place);
        } else if (!kink) {
            place.before = curve.slope(near.x) / unit;
            place.after = curve.slope(far.x) / unit;
            kink = std::fabs(place.after - place.before) >
                   1e-6 * std::max(std::fabs(place.before), std::fabs(place.after));
            if (kink)
                effect.nearby.push_back(place);
        }
    }

    std::string name_of(Slot slot) const {
        const lang::LineId id = slot == no_slot ? lang::none : compiled_.origins.line[slot];
        return id == lang::none ? std::string() : sheet_.lines[id].name;
    }

    void rank() {
        const auto key = [&](const Moved& e) {
            return std::pair(e.width(result_.value),
                             std::isnan(e.elasticity) ? 0 : std::fabs(e.elasticity));
        };
        std::stable_sort(result_.moved.begin(), result_.moved.end(),
                         [&](const Moved& a, const Moved& b) { return key(b) < key(a); });
    }

    void interactions(std::size_t at_most) {
        if (at_most == 0)
            return;
        std::vector<std::size_t> swinging;
        for (std::size_t i = 0; i < result_.moved.size(); ++i)
            if (const Moved& e = result_.moved[i];
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
                    const Range &x = *result_.moved[i].axis.swing,
                                &y = *result_.moved[j].axis.swing;
                    corners.push_back(
                        {{i, j},
                         {(corner & 1) != 0 ? x.high : x.low, (corner & 2) != 0 ? y.high : y.low},
                         2});
                }
        const auto read_all = read(corners);
        if (!read_all)
            return;
        const std::vector<double>& y = *read_all;
        for (std::size_t k = 0; k < corners.size(); k += 4) {
            Interaction greatest{.first = corners[k].effect[0], .second = corners[k].effect[1]};
            const Moved &first = result_.moved[greatest.first],
                        &second = result_.moved[greatest.second];
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
    Slot target_;
    LineStudy result_;
    std::uint64_t effort_ = 0, effort_of_variant_ = 0;
};

} // namespace

lang::Outcome<LineStudy> study(const PricedJob& job, lang::LineId line, const StudyDepth& depth) {
    if (std::isnan(job.value(line)))
        return lang::placeless(lang::Code::Q002, fmt::format("`{}` has no answer in this job",
                                                             job.sheet().lines[line].name));
    return Study(job, line).run(depth);
}

} // namespace acre::engine
