#include "engine/questions/what_if/axis.h"
#include "engine/job/priced_job.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/words/near_lines.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

using lang::none;

std::optional<Range> range_of(const Values& values, Slot low, Slot high) {
    if (low == no_slot || high == no_slot)
        return std::nullopt;
    return Range{values.slot[low], values.slot[high]};
}

bool is_number(const lang::Sheet& sheet, lang::NodeId id) {
    const lang::Node& node = sheet.nodes[id];
    if (node.op == lang::Op::Negate || node.op == lang::Op::Convert)
        return is_number(sheet, node.a);
    return node.op == lang::Op::Number;
}

// `swing (when layer is top then 2 ft otherwise 0 ft) .. …`: where both formulas come to the value
// itself, this entry does not swing. Of two numbers that is a slip.
bool is_still(const lang::Sheet& sheet, const lang::Given& given, const Axis& axis) {
    return axis.swing && axis.swing->low == axis.value && axis.swing->high == axis.value &&
           !(is_number(sheet, given.swing_low) && is_number(sheet, given.swing_high));
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
    axis.is_share = plan.inputs[input].is_share;
    if (axis.is_share)
        axis.unit = values.slot[plan.line_slot[axis.line]];
    else
        axis.within = range_of(values, plan.within_low[given], plan.within_high[given]);
    axis.swing = range_of(values, plan.swing_low[given], plan.swing_high[given]);
    if (is_still(sheet, sheet.givens[given], axis))
        axis.swing.reset();
    axis.chosen = sheet.givens[given].chosen;
    axis.shape = sheet.givens[given].shape;
    return axis;
}

// `north.area` for `area`, `site.pass.miles` for `site.miles`.
std::vector<std::string> in_entries(const lang::Sheet& sheet, std::string_view name) {
    constexpr std::size_t most_named = 5;
    std::vector<std::string> names;
    for (const lang::Given& given : sheet.givens) {
        const lang::Line& line = sheet.lines[given.line];
        if (line.entry == none || names.size() == most_named)
            continue;
        const std::string entry = sheet.entries[line.entry].name + ".";
        const std::size_t at = line.name.find(entry);
        if (at != std::string::npos &&
            line.name.substr(0, at) + line.name.substr(at + entry.size()) == name)
            names.push_back(fmt::format("`{}`", line.name));
    }
    return names;
}

std::string joined(const std::vector<std::string>& names) {
    std::string out;
    for (const std::string& name : names)
        out += (out.empty() ? "" : ", ") + name;
    return out;
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

lang::Outcome<Axis> find_axis(const PricedJob& job, std::string_view name) {
    const lang::Sheet& sheet = job.sheet();
    const lang::LineId line = sheet.find(name);
    if (line == none) {
        if (const std::vector<std::string> each = in_entries(sheet, name); !each.empty())
            return lang::placeless(
                lang::Code::Q002,
                fmt::format("`{}` has a value for each entry of a list, not one for the whole job",
                            name),
                {}, {fmt::format("vary it in one entry: {}", joined(each))});
        return lang::placeless(lang::Code::Q001, fmt::format("no given named `{}`", name), {},
                               near_lines(sheet, name, Among::Givens));
    }
    if (sheet.lines[line].given == none)
        return lang::placeless(lang::Code::Q002,
                               fmt::format("`{}` is computed and cannot be varied", name), {},
                               {"vary a given it depends on"});
    for (std::uint32_t i = 0; i < job.plan().inputs.size(); ++i)
        if (job.plan().inputs[i].line == line && !job.plan().inputs[i].is_share)
            return make_axis(sheet, job.plan(), job.values(), sheet.lines[line].given, i);
    return lang::placeless(lang::Code::Q002,
                           fmt::format("`{}` is computed from other lines in this job", name), {},
                           {fmt::format("set it to a number first: --set {}=VALUE", name)});
}

std::optional<lang::Diagnostic> swing_trouble(const PricedJob& job, const Axis& axis) {
    const lang::Sheet& sheet = job.sheet();
    const std::string& name = sheet.lines[axis.line].name;
    const char* const range = sheet.givens[axis.given].swing_name();
    const auto text = [&](double x) { return value_text(sheet, axis.line, x * axis.unit); };
    const auto trouble = [&](std::string title, std::string help = {}) {
        lang::Diagnostic diagnostic{lang::Code::I620, std::move(title), {}, {}, {}, {}};
        diagnostic.primary.span = sheet.givens[axis.given].swing_span;
        if (!help.empty())
            diagnostic.helps.push_back({std::move(help), {}});
        return diagnostic;
    };
    const auto [low, high] = *axis.swing;
    if (!std::isfinite(low) || !std::isfinite(high))
        return trouble(fmt::format("the {} of `{}` has no answer in this job", range, name));
    if (!(low < high))
        return trouble(
            fmt::format("the {} of `{}` is empty: {} .. {}", range, name, text(low), text(high)),
            "write the lower end first");
    if (sheet.givens[axis.given].of_it && !(low <= axis.value && axis.value <= high))
        return trouble(fmt::format("the swing of `{}` does not enclose 100 % of it", name));
    if (axis.within && !(axis.within->low <= low && high <= axis.within->high))
        return trouble(fmt::format(
            "the {} of `{}` goes outside its allowed range: {} .. {} is not within {} .. {}", range,
            name, text(low), text(high), text(axis.within->low), text(axis.within->high)));
    return std::nullopt;
}

} // namespace acre::engine
