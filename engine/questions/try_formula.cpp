#include "engine/questions/try_formula.h"

#include <cmath>
#include <span>

#include <fmt/format.h>

#include "engine/driver.h"
#include "engine/faults/faults.h"
#include "engine/words/words.h"
#include "lang/check/resolve.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

lang::Request request_of(const TryQuestion& question) {
    lang::Request request;
    if (question.job)
        request = *question.job;
    else {
        request.name = question.from;
        request.kind = lang::FileKind::Model;
        request.text = "model \"index\"\n";
        for (const std::string& library : question.libraries)
            request.text += fmt::format("use \"{}\"\n", library);
    }
    request.tried = question.formula;
    request.every_function = false;
    return request;
}

// What is said of the job is another question; only errors stop this one.
lang::Said errors_of(const lang::Said& said) {
    lang::Said kept{{}, said.sources};
    for (const lang::Diagnostic& one : said.diagnostics.all())
        if (one.severity() == lang::Severity::Error)
            kept.diagnostics.add(one);
    return kept;
}

// Money with its cents, or where less than a dollar is no whole cents with the digits that it has.
std::string answer_text(const lang::Sheet& sheet, lang::LineId line, double value,
                        const std::string& unit) {
    if (unit.empty() || lang::money_in(unit) != unit.size() || !std::isfinite(value))
        return value_text(sheet, line, value);
    const double cents = value * 100;
    const bool whole = std::abs(cents - std::round(cents)) < 1e-9;
    return std::abs(value) >= 1 || whole
               ? lang::money_text(value)
               : (value < 0 ? "-" : "") + lang::sign_before() + lang::number_text(std::abs(value));
}

} // namespace

lang::Outcome<TryAnswer> ask(const TryQuestion& question, lang::Loader& loader) {
    lang::Outcome<Job> made = make_job(request_of(question), loader, Aim::Look);
    if (!made)
        return errors_of(made.said);
    const PricedJob& job = **made;
    const lang::Sheet& sheet = job.sheet();
    const lang::LineId line = sheet.find(lang::tried_line);
    if (line == lang::none)
        return lang::placeless(lang::Code::C003, "there is no formula to try");
    lang::Said said = errors_of(made.said);
    report_faults(job, std::span(&line, 1), said.diagnostics);
    if (said = errors_of(said); said.diagnostics.has_errors())
        return said;
    TryAnswer answer;
    answer.value = job.value(line);
    answer.written = formula_text(sheet, job.sources(), line);
    answer.unit = unit_text(sheet, sheet.lines[line]);
    answer.text = answer_text(sheet, line, answer.value, answer.unit);
    if (std::string numbers = formula_with_numbers(job, line);
        numbers != answer.written && numbers != value_text(sheet, line, answer.value))
        answer.with_numbers = std::move(numbers);
    return answer;
}

} // namespace acre::engine
