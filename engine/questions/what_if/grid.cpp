#include "engine/questions/what_if/grid.h"
#include "engine/priced_job.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "engine/plan/effort.h"
#include "engine/questions/what_if/job_lanes.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr std::size_t shown_without_answer = 5;

bool read_axes(const PricedJob& job, const GridQuestion& question, Grid& result, Refusal& refusal) {
    if (question.along.empty() || question.along.size() > max_grid_axes) {
        refusal = {fmt::format("a grid has one to {} givens, not {}", max_grid_axes,
                               question.along.size()),
                   {}};
        return false;
    }
    result.cells = 1;
    for (const GridQuestion::Along& along : question.along) {
        const auto axis = axis_named(job, along.given, refusal);
        if (!axis)
            return false;
        for (const Grid::Along& other : result.along)
            if (other.axis.input == axis->input) {
                refusal = {fmt::format("`{}` is named twice", along.given), {}};
                return false;
            }
        if (along.at.empty()) {
            refusal = {fmt::format("no values for `{}`", along.given), {}};
            return false;
        }
        for (const double x : along.at)
            if (!std::isfinite(x) ||
                (axis->options > 0 && !(x >= 0 && x < axis->options && x == std::floor(x)))) {
                refusal = {fmt::format("`{}` cannot take one of the values asked for", along.given),
                           {}};
                return false;
            }
        result.along.push_back({*axis, along.at});
        if (along.at.size() > max_grid_cells / result.cells) {
            refusal = {
                fmt::format("the grid has more than {} cells", lang::number_text(max_grid_cells)),
                {"take larger steps"}};
            return false;
        }
        result.cells *= along.at.size();
    }
    return true;
}

bool read_lines(const lang::Sheet& sheet, const Compiled& compiled, const GridQuestion& question,
                Grid& result, Refusal& refusal) {
    std::vector<std::string_view> names = question.lines;
    if (names.empty())
        names.emplace_back();
    if (names.size() > max_grid_answers / result.cells) {
        refusal = {fmt::format("{} cells of {} lines are more than {} answers",
                               lang::number_text(static_cast<double>(result.cells)),
                               lang::number_text(static_cast<double>(names.size())),
                               lang::number_text(max_grid_answers)),
                   {"ask for fewer lines or larger steps"}};
        return false;
    }
    for (const std::string_view name : names) {
        const auto line = line_named(sheet, compiled, name, refusal);
        if (!line)
            return false;
        result.columns.push_back({*line, std::vector<double>(result.cells), 0, 0});
    }
    return true;
}

bool fill(const Compiled& compiled, Grid& result, Refusal& refusal) {
    std::vector<Axis> axes;
    std::vector<Slot> targets;
    for (const Grid::Along& along : result.along)
        axes.push_back(along.axis);
    for (const Grid::Column& column : result.columns)
        targets.push_back(compiled.plan.line_slot[column.line]);
    const JobLanes reader(compiled, axes, targets, targets.size());
    if (!affordable("the grid",
                    static_cast<double>(reader.size().effort) * static_cast<double>(result.cells),
                    refusal))
        return false;
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
    for (Grid::Column& column : result.columns) {
        column.least = std::numeric_limits<double>::infinity();
        column.greatest = -column.least;
        for (const double y : column.value)
            if (!std::isnan(y)) {
                column.least = std::min(column.least, y);
                column.greatest = std::max(column.greatest, y);
            }
    }
    return true;
}

} // namespace

std::size_t Grid::place(std::size_t cell, std::size_t k) const {
    for (std::size_t j = along.size(); j-- > k + 1;)
        cell /= along[j].at.size();
    return cell % along[k].at.size();
}

std::optional<std::vector<double>> places(Range range, double step, Refusal& refusal) {
    const double steps = range.width() / step;
    if (!(step > 0) || !(range.width() >= 0) || !std::isfinite(steps)) {
        refusal = {"steps must be above zero and lead from the first value to the last", {}};
        return std::nullopt;
    }
    if (!(steps < static_cast<double>(max_grid_cells))) {
        refusal = {
            fmt::format("the grid has more than {} cells", lang::number_text(max_grid_cells)),
            {"take larger steps"}};
        return std::nullopt;
    }
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

std::optional<std::vector<double>> places(Range range, std::size_t count, Refusal& refusal) {
    if (count < 2 || count > max_grid_cells || !(range.low < range.high)) {
        refusal = {fmt::format("a range has 2 to {} places from its lower end to its higher",
                               lang::number_text(max_grid_cells)),
                   {}};
        return std::nullopt;
    }
    std::vector<double> at;
    for (std::size_t k = 0; k < count; ++k)
        at.push_back(range.low +
                     range.width() * static_cast<double>(k) / static_cast<double>(count - 1));
    at.back() = range.high;
    return at;
}

std::optional<Grid> grid(const PricedJob& job, const GridQuestion& question, Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    Grid result;
    if (!read_axes(job, question, result, refusal) ||
        !read_lines(sheet, compiled, question, result, refusal))
        return std::nullopt;
    if (!fill(compiled, result, refusal))
        return std::nullopt;
    return result;
}

} // namespace acre::engine
