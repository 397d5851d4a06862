#include "engine/questions/bridge/bridge_changes.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {

std::map<lang::LineId, std::uint32_t> inputs_by_line(const Plan& plan) {
    std::map<lang::LineId, std::uint32_t> result;
    for (std::uint32_t i = 0; i < plan.inputs.size(); ++i)
        if (!plan.inputs[i].is_share)
            result.emplace(plan.inputs[i].line, i);
    return result;
}

namespace {

// A formula that a job or a season sets; empty: the model computes it.
std::string formula_set(const PricedJob& job, const lang::Given& given) {
    if (given.settings.empty() || given.settings.back().layer <= lang::Layer::Binding ||
        given.settings.back().value == lang::none)
        return {};
    const lang::Node& node = job.sheet().nodes[given.settings.back().value];
    // What starts from a shared instance reads its line, and has the span of what is set there.
    return node.op == lang::Op::Line ? job.sheet().lines[node.index].name
                                     : source_text(job.sources(), node.span);
}

} // namespace

GivenValues givens_of(const PricedJob& job) {
    GivenValues result;
    const lang::Sheet& sheet = job.sheet();
    const auto inputs = inputs_by_line(job.plan());
    for (const lang::Given& given : sheet.givens) {
        const lang::Line& line = sheet.lines[given.line];
        const Slot slot = job.plan().line_slot[given.line];
        if (slot == no_slot || !std::isfinite(job.values().slot[slot]))
            continue;
        GivenValue& entry = result[line.name];
        entry.value = job.values().slot[slot];
        entry.is_input = inputs.contains(given.line);
        entry.label = line.label;
        entry.because = given.settings.empty() ? std::string() : given.settings.back().because;
        entry.is_choice = line.type.kind == lang::Type::Kind::Choice;
        if (entry.is_choice) {
            entry.text =
                sheet.choices[line.type.choice].options[static_cast<std::size_t>(entry.value)];
            entry.shown = entry.text;
        } else {
            const std::string& unit = line.unit_text;
            entry.text = unit.empty() || unit == "1" ? fmt::format("{}", entry.value)
                                                     : fmt::format("{} {}", entry.value, unit);
            entry.shown = lang::quantity_text(entry.value, unit);
        }
        if (!entry.is_input)
            entry.text = formula_set(job, given);
    }
    return result;
}

namespace {

std::map<std::string, std::string> texts_of(const PricedJob& job) {
    std::map<std::string, std::string> texts;
    for (lang::FileId id = 0; id < job.sources().size(); ++id)
        texts.emplace(job.sources().file(id).name(), job.sources().file(id).text());
    return texts;
}

// Which texts of formulas differ. Texts of jobs and seasons only carry values, which are compared
// one by one.
void changed_texts(const PricedJob& before, const PricedJob& after, bool& models, bool& library) {
    const auto old_texts = texts_of(before);
    const auto new_texts = texts_of(after);
    const auto differs = [&](const auto& from, const auto& to) {
        for (const auto& [name, text] : from) {
            if (!name.ends_with(".rate"))
                continue;
            const auto other = to.find(name);
            if (other == to.end() || other->second != text)
                (name.find("library/") != std::string::npos ? library : models) = true;
        }
    };
    differs(old_texts, new_texts);
    differs(new_texts, old_texts);
}

} // namespace

std::vector<Change> changes_between(const PricedJob& job_before, const PricedJob& job_after,
                                    const GivenValues& before, const GivenValues& after) {
    std::vector<Change> changes;
    bool models = false;
    bool library = false;
    changed_texts(job_before, job_after, models, library);
    // Other entries or used models: values without a counterpart move with the model.
    models = models || before.size() != after.size() ||
             !std::equal(before.begin(), before.end(), after.begin(),
                         [](const auto& a, const auto& b) { return a.first == b.first; });
    if (models)
        changes.push_back({BridgeKind::Model, "", nullptr, nullptr, true});
    if (library)
        changes.push_back({BridgeKind::Library, "", nullptr, nullptr, true});
    for (const auto& [name, value] : before) {
        const auto other = after.find(name);
        if (other == after.end())
            continue;
        const bool computed = !value.is_input || !other->second.is_input;
        if (computed ? value.text != other->second.text : value.value != other->second.value)
            changes.push_back({BridgeKind::Given, name, &value, &other->second, computed});
    }
    return changes;
}

} // namespace acre::engine
