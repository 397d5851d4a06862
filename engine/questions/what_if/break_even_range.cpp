#include "engine/questions/what_if/break_even_range.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/questions/what_if/relaid.h"
#include "engine/words/words.h"

namespace acre::engine {

using lang::placeless;

lang::Outcome<Axis> number_axis(const PricedJob& job, const std::string& given) {
    lang::Outcome<Axis> axis = find_axis(job, given);
    if (axis && axis->options > 0)
        return placeless(lang::Code::Q002, fmt::format("`{}` is a choice, not a number", given), {},
                         {"compare its options side by side instead"});
    return axis;
}

lang::Outcome<Range> range_of(const PricedJob& job, const Axis& axis,
                              const std::optional<Range>& between) {
    const std::string& name = job.sheet().lines[axis.line].name;
    const auto text = [&](double x) { return value_text(job.sheet(), axis.line, x); };
    const std::optional<Range> range = between ? between : axis.within ? axis.within : axis.swing;
    if (!range)
        return placeless(
            lang::Code::Q003,
            fmt::format("`{}` has neither an allowed range nor a swing or range of choice", name),
            {}, {"say where to look: --between \"LOW..HIGH\""});
    if (!std::isfinite(range->low) || !std::isfinite(range->high) || !(range->low < range->high))
        return placeless(lang::Code::Q003, fmt::format("there is nothing between {} and {} of `{}`",
                                                       text(range->low), text(range->high), name));
    if (axis.within && !(axis.within->low <= range->low && range->high <= axis.within->high))
        return placeless(lang::Code::Q003,
                         fmt::format("{} .. {} goes outside the allowed range of `{}`: {} .. {}",
                                     text(range->low), text(range->high), name,
                                     text(axis.within->low), text(axis.within->high)));
    const double ends[] = {range->low, range->high};
    if (is_from_layout(job, axis) || LaidOut(job).otherwise(axis, ends))
        return laid_out_by(job, axis);
    return *range;
}

} // namespace acre::engine
