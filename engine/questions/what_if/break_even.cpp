#include "engine/questions/what_if/break_even.h"

#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/earnings.h"
#include "engine/questions/estimate.h"
#include "engine/questions/one_money.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/break_even_range.h"
#include "engine/questions/what_if/crossings.h"
#include "engine/questions/what_if/curve.h"
#include "engine/questions/what_if/reach.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

using lang::placeless;

struct Asked {
    Axis axis;
    lang::LineId line;
};
lang::Outcome<Asked> read_question(const PricedJob& job, const BreakEvenQuestion& question) {
    lang::Outcome<Axis> axis = number_axis(job, question.given);
    if (!axis)
        return std::move(axis.said);
    const lang::LineId cost = job.sheet().cost_total;
    lang::Outcome<lang::LineId> line = find_line(
        job, question.price && cost != lang::none ? job.sheet().lines[cost].name : question.line);
    if (!line)
        return std::move(line.said);
    return Asked{*axis, *line};
}

bool has_a_say(const PricedJob& job, const Asked& asked) {
    const Slot target = job.plan().line_slot[asked.line];
    return reached_from(job.plan(), std::span(&asked.axis.input, 1))[target] != 0;
}

lang::Diagnostic no_say(const PricedJob& job, const Asked& asked) {
    const lang::Sheet& sheet = job.sheet();
    return placeless(lang::Code::Q002,
                     fmt::format("`{}` does not depend on `{}`: it stays {}",
                                 sheet.lines[asked.line].name, sheet.lines[asked.axis.line].name,
                                 value_text(sheet, asked.line, job.value(asked.line))));
}

bool same_units(const PricedJob& a, const Asked& one, const PricedJob& b, const Asked& two) {
    const auto unit = [](const PricedJob& job, lang::LineId line) {
        return unit_text(job.sheet(), job.sheet().lines[line]);
    };
    return unit(a, one.line) == unit(b, two.line) &&
           unit(a, one.axis.line) == unit(b, two.axis.line);
}

// All but what the curve decides.
BreakEvenAnswer started(const PricedJob& job, const Asked& asked, const BreakEvenQuestion& question,
                        const Range& range) {
    BreakEvenAnswer answer;
    answer.title = title_of(job);
    answer.given = subject_of(job, asked.axis.line, question.names);
    answer.line = asked_subject(job, asked.line, question.names);
    answer.value = asked.axis.value;
    answer.range = range;
    return answer;
}

Curve curve_of(const PricedJob& job, const Asked& asked) {
    return {job.compiled(), asked.axis, job.plan().line_slot[asked.line]};
}

} // namespace

std::string line_of_word(const PricedJob& job, const std::string& word) {
    const lang::Sheet& sheet = job.sheet();
    if (sheet.find(word) != lang::none)
        return word;
    const std::pair<const char*, lang::LineId> words[] = {
        {"margin", sheet.profit_share},
        {"profit", sheet.profit_total},
        {"contribution", sheet.contribution_total},
        {"overhead", sheet.overhead_total},
        {"cost", sheet.cost_total},
        {"price", sheet.price_total}};
    for (const auto& [name, line] : words)
        if (word == name && line != lang::none)
            return sheet.lines[line].name;
    return word;
}

lang::Outcome<BreakEvenAnswer> ask(const PricedJob& job, const BreakEvenQuestion& question) {
    lang::Outcome<Asked> asked = read_question(job, question);
    if (!asked)
        return std::move(asked.said);
    const double overhead = question.price ? overhead_of(job.sheet(), job.plan(), job.values()) : 0;
    const double wanted = question.price ? *question.price - overhead : question.wanted;
    if (!std::isfinite(wanted))
        return placeless(lang::Code::Q003,
                         fmt::format("the value to reach for `{}` is not a number",
                                     job.sheet().lines[asked->line].name));
    lang::Said said = judged(job, {});
    if (said.diagnostics.has_errors())
        return said;
    if (!has_a_say(job, *asked))
        return no_say(job, *asked);
    lang::Outcome<Range> range = range_of(job, asked->axis, question.between);
    if (!range)
        return std::move(range.said);
    BreakEvenAnswer answer = started(job, *asked, question, *range);
    answer.wanted = wanted;
    answer.price = question.price;
    answer.overhead = overhead;
    answer.charged = charged_otherwise(job, asked->line);
    if (auto beyond = find_crossings(curve_of(job, *asked), job, answer))
        return std::move(*beyond);
    return {std::move(answer), std::move(said)};
}

lang::Outcome<BreakEvenAnswer> ask(const PricedJob& job, const PricedJob& other,
                                   const BreakEvenQuestion& question) {
    lang::Outcome<Asked> mine = read_question(job, question);
    if (!mine)
        return std::move(mine.said);
    if (auto unlike = in_other_money(job.sheet().firm.money, other))
        return std::move(*unlike);
    lang::Outcome<Asked> theirs = read_question(other, question);
    if (!theirs) {
        lang::Said said;
        for (lang::Diagnostic diagnostic : theirs.said.diagnostics.all()) {
            diagnostic.title = "in the other job " + diagnostic.title;
            said.diagnostics.add(std::move(diagnostic));
        }
        return said;
    }
    if (!same_units(job, *mine, other, *theirs))
        return placeless(lang::Code::Q009, "the two jobs measure it in different units");
    for (const PricedJob* one : {&job, &other})
        if (lang::Said said = judged(*one, {}); said.diagnostics.has_errors())
            return said;
    if (!has_a_say(job, *mine) && !has_a_say(other, *theirs))
        return no_say(job, *mine);
    lang::Outcome<Range> range = range_of(job, mine->axis, question.between);
    if (!range)
        return std::move(range.said);
    if (lang::Outcome<Range> there = range_of(other, theirs->axis, *range); !there)
        return std::move(there.said);
    BreakEvenAnswer answer = started(job, *mine, question, *range);
    answer.against = title_with_option(other);
    const Curve curve_of_other = curve_of(other, *theirs);
    Curve curve = curve_of(job, *mine);
    curve.subtract(curve_of_other);
    if (auto beyond = find_crossings(curve, job, answer))
        return std::move(*beyond);
    return {std::move(answer), judged(job, {})};
}

} // namespace acre::engine
