#include "engine/questions/subject.h"

#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/faults/faults.h"
#include "engine/questions/what_if/axis.h"
#include "engine/words/choice_label.h"
#include "engine/words/near_lines.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::none;
using lang::placeless;

} // namespace

std::string Subject::option(double value) const {
    const bool there = value >= 0 && value < static_cast<double>(options.size());
    return there ? options[static_cast<std::size_t>(value)] : std::string();
}

std::string Subject::text(double value) const {
    if (!std::isfinite(value))
        return "no answer";
    return is_choice() ? choice_label(option(value)) : lang::quantity_text(value, unit);
}

Subject subject_of(const PricedJob& job, lang::LineId id, bool names) {
    const lang::Sheet& sheet = job.sheet();
    const lang::Line& line = sheet.lines[id];
    Subject subject{line.name,
                    line.label,
                    names || line.label.empty() ? line.name : line.label,
                    unit_text(sheet, line),
                    {}};
    if (line.type.kind == lang::Type::Kind::Choice)
        subject.options = sheet.choices[line.type.choice].options;
    return subject;
}

Subject asked_subject(const PricedJob& job, lang::LineId line, bool names) {
    Subject subject = subject_of(job, line, names);
    const lang::Sheet& sheet = job.sheet();
    const std::pair<lang::LineId, const char*> words[] = {
        {sheet.price_per_unit, "the price all in"},
        {sheet.price_total, "the price"},
        {sheet.cost_total, "the direct cost"},
        {sheet.overhead_total, "the overhead"},
        {sheet.contribution_total, "the contribution"},
        {sheet.profit_total, "the profit"},
        {sheet.profit_share, "the margin"}};
    for (const auto& [id, called] : words)
        if (!names && id != none && id == line)
            subject.called = called;
    return subject;
}

lang::Outcome<lang::LineId> find_line(const PricedJob& job, std::string_view name) {
    const lang::Sheet& sheet = job.sheet();
    if (name.empty()) {
        for (const lang::LineId line : {sheet.price_per_unit, sheet.price_total})
            if (line != none && job.plan().line_slot[line] != no_slot)
                return line;
        return placeless(lang::Code::Q001, "the model has no price", {},
                         {"name a line: --of LINE"});
    }
    const lang::LineId line = sheet.find(name);
    if (line == none)
        return placeless(lang::Code::Q001, fmt::format("no line named `{}`", name), {},
                         near_lines(sheet, name, Among::Lines));
    if (sheet.lines[line].type.kind != lang::Type::Kind::Number)
        return placeless(lang::Code::Q002, fmt::format("`{}` is a choice, not a number", name));
    if (job.plan().line_slot[line] == no_slot)
        return placeless(lang::Code::Q002, fmt::format("`{}` has no value in this job", name));
    return line;
}

lang::Outcome<Subject> line_named(const PricedJob& job, std::string_view name, bool names) {
    lang::Outcome<lang::LineId> line = find_line(job, name);
    if (!line)
        return std::move(line.said);
    return asked_subject(job, *line, names);
}

lang::Outcome<Subject> given_named(const PricedJob& job, std::string_view name) {
    lang::Outcome<Axis> axis = find_axis(job, name);
    if (!axis)
        return std::move(axis.said);
    return subject_of(job, axis->line);
}

std::string title_of(const PricedJob& job) {
    const lang::JobInfo& info = job.sheet().job;
    return info.title.empty() ? info.model_title : info.title;
}

bool is_priced(const PricedJob& job) {
    return job.sheet().price_total != none;
}

std::string title_with_option(const PricedJob& job) {
    const std::string& option = job.sheet().job.option;
    return title_of(job) + (option.empty() ? "" : ", " + option);
}

lang::Said judged(const PricedJob& job, const std::vector<lang::LineId>& lines) {
    lang::Said said{job.diagnostics(), job.shared_sources()};
    report_faults(job, lines, said.diagnostics);
    return said;
}

} // namespace acre::engine
