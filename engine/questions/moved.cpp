#include "engine/questions/moved.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <vector>

#include "engine/questions/quantity.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/axis.h"

namespace acre::engine {
namespace {

// As a number of the given's own unit; of a choice the index of its option.
std::optional<double> value_in(const PricedJob& job, lang::LineId line, const std::string& text) {
    const Subject given = subject_of(job, line);
    if (given.is_choice()) {
        const auto option = std::find(given.options.begin(), given.options.end(), text);
        if (option == given.options.end())
            return std::nullopt;
        return static_cast<double>(option - given.options.begin());
    }
    const lang::Outcome<double> number = QuantityReader(job, given).read(text);
    return number ? std::optional(*number) : std::nullopt;
}

// What a layout reads (engine/job/job_fields.h), in the whole job or in an entry.
bool lays_out(std::string_view name) {
    name.remove_prefix(name.rfind('.') + 1);
    return name.starts_with("layout_") || name == "speed" || name == "turn";
}

} // namespace

LaidBy laid_by(const PricedJob& job) {
    LaidBy by;
    const std::vector<lang::Line>& lines = job.sheet().lines;
    for (lang::LineId id = 0; id < lines.size(); ++id)
        if (lays_out(lines[id].name))
            by.emplace_back(lines[id].name, job.value(id));
    return by;
}

bool laid_alike(const LaidBy& before, const LaidBy& after) {
    const auto same = [](const auto& a, const auto& b) {
        const bool near = std::fabs(a.second - b.second) <= 1e-12 * std::fabs(a.second);
        return a.first == b.first && (near || (std::isnan(a.second) && std::isnan(b.second)));
    };
    return std::equal(before.begin(), before.end(), after.begin(), after.end(), same);
}

Job moved(const PricedJob& job, std::span<const std::pair<std::string, std::string>> sets) {
    std::vector<double> inputs;
    for (const Input& input : job.plan().inputs)
        inputs.push_back(input.value);
    for (const auto& [name, text] : sets) {
        const lang::Outcome<Axis> axis = find_axis(job, name);
        const std::optional<double> value = axis ? value_in(job, axis->line, text) : std::nullopt;
        if (!value)
            return nullptr;
        inputs[axis->input] = *value;
    }
    Job after = job.with_inputs(inputs);
    return !job.request().field_sets || laid_alike(laid_by(job), laid_by(*after)) ? after : nullptr;
}

} // namespace acre::engine
