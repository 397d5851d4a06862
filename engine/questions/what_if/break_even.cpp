#include "engine/questions/what_if/break_even.h"
#include "engine/priced_job.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/questions/what_if/crossings.h"
#include "engine/questions/what_if/curve.h"
#include "engine/questions/what_if/reach.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

std::optional<Range> range_of(const lang::Sheet& sheet, const Axis& axis,
                              const BreakEvenQuestion& question, Refusal& refusal) {
    const std::string& name = sheet.lines[axis.line].name;
    const auto text = [&](double x) { return value_text(sheet, axis.line, x); };
    const std::optional<Range> range = question.between ? question.between
                                       : axis.within    ? axis.within
                                                        : axis.swing;
    if (!range) {
        refusal = {fmt::format("`{}` has neither a lawful range nor a swing", name),
                   {"say where to look: --between LOW .. HIGH"}};
        return std::nullopt;
    }
    if (!std::isfinite(range->low) || !std::isfinite(range->high) || !(range->low < range->high)) {
        refusal = {fmt::format("there is nothing between {} and {} of `{}`", text(range->low),
                               text(range->high), name),
                   {}};
        return std::nullopt;
    }
    if (axis.within && !(axis.within->low <= range->low && range->high <= axis.within->high)) {
        refusal = {fmt::format("{} .. {} leaves the lawful range of `{}`: {} .. {}",
                               text(range->low), text(range->high), name, text(axis.within->low),
                               text(axis.within->high)),
                   {}};
        return std::nullopt;
    }
    return range;
}

bool has_a_say(const PricedJob& job, const Axis& axis, lang::LineId line, Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    const Slot target = compiled.plan.line_slot[line];
    if (reached_from(compiled.plan, std::span(&axis.input, 1))[target] != 0)
        return true;
    refusal = {fmt::format("`{}` does not rest on `{}`: it is {} whatever that is",
                           sheet.lines[line].name, sheet.lines[axis.line].name,
                           value_text(sheet, line, values.slot[target])),
               {}};
    return false;
}

struct Asked {
    Axis axis;
    lang::LineId line;
};
std::optional<Asked> read_question(const PricedJob& job, const BreakEvenQuestion& question,
                                   Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const auto axis = axis_named(job, question.given, refusal);
    if (!axis)
        return std::nullopt;
    if (axis->options > 0) {
        refusal = {fmt::format("`{}` is a choice, not a number", question.given),
                   {"compare its options side by side instead"}};
        return std::nullopt;
    }
    const auto line = line_named(sheet, compiled, question.line, refusal);
    if (!line)
        return std::nullopt;
    return Asked{*axis, *line};
}

} // namespace

std::optional<BreakEven> break_even(const PricedJob& job, const BreakEvenQuestion& question,
                                    Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const auto asked = read_question(job, question, refusal);
    if (!asked || !has_a_say(job, asked->axis, asked->line, refusal))
        return std::nullopt;
    if (!std::isfinite(question.wanted)) {
        refusal = {
            fmt::format("the value wanted of `{}` is not a number", sheet.lines[asked->line].name),
            {}};
        return std::nullopt;
    }
    const auto range = range_of(sheet, asked->axis, question, refusal);
    if (!range)
        return std::nullopt;
    BreakEven result;
    result.axis = asked->axis;
    result.line = asked->line;
    result.range = *range;
    result.wanted = question.wanted;
    if (!find_crossings(Curve(compiled, asked->axis, compiled.plan.line_slot[asked->line]),
                        compiled, result, refusal))
        return std::nullopt;
    return result;
}

std::optional<BreakEven> break_even_against(const PricedJob& job, const PricedJob& other,
                                            const BreakEvenQuestion& question, Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const auto mine = read_question(job, question, refusal);
    if (!mine)
        return std::nullopt;
    const auto theirs = read_question(other, question, refusal);
    if (!theirs) {
        refusal.what = "in the other job " + refusal.what;
        return std::nullopt;
    }
    if (unit_text(sheet, sheet.lines[mine->line]) !=
            unit_text(other.sheet(), other.sheet().lines[theirs->line]) ||
        unit_text(sheet, sheet.lines[mine->axis.line]) !=
            unit_text(other.sheet(), other.sheet().lines[theirs->axis.line])) {
        refusal = {"the two jobs measure it in unlike units", {}};
        return std::nullopt;
    }
    Refusal no_say;
    if (!has_a_say(job, mine->axis, mine->line, refusal) &&
        !has_a_say(other, theirs->axis, theirs->line, no_say))
        return std::nullopt;
    const auto range = range_of(sheet, mine->axis, question, refusal);
    if (!range ||
        !range_of(other.sheet(), theirs->axis, {question.given, question.line, 0, range}, refusal))
        return std::nullopt;
    BreakEven result;
    result.axis = mine->axis;
    result.line = mine->line;
    result.range = *range;
    const Curve curve_of_other(other.compiled(), theirs->axis,
                               other.compiled().plan.line_slot[theirs->line]);
    Curve curve(compiled, mine->axis, compiled.plan.line_slot[mine->line]);
    curve.subtract(curve_of_other);
    if (!find_crossings(curve, compiled, result, refusal))
        return std::nullopt;
    return result;
}

} // namespace acre::engine
