#include "engine/questions/what_if/grid.h"
#include "engine/questions/what_if/relaid.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/job_lanes.h"
#include "engine/questions/work_limit.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr std::size_t shown_without_answer = 5;

using lang::placeless;

// What a grid moves and reads, as the readers take it.
struct Reading {
    std::vector<Axis> axes;
    std::vector<lang::LineId> lines;
};

// A place that is not lawful has no answer in any cell. Bounds that move are judged cell by cell.
std::optional<lang::Diagnostic> unlawful_place(const PricedJob& job, const Axis& axis,
                                               std::span<const double> at) {
    const Plan& plan = job.plan();
    const auto fixed = [&](Slot slot) {
        return slot != no_slot && plan.operations[slot].code == OpCode::Constant;
    };
    if (!axis.within || !fixed(plan.within_low[axis.given]) || !fixed(plan.within_high[axis.given]))
        return std::nullopt;
    const double low = axis.within->low;
    const double high = axis.within->high;
    const double dust = 1e-9 * std::max(std::abs(low), std::abs(high)); // of a conversion
    const auto outside = std::find_if(at.begin(), at.end(),
                                      [&](double x) { return x < low - dust || x > high + dust; });
    if (outside == at.end())
        return std::nullopt;
    const auto text = [&](double x) { return value_text(job.sheet(), axis.line, x); };
    return placeless(lang::Code::Q003,
                     fmt::format("`{}` at {} is outside its allowed range {} .. {}",
                                 job.sheet().lines[axis.line].name, text(*outside), text(low),
                                 text(high)));
}

std::optional<lang::Diagnostic> unfit_places(const PricedJob& job, const Axis& axis,
                                             const GridQuestion::Along& along) {
    if (along.at.empty())
        return placeless(lang::Code::Q002, fmt::format("no values for `{}`", along.given));
    for (const double x : along.at)
        if (!std::isfinite(x) ||
            (axis.options > 0 && !(x >= 0 && x < axis.options && x == std::floor(x))))
            return placeless(
                lang::Code::Q002,
                fmt::format("`{}` cannot take one of the values asked for", along.given));
    return unlawful_place(job, axis, along.at);
}

lang::Diagnostic too_many_cells() {
    return placeless(
        lang::Code::Q006,
        fmt::format("the grid has more than {} cells", lang::number_text(max_grid_cells)), {},
        {"use larger steps"});
}

// What is wrong is said; nothing: all is well.
// Places may be many; a layout that differs at none of them is the same at the first, the middle,
// the least and the greatest.
std::vector<double> ends_of(const std::vector<double>& at) {
    if (at.size() <= 20)
        return at;
    const auto [least, greatest] = std::minmax_element(at.begin(), at.end());
    return {at.front(), at[at.size() / 2], *least, *greatest};
}

lang::Said read_axes(const PricedJob& job, const GridQuestion& question, Reading& reading,
                     GridAnswer& result) {
    const auto wrong = [](lang::Diagnostic diagnostic) {
        lang::Said said;
        said.diagnostics.add(std::move(diagnostic));
        return said;
    };
    if (question.along.empty() || question.along.size() > max_grid_axes)
        return wrong(
            placeless(lang::Code::Q006, fmt::format("a grid has one to {} givens, not {}",
                                                    max_grid_axes, question.along.size())));
    result.cells = 1;
    LaidOut laid_out(job);
    for (const GridQuestion::Along& along : question.along) {
        lang::Outcome<Axis> axis = find_axis(job, along.given);
        if (!axis)
            return std::move(axis.said);
        for (const Axis& other : reading.axes)
            if (other.input == axis->input)
                return wrong(
                    placeless(lang::Code::Q002, fmt::format("`{}` is named twice", along.given)));
        if (auto unfit = unfit_places(job, *axis, along))
            return wrong(std::move(*unfit));
        if (is_from_layout(job, *axis) || laid_out.otherwise(*axis, ends_of(along.at)))
            return wrong(laid_out_by(job, *axis));
        if (along.at.size() > max_grid_cells / result.cells)
            return wrong(too_many_cells());
        result.cells *= along.at.size();
        result.along.push_back({subject_of(job, axis->line, question.names), along.at});
        reading.axes.push_back(*axis);
    }
    return {};
}

lang::Said read_lines(const PricedJob& job, const GridQuestion& question, Reading& reading,
                      GridAnswer& result) {
    std::vector<std::string> names = question.lines;
    if (names.empty())
        names.emplace_back();
    if (names.size() > max_grid_answers / result.cells) {
        lang::Said said;
        said.diagnostics.add(
            placeless(lang::Code::Q006,
                      fmt::format("{} cells of {} lines are more than {} answers",
                                  lang::number_text(static_cast<double>(result.cells)),
                                  lang::number_text(static_cast<double>(names.size())),
                                  lang::number_text(max_grid_answers)),
                      {}, {"use fewer lines or larger steps"}));
        return said;
    }
    for (const std::string& name : names) {
        lang::Outcome<lang::LineId> line = find_line(job, name);
        if (!line)
            return std::move(line.said);
        reading.lines.push_back(*line);
        result.columns.push_back({asked_subject(job, *line, question.names), {}, 0, 0});
    }
    return {};
}

std::optional<lang::Diagnostic> fill(const Compiled& compiled, const Reading& reading,
                                     GridAnswer& result) {
    const std::vector<Axis>& axes = reading.axes;
    std::vector<Slot> targets;
    for (const lang::LineId line : reading.lines)
        targets.push_back(compiled.plan.line_slot[line]);
    const JobLanes reader(compiled, axes, targets, targets.size());
    if (auto beyond = beyond_effort("the grid", static_cast<double>(reader.size().effort) *
                                                    static_cast<double>(result.cells)))
        return beyond;
    for (GridAnswer::Column& column : result.columns)
        column.value.resize(result.cells);
    JobLanes::Scratch scratch = reader.scratch();
    std::vector<double> memory(axes.size() * lanes_per_run);
    std::vector<const double*> in;
    for (std::size_t k = 0; k < axes.size(); ++k)
        in.push_back(memory.data() + k * lanes_per_run);
    std::vector<double*> out(targets.size());
    for (std::size_t from = 0; from < result.cells; from += lanes_per_run) {
        const std::size_t lanes = std::min(lanes_per_run, result.cells - from);
        for (std::size_t k = 0; k < axes.size(); ++k)
            for (std::size_t i = 0; i < lanes; ++i)
                memory[k * lanes_per_run + i] = result.along[k].at[result.place(from + i, k)];
        for (std::size_t k = 0; k < targets.size(); ++k)
            out[k] = result.columns[k].value.data() + from;
        const std::size_t faulty = reader.run(lanes, in.data(), out.data(), scratch);
        result.without_answer += faulty;
        for (std::size_t i = 0;
             faulty > 0 && i < lanes && result.first_without.size() < shown_without_answer; ++i)
            if (scratch.fault[i] != LaneFault::None)
                result.first_without.push_back(from + i);
    }
    return std::nullopt;
}

void find_extremes(GridAnswer::Column& column) {
    column.least = std::numeric_limits<double>::infinity();
    column.greatest = -column.least;
    for (const double y : column.value)
        if (!std::isnan(y)) {
            column.least = std::min(column.least, y);
            column.greatest = std::max(column.greatest, y);
        }
}

} // namespace

std::size_t GridAnswer::place(std::size_t cell, std::size_t k) const {
    for (std::size_t j = along.size(); j-- > k + 1;)
        cell /= along[j].at.size();
    return cell % along[k].at.size();
}

lang::Outcome<std::vector<double>> places(Range range, double step) {
    const double steps = range.width() / step;
    if (!(step > 0) || !(range.width() >= 0) || !std::isfinite(steps))
        return placeless(lang::Code::Q003,
                         "steps must be above zero and lead from the first value to the last");
    if (!(steps < static_cast<double>(max_grid_cells)))
        return too_many_cells();
    const double whole = std::round(steps);
    const bool to_the_end = std::fabs(steps - whole) < 1e-6;
    const auto count = static_cast<std::size_t>(to_the_end ? whole : std::floor(steps));
    std::vector<double> at;
    for (std::size_t k = 0; k <= count; ++k)
        at.push_back(range.low + static_cast<double>(k) * step);
    if (to_the_end)
        at.back() = range.high;
    return at;
}

lang::Outcome<std::vector<double>> places(Range range, std::size_t count) {
    if (count < 2 || count > max_grid_cells || !(range.low < range.high))
        return placeless(lang::Code::Q003,
                         fmt::format("a range has 2 to {} places from its lower end to its higher",
                                     lang::number_text(max_grid_cells)));
    std::vector<double> at;
    for (std::size_t k = 0; k < count; ++k)
        at.push_back(range.low +
                     range.width() * static_cast<double>(k) / static_cast<double>(count - 1));
    at.back() = range.high;
    return at;
}

lang::Outcome<GridAnswer> ask(const PricedJob& job, const GridQuestion& question) {
    GridAnswer result;
    Reading reading;
    if (lang::Said said = read_axes(job, question, reading, result); said.diagnostics.has_errors())
        return said;
    if (lang::Said said = read_lines(job, question, reading, result); said.diagnostics.has_errors())
        return said;
    lang::Said said =
        judged(job, question.lines.empty() ? std::vector<lang::LineId>{} : reading.lines);
    if (said.diagnostics.has_errors())
        return said;
    result.title = title_of(job);
    if (auto beyond = fill(job.compiled(), reading, result))
        return std::move(*beyond);
    for (GridAnswer::Column& column : result.columns)
        find_extremes(column);
    return {std::move(result), std::move(said)};
}

} // namespace acre::engine
