#include "engine/questions/what_if/axis.h"
#include "engine/priced_job.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/words/words.h"
#include "lang/diag/suggest.h"

namespace acre::engine {
namespace {

using lang::none;

std::optional<Range> range_of(const Values& values, Slot low, Slot high) {
    if (low == no_slot || high == no_slot)
        return std::nullopt;
    return Range{values.slot[low], values.slot[high]};
}

Axis make_axis(const lang::Sheet& sheet, const Plan& plan, const Values& values,
               std::uint32_t given, std::uint32_t input) {
    Axis axis;
    axis.given = given;
    axis.input = input;
    axis.line = sheet.givens[given].line;
    axis.value = values.slot[plan.inputs[input].slot];
    const lang::Type& type = sheet.lines[axis.line].type;
    if (type.kind == lang::Type::Kind::Choice)
        axis.options = static_cast<std::uint32_t>(sheet.choices[type.choice].options.size());
    axis.within = range_of(values, plan.within_low[given], plan.within_high[given]);
    axis.swing = range_of(values, plan.swing_low[given], plan.swing_high[given]);
    axis.shape = sheet.givens[given].shape;
    return axis;
}

std::vector<std::string> suggestions(const lang::Sheet& sheet, std::string_view name,
                                     bool givens_only) {
    std::vector<std::string_view> names;
    for (const lang::Line& line : sheet.lines)
        if (!givens_only || line.given != none)
            names.push_back(line.name);
    std::vector<std::string> helps;
    for (const std::string_view near : lang::near_names(name, names))
        helps.push_back(fmt::format("`{}` is near", near));
    return helps;
}

} // namespace

std::vector<Axis> all_axes(const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    std::vector<Axis> axes;
    for (std::uint32_t i = 0; i < compiled.plan.inputs.size(); ++i)
        axes.push_back(make_axis(sheet, compiled.plan, values,
                                 sheet.lines[compiled.plan.inputs[i].line].given, i));
    return axes;
}

std::optional<Axis> axis_named(const PricedJob& job, std::string_view name, Refusal& refusal) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    const lang::LineId line = sheet.find(name);
    if (line == none) {
        refusal = {fmt::format("no given named `{}`", name), suggestions(sheet, name, true)};
        return std::nullopt;
    }
    if (sheet.lines[line].given == none) {
        refusal = {fmt::format("`{}` is computed and cannot be varied", name),
                   {"vary a given it rests on"}};
        return std::nullopt;
    }
    for (std::uint32_t i = 0; i < compiled.plan.inputs.size(); ++i)
        if (compiled.plan.inputs[i].line == line)
            return make_axis(sheet, compiled.plan, values, sheet.lines[line].given, i);
    refusal = {fmt::format("`{}` is computed from other lines in this job", name),
               {fmt::format("set it to a number first: --set {}=VALUE", name)}};
    return std::nullopt;
}

bool swing_is_sound(const lang::Sheet& sheet, const Axis& axis, Refusal& refusal) {
    const std::string& name = sheet.lines[axis.line].name;
    const auto text = [&](double x) { return value_text(sheet, axis.line, x); };
    if (!axis.swing) {
        refusal = {fmt::format("`{}` has no swing", name),
                   {fmt::format("give it one: swing LOW .. HIGH")}};
        return false;
    }
    const auto [low, high] = *axis.swing;
    if (!std::isfinite(low) || !std::isfinite(high)) {
        refusal = {fmt::format("the swing of `{}` has no answer in this job", name), {}};
        return false;
    }
    if (!(low < high)) {
        refusal = {fmt::format("the swing of `{}` is empty: {} .. {}", name, text(low), text(high)),
                   {"write the lower end first"}};
        return false;
    }
    if (axis.within && !(axis.within->low <= low && high <= axis.within->high)) {
        refusal = {fmt::format(
                       "the swing of `{}` leaves its lawful range: {} .. {} is not within {} .. {}",
                       name, text(low), text(high), text(axis.within->low),
                       text(axis.within->high)),
                   {}};
        return false;
    }
    return true;
}

std::optional<lang::LineId> line_named(const lang::Sheet& sheet, const Compiled& compiled,
                                       std::string_view name, Refusal& refusal) {
    if (name.empty()) {
        for (const lang::LineId line : {sheet.price_per_unit, sheet.price_total})
            if (line != none && compiled.plan.line_slot[line] != no_slot)
                return line;
        refusal = {"the model has no price", {"name a line: --of LINE"}};
        return std::nullopt;
    }
    const lang::LineId line = sheet.find(name);
    if (line == none) {
        refusal = {fmt::format("no line named `{}`", name), suggestions(sheet, name, false)};
        return std::nullopt;
    }
    if (sheet.lines[line].type.kind != lang::Type::Kind::Number) {
        refusal = {fmt::format("`{}` is a choice, not a number", name), {}};
        return std::nullopt;
    }
    if (compiled.plan.line_slot[line] == no_slot) {
        refusal = {fmt::format("`{}` has no value in this job", name), {}};
        return std::nullopt;
    }
    return line;
}

} // namespace acre::engine
