// The price statements of a job's own model, as both halves of the work on prices need them.
#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// By StepKind: what the line of the sum after a step is called.
inline constexpr std::array<std::string_view, 8> step_names = {
    "overhead", "contingency", "reserve", "markup", "margin", "at_least", "round_up", "round_to"};

struct PriceStatement {
    const ast::Price* ast;
    Span span;
};

// The prices of used models are not among them: those count when such a model prices a job itself.
std::vector<PriceStatement> price_statements(const Resolution& r);
// What the lines of totals point at: the first price, or the model.
Span totals_span(const Resolution& r, const std::vector<PriceStatement>& statements);

} // namespace acre::lang::resolving
