// Formulas: from the syntax tree to nodes of the sheet, with every name resolved.
#pragma once

#include <cstdint>
#include <string_view>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// Reports N201, N203, N204, N205, N206, N211, N213, N215, U309, N214; what could not be resolved is
// a Missing node. `expected`: the choice that stands here, whose options may be named; none: a
// number or a condition.
NodeId build(Resolution& r, const Where& where, ast::ExprId expr, ChoiceId expected = none);

// The choice of a type; none for a number.
inline ChoiceId choice_of(const Type& type) {
    return type.kind == Type::Kind::Choice ? type.choice : none;
}

void report_full(Resolution& r, Span span); // N214, once

// Nodes that nobody wrote; spans point at the text they stand for.
NodeId add_node(Resolution& r, Node node);
NodeId number_node(Resolution& r, double value, const Unit& unit, Span span);
NodeId line_node(Resolution& r, LineId line, Span span);
NodeId binary_node(Resolution& r, Op op, NodeId a, NodeId b, Span span, Span op_span);

} // namespace acre::lang::resolving
