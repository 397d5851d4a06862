#include "engine/questions/what_if/relaid.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "engine/questions/what_if/reach.h"
#include "engine/readers/value.h"

namespace acre::engine {
namespace {

constexpr std::size_t most_looked = 1'000; // past it, whatever a layout may rest on counts

bool is_for_layout(std::string_view name) {
    name.remove_prefix(name.rfind('.') + 1);
    return name.starts_with("layout_");
}

} // namespace

LaidOut::LaidOut(const PricedJob& job) : job_(job) {
    if (!job.request().field_sets)
        return;
    const std::vector<lang::Line>& lines = job.sheet().lines;
    for (lang::LineId id = 0; id < lines.size(); ++id)
        if (const Slot slot = job.plan().line_slot[id];
            slot != no_slot && is_for_layout(lines[id].name))
            slots_.push_back(slot);
    rested_ = rested_on(job.plan(), slots_);
}

bool LaidOut::otherwise(const Axis& axis, std::span<const double> at) {
    if (slots_.empty() || rested_[job_.plan().inputs[axis.input].slot] == 0)
        return false;
    std::vector<double> inputs;
    for (const Input& input : job_.plan().inputs)
        inputs.push_back(input.value);
    for (const double x : at) {
        if (++looked_ > most_looked)
            return true;
        inputs[axis.input] = x;
        const Values values = evaluate(job_.plan(), inputs);
        for (const Slot slot : slots_) {
            const double before = job_.values().slot[slot], after = values.slot[slot];
            if (!(std::fabs(before - after) <= 1e-12 * std::fabs(before)) &&
                !(std::isnan(before) && std::isnan(after)))
                return true;
        }
    }
    return false;
}

bool LaidOut::otherwise(const Axis& axis) {
    std::vector<double> at;
    for (std::uint32_t option = 0; option < axis.options; ++option)
        at.push_back(static_cast<double>(option));
    if (at.empty() && axis.swing)
        at = {axis.swing->low, axis.swing->high};
    if (at.empty())
        at = {axis.value == 0 ? 1 : axis.value * 1.01};
    return otherwise(axis, at);
}

bool is_from_layout(const PricedJob& job, const Axis& axis) {
    const lang::Given& given = job.sheet().givens[axis.given];
    return !given.settings.empty() && given.settings.back().layer == lang::Layer::Field;
}

lang::Diagnostic laid_out_by(const PricedJob& job, const Axis& axis) {
    const std::string& name = job.sheet().lines[axis.line].name;
    if (is_from_layout(job, axis))
        return lang::placeless(
            lang::Code::Q002, fmt::format("`{}` comes from the boundary of the job", name),
            {"acres, pulls and their length go together there, and this question moves one alone"},
            {"ask it of a job without a boundary"});
    return lang::placeless(
        lang::Code::Q002, fmt::format("the boundary of the job was laid out by `{}`", name),
        {"this question would leave the pulls where they are"},
        {fmt::format("`acrewright price JOB --set {0}=VALUE` lays it out anew, and `compare JOB "
                     "--with {0}=VALUE` puts several side by side",
                     name)});
}

} // namespace acre::engine
