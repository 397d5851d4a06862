#include <cmath>
#include <string>

#include <fmt/format.h>

#include "cli/check/plan_pages.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string operands_text(const engine::PlanStep& step) {
    std::string text = lang::terminal_text(step.of);
    for (const std::uint32_t operand : step.operands)
        text += fmt::format("{}{}", text.empty() ? "" : " ", operand);
    return text;
}

} // namespace

std::string plan_text(const engine::PlanListing& listing, bool color) {
    Table table({{"slot"},
                 {"operation", Align::Left},
                 {"of", Align::Left},
                 {"value"},
                 {"unit", Align::Left},
                 {"line", Align::Left, true}},
                0);
    std::size_t slot = 0;
    for (const engine::PlanStep& step : listing.steps)
        table.row({std::to_string(slot++), std::string(step.operation), operands_text(step),
                   std::isnan(step.value) ? "poison" : lang::number_text(step.value),
                   lang::terminal_text(step.unit), lang::terminal_text(step.line)});
    return table.text(color);
}

} // namespace acre::cli
