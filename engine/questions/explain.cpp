#include "engine/questions/explain.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "engine/faults/faults.h"
#include "engine/faults/line_uses.h"
#include "engine/plan/plan_roots.h"
#include "engine/words/choice_label.h"
#include "engine/words/near_lines.h"
#include "engine/words/words.h"
#include "lang/diag/suggest.h"

namespace acre::engine {

using lang::none;

namespace {

// A tree that is deeper than this would not survive the readers that walk it by recursion; the
// lines below are left out as if the depth had been limited there.
constexpr std::uint32_t deepest = 1'000;

std::string_view known_text(lang::ast::Known known) {
    switch (known) {
    case lang::ast::Known::Read:
        return "read";
    case lang::ast::Known::Recalled:
        return "recalled";
    case lang::ast::Known::CommonPractice:
        return "common practice";
    case lang::ast::Known::Ours:
        return "ours";
    case lang::ast::Known::Unstated:
        break;
    }
    return "";
}

class Explainer {
  public:
    explicit Explainer(const PricedJob& job)
        : job_(job),
          sheet_(job.sheet()),
          compiled_(job.compiled()),
          values_(job.values()),
          sources_(job.sources()),
          shown_(job.sheet().lines.size(), 0) {}

    ExplainStep step(lang::LineId id, std::uint32_t depth) {
        const lang::Line& line = sheet_.lines[id];
        ExplainStep step;
        step.name = line.name;
        step.label = line.label;
        step.unit = unit_text(sheet_, line);
        const Slot slot = slot_of(compiled_, id);
        step.value = slot == no_slot ? NAN : values_.slot[slot];
        step.choice = choice_text(sheet_, line.type, step.value);
        step.text =
            step.choice.empty() ? value_text(sheet_, id, step.value) : choice_label(step.choice);
        step.place = place_text(sources_, line.name_span);
        step.because = line.because;
        step.may_be_negative = line.may_be_negative;
        if (line.given != none)
            set_by(sheet_.givens[line.given], step);

        const bool plain = slot == no_slot || compiled_.plan.operations[slot].code == OpCode::Input;
        if (line.value == none || (line.given != none && plain))
            return step;
        step.written = formula_text(sheet_, sources_, id);
        step.with_numbers = formula_with_numbers(job_, id);
        const Uses uses = uses_of(job_, line.value);
        for (const std::uint32_t function : uses.functions)
            add_sources(sheet_.functions[function], step.sources);
        if (uses.lines.empty() || depth == 0)
            return step;
        step.seen = shown_[id] != 0;
        if (step.seen)
            return step;
        shown_[id] = 1;
        step.inputs.reserve(uses.lines.size());
        for (const lang::LineId input : uses.lines)
            step.inputs.push_back(this->step(input, depth - 1));
        return step;
    }

  private:
    void set_by(const lang::Given& given, ExplainStep& step) const {
        if (given.settings.empty())
            return;
        const lang::Setting& setting = given.settings.back();
        step.set_by = layer_text(setting.layer);
        if (setting.layer != lang::Layer::Model)
            step.place = place_text(sources_, setting.span);
        step.because = setting.because;
        if (setting.within)
            step.within = lang::days_text(*setting.within);
    }

    static void add_sources(const lang::Function& function, std::vector<std::string>& sources) {
        const std::string_view known = known_text(function.known);
        const std::string status = known.empty() ? "" : fmt::format(" ({})", known);
        for (const std::string& source : function.sources)
            sources.push_back(fmt::format("{}: {}{}", function.name, source, status));
        if (function.sources.empty() && !known.empty())
            sources.push_back(fmt::format("{}: {}", function.name, known));
    }

    const PricedJob& job_;
    const lang::Sheet& sheet_;
    const Compiled& compiled_;
    const Values& values_;
    const lang::SourceMap& sources_;
    std::vector<char> shown_;
};

} // namespace

ExplainStep explain(const PricedJob& job, lang::LineId line, ExplainLimits limits) {
    return Explainer(job).step(line, limits.depth < deepest ? limits.depth : deepest);
}

namespace {

constexpr std::uint32_t most_asked = 400; // levels of a tree that somebody looks at

lang::Diagnostic no_such_line(const lang::Sheet& sheet, const std::string& name) {
    if (name.empty())
        return lang::placeless(lang::Code::Q001, "the model has no price", {},
                               {"name a line of the model"});
    std::vector<std::string_view> names;
    for (const lang::Line& line : sheet.lines)
        names.push_back(line.name);
    std::string title = fmt::format("no line named `{}`", name);
    const auto near = lang::near_names(name, names);
    for (std::size_t i = 0; i < near.size(); ++i)
        title += fmt::format("{}`{}`", i == 0 ? "; did you mean " : " or ", near[i]);
    return lang::placeless(lang::Code::Q001, near.empty() ? title : title + "?", {},
                           lines_that_say(sheet, name, Among::Lines, near));
}

} // namespace

lang::Outcome<ExplainStep> ask(const PricedJob& job, const ExplainQuestion& question) {
    const lang::Sheet& sheet = job.sheet();
    const lang::LineId line = question.line.empty() ? sheet.price_total : sheet.find(question.line);
    if (line == none)
        return no_such_line(sheet, question.line);
    lang::Said said{job.diagnostics(), job.shared_sources()};
    report_faults(job, std::span(&line, 1), said.diagnostics);
    if (said.diagnostics.has_errors())
        return said;
    return {explain(job, line, {std::min(question.depth, most_asked)}), std::move(said)};
}

} // namespace acre::engine
