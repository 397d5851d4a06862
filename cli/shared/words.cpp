#include "cli/shared/words.h"
#include "cli/shared/legacy.h"
#include "engine/faults/faults.h"

#include <algorithm>
#include <cmath>

#include "engine/questions/what_if/axis.h"
#include "engine/words/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {

engine::Job open_judged(const JobArguments& arguments, std::span<const std::string> lines,
                        Console& console, int& code, std::vector<std::string>* files) {
    engine::Job job = open_job(arguments, console, code, files);
    if (!job)
        return nullptr;
    std::vector<lang::LineId> roots;
    for (const std::string& name : lines) {
        engine::Refusal refusal;
        const auto line = engine::line_named(job->sheet(), job->compiled(), name, refusal);
        if (!line) {
            code = refuse(refusal, console);
            return nullptr;
        }
        roots.push_back(*line);
    }
    lang::Said said{job->diagnostics(), job->shared_sources()};
    engine::report_faults(*job, roots, said.diagnostics);
    code = report(said, console);
    return code == exit_done ? std::move(job) : nullptr;
}

int refuse(const engine::Refusal& refusal, Console& console) {
    console.err += "acrewright: " + lang::terminal_text(refusal.what) + "\n";
    for (const std::string& help : refusal.helps)
        console.err += "  mend: " + lang::terminal_text(help) + "\n";
    return exit_usage;
}
int refuse(std::string_view what, Console& console) {
    return refuse(engine::Refusal{std::string(what), {}}, console);
}

std::string shown(const lang::Sheet& sheet, lang::LineId line, double value) {
    return std::isfinite(value) ? lang::terminal_text(engine::value_text(sheet, line, value))
                                : "no answer";
}

std::string shown_change(double change, std::string_view unit) {
    if (!std::isfinite(change))
        return "no answer";
    if (change == 0)
        return "no change";
    return (change > 0 ? "+" : "") + lang::terminal_text(lang::quantity_text(change, unit));
}

std::string called(const lang::Sheet& sheet, lang::LineId line, bool names) {
    const lang::Line& l = sheet.lines[line];
    return lang::terminal_text(names || l.label.empty() ? l.name : l.label);
}

std::string called_asked(const lang::Sheet& sheet, lang::LineId line, bool names) {
    if (!names && line == sheet.price_per_unit)
        return "the price all in";
    if (!names && line == sheet.price_total)
        return "the price";
    if (!names && line == sheet.cost_total)
        return "the cost";
    return called(sheet, line, names);
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string title_of(const lang::Sheet& sheet) {
    return sheet.job.title.empty() ? sheet.job.model_title : sheet.job.title;
}

} // namespace acre::cli
