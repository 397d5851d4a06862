#include "cli/compare/over.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "cli/shared/axis_words.h"
#include "cli/shared/chart/curves.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/words.h"
#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/grid.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string letter(std::size_t column) {
    return std::string(1, static_cast<char>('A' + column % 26));
}

std::string quantity(const lang::Sheet& sheet, lang::LineId line, double value) {
    return lang::terminal_text(lang::quantity_text(value, sheet.lines[line].unit_text));
}

// One crossing in words. A step (whole days, rounding) is told as a step: there is no single value
// at which the two are equal.
std::string crossing_text(const lang::Sheet& sheet, const engine::BreakEven& result,
                          const engine::Crossing& crossing, const std::string& other) {
    const auto at = [&](double x) { return quantity(sheet, result.axis.line, x); };
    const std::string after =
        crossing.rising ? other + " is cheaper above" : other + " is cheaper below";
    switch (crossing.kind) {
    case engine::CrossingKind::Root:
        return fmt::format("the same at {}; {}", at(crossing.x), after);
    case engine::CrossingKind::Jump:
        return fmt::format("the lead changes at a step, between {} and {}; {}", at(crossing.x),
                           at(crossing.x_after), after);
    case engine::CrossingKind::Touch:
        return fmt::format("the same at {}, but no change of the lead", at(crossing.x));
    case engine::CrossingKind::Level:
        return fmt::format("the same from {} to {}", at(crossing.x), at(crossing.x_after));
    }
    return {};
}

bool flip(const Comparison& comparison, const std::string& given, std::size_t column,
          std::string& out, Console& console) {
    const engine::PricedJob& a = *comparison.columns[0].job;
    const engine::PricedJob& b = *comparison.columns[column].job;
    engine::BreakEvenQuestion question;
    question.given = given;
    engine::Refusal refusal;
    // First column less the other: rising through zero means that the other is cheaper above.
    const auto result = engine::break_even_against(a, b, question, refusal);
    if (!result) {
        refuse(refusal, console);
        return false;
    }
    const lang::Sheet& sheet = a.sheet();
    const std::string range = quantity(sheet, result->axis.line, result->range.low) + " to " +
                              quantity(sheet, result->axis.line, result->range.high);
    if (result->crossings.empty()) {
        const bool cheaper = result->least > 0;
        out += "  " +
               wrap(fmt::format(
                        "A and {}: never the same from {}: {} is cheaper all the way, by {} at the "
                        "least (at {})",
                        letter(column), range, cheaper ? letter(column) : "A",
                        quantity(sheet, result->line,
                                 std::min(std::abs(result->least), std::abs(result->greatest))),
                        quantity(sheet, result->axis.line,
                                 cheaper ? result->least_at : result->greatest_at)),
                    page_width - 2, 4) +
               "\n";
        return true;
    }
    for (std::size_t i = 0; i < std::min<std::size_t>(6, result->crossings.size()); ++i)
        out +=
            "  " +
            wrap(fmt::format("A and {}: {}", letter(column),
                             crossing_text(sheet, *result, result->crossings[i], letter(column))),
                 page_width - 2, 4) +
            "\n";
    if (result->crossings.size() > 6)
        out += fmt::format("  A and {}: and {} more within {}\n", letter(column),
                           result->crossings.size() - 6, range);
    return true;
}

struct OverRange {
    std::string given;
    engine::Range ends;
};
// "run 300 ft..2,600 ft", in the unit of the given.
std::optional<OverRange> read_over(const std::string& over, const engine::PricedJob& job,
                                   std::string& reason) {
    const std::size_t blank = over.find(' ');
    const std::size_t dots = over.find("..");
    if (blank == std::string::npos || dots == std::string::npos || dots < blank) {
        reason = "`--over` takes a given and a range, as in \"run 300 ft..2,600 ft\"";
        return std::nullopt;
    }
    OverRange range;
    range.given = over.substr(0, blank);
    const lang::LineId id = job.sheet().find(range.given);
    if (id == lang::none) {
        reason = "the job has no given named `" + lang::terminal_text(range.given) + "`";
        return std::nullopt;
    }
    const auto ends = read_range(over.substr(blank), job.sheet().lines[id].unit_text, reason);
    if (!ends) {
        reason = "`--over`: " + reason;
        return std::nullopt;
    }
    range.ends = *ends;
    return range;
}

} // namespace

bool flip_text(const Comparison& comparison, const std::string& given, std::string& out,
               Console& console) {
    out += fmt::format("\nWhere they cost the same, over {}\n", lang::terminal_text(given));
    if (comparison.columns.size() < 2) {
        console.err +=
            "acrewright: `--flip` needs two columns: a job with an option, or two jobs\n";
        return false;
    }
    for (std::size_t column = 1; column < comparison.columns.size(); ++column)
        if (!flip(comparison, given, column, out, console))
            return false;
    return true;
}

bool over_text(const Comparison& comparison, const std::string& over, std::string& out,
               std::string& svg, Console& console) {
    std::string reason;
    const engine::PricedJob& first = *comparison.columns[0].job;
    const std::optional<OverRange> range = read_over(over, first, reason);
    if (!range) {
        console.err += "acrewright: " + reason + "\n";
        return false;
    }
    const lang::LineId id = first.sheet().find(range->given);
    const lang::Line& line = first.sheet().lines[id];
    Curves curves;
    curves.title = "Price over " + (line.label.empty() ? line.name : line.label);
    curves.x_name = line.label.empty() ? line.name : line.label;
    curves.x_unit = line.unit_text;
    curves.y_unit = "$/" + comparison.columns[0].estimate.per;
    constexpr std::size_t points = 241;
    for (std::size_t column = 0; column < comparison.columns.size(); ++column) {
        const engine::PricedJob& job = *comparison.columns[column].job;
        engine::Refusal refusal;
        const auto places = engine::places(range->ends, points, refusal);
        engine::GridQuestion question;
        if (places)
            question.along.push_back({range->given, *places});
        const auto grid = places ? engine::grid(job, question, refusal) : std::nullopt;
        if (!grid) {
            refuse(refusal, console);
            return false;
        }
        curves.x = grid->along[0].at;
        curves.curves.push_back(
            {letter(column) + "  " + comparison.columns[column].name, grid->columns[0].value});
    }
    out += "\n" + curves_text(curves);
    svg = curves_svg(curves);
    return true;
}

} // namespace acre::cli
