#include "lang/check/resolve/formula.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/formula_builder.h"
#include "lang/check/resolve/messages.h"

namespace acre::lang::resolving {
namespace {

Op op_of(ast::BinaryOp op) {
    static constexpr Op ops[] = {
#define ACRE_PREFIX(...)
#define ACRE_BINARY(op, ...) Op::op,
#define ACRE_FUNCTION(...)
#include "lang/syntax/operations.def"
    };
    return ops[static_cast<std::size_t>(op)];
}

} // namespace

NodeId FormulaBuilder::build(ast::ExprId id, ChoiceId expected) {
    if (id >= module_.exprs.size())
        return missing({module_.file, 0, 0});
    const ast::Expr& expr = module_.exprs[id];
    return std::visit([&](const auto& node) { return of(node, expr.span, expected); }, expr.node);
}

NodeId FormulaBuilder::missing(Span span) {
    Node node;
    node.span = node.op_span = span;
    node.type.kind = Type::Kind::Poison;
    return add_node(r_, node);
}

NodeId FormulaBuilder::make(Op op, Span span, Span op_span, NodeId a, NodeId b, NodeId c) {
    Node node;
    node.op = op;
    node.span = span;
    node.op_span = op_span;
    node.a = a;
    node.b = b;
    node.c = c;
    return add_node(r_, node);
}

NodeId FormulaBuilder::indexed(Op op, std::uint32_t index, Span span, Span op_span) {
    Node node;
    node.op = op;
    node.span = span;
    node.op_span = op_span;
    node.index = index;
    return add_node(r_, node);
}

NodeId FormulaBuilder::option_node(ChoiceId choice, std::uint32_t option, Span span) {
    const NodeId id = indexed(Op::Choice, option, span, span);
    r_.sheet.nodes[id].type = {Type::Kind::Choice, choice, {}};
    return id;
}

NodeId FormulaBuilder::of(const ast::Number& number, Span span, ChoiceId) {
    if (!number.unit)
        return number_node(r_, number.value, one, span);
    const Unit* unit = r_.units.read(*number.unit);
    return unit != nullptr ? number_node(r_, number.value, *unit, span) : missing(span);
}

NodeId FormulaBuilder::of(const ast::Name& name, Span span, ChoiceId expected) {
    if (expected != none) {
        if (const std::uint32_t option = r_.find_option(expected, name.text); option != none)
            return option_node(expected, option, span);
    }
    if (where_.function != nullptr)
        return name_in_function(name, span, expected);
    const Found found = look_up(r_, where_, name.text);
    switch (found.state) {
    case Found::State::Silent:
        return missing(span);
    case Found::State::Absent:
        if (const NodeId entry = entry_at_hand(name, span); entry != none)
            return entry;
        return unknown(name, span, expected);
    case Found::State::Line:
        break;
    }
    if (!r_.open(found.of, where_.at).empty()) {
        report_read_from_outside(r_, where_, name.text, span, found);
        return missing(span);
    }
    return line_node(r_, found.line, span);
}

// `layer` of `layer is pan`: which entry of the list this copy stands for.
NodeId FormulaBuilder::entry_at_hand(const ast::Name& name, Span span) {
    const std::uint32_t list = r_.find_list(name.text);
    if (list == none || !where_.at.has(list))
        return none;
    const List& of = r_.lists[list];
    const auto others = static_cast<std::uint32_t>(r_.sheet.choices[of.choice].options.size() - 1);
    std::uint32_t option = none;
    if (!of.entries.empty())
        option = r_.find_option(of.choice, of.entries[where_.at[list]]);
    return option_node(of.choice, option == none ? others : option, span);
}

NodeId FormulaBuilder::name_in_function(const ast::Name& name, Span span, ChoiceId expected) {
    const NameInFunction found = r_.find_in_function(*where_.function, name.text);
    switch (found.kind) {
    case NameInFunction::Kind::None:
        return unknown(name, span, expected);
    case NameInFunction::Kind::Parameter:
        return indexed(Op::Parameter, found.index, span, span);
    case NameInFunction::Kind::Line:
        return indexed(Op::Local, found.index, span, span);
    default:
        break;
    }
    if (where_.row != no_row)
        return in_row(found, where_.row, span);
    report_column_outside(r_, where_, name.text, span);
    return missing(span);
}

NodeId FormulaBuilder::unknown(const ast::Name& name, Span span, ChoiceId expected) {
    if (expected != none && name.text.find('.') == std::string_view::npos)
        report_unknown_option(r_, expected, name.text, span);
    else
        report_unknown_name(r_, where_, name.text, span);
    return missing(span);
}

NodeId FormulaBuilder::of(const ast::Negate& negate, Span span, ChoiceId) {
    const NodeId a = build(negate.of, none);
    return make(Op::Negate, span, {span.file, span.begin, span.begin + 1}, a);
}

NodeId FormulaBuilder::of(const ast::Not& negation, Span span, ChoiceId) {
    const NodeId a = build(negation.of, none);
    return make(Op::Not, span, {span.file, span.begin, span.begin + 3}, a);
}

NodeId FormulaBuilder::of(const ast::Binary& binary, Span span, ChoiceId) {
    NodeId a = none;
    NodeId b = none;
    if (binary.op == ast::BinaryOp::Equal || binary.op == ast::BinaryOp::NotEqual) {
        // A choice on one side tells what names on the other side may be.
        if (names_option(binary.left)) {
            b = build(binary.right, none);
            a = build(binary.left, choice_of_node(b));
        } else {
            a = build(binary.left, none);
            b = build(binary.right, choice_of_node(a));
        }
    } else {
        a = build(binary.left, none);
        b = build(binary.right, none);
    }
    return make(op_of(binary.op), span, binary.op_span, a, b);
}

// A bare name that is no line: it can only be an option of what stands on the other side.
bool FormulaBuilder::names_option(ast::ExprId id) const {
    const auto* name =
        id < module_.exprs.size() ? std::get_if<ast::Name>(&module_.exprs[id].node) : nullptr;
    if (name == nullptr)
        return false;
    if (where_.function != nullptr)
        return r_.find_in_function(*where_.function, name->text).kind == NameInFunction::Kind::None;
    return look_up(r_, where_, name->text).state == Found::State::Absent;
}

NodeId FormulaBuilder::of(const ast::Is& is, Span span, ChoiceId) {
    const NodeId a = build(is.value, none);
    const ChoiceId choice = choice_of_node(a);
    if (choice == none) {
        if (r_.sheet.nodes[a].op != Op::Missing && !is_poison(a))
            r_.add(problem(Code::U309,
                           fmt::format("`is` needs a choice, and `{}` is not one",
                                       r_.sources.text(r_.sheet.nodes[a].span)),
                           r_.sheet.nodes[a].span, "not a choice",
                           {"compare numbers with  ==  <  or  >"}));
        return missing(span);
    }
    const std::uint32_t option = r_.find_option(choice, is.choice.text);
    if (option == none) {
        report_unknown_option(r_, choice, is.choice.text, is.choice.span);
        return missing(span);
    }
    const NodeId b = option_node(choice, option, is.choice.span);
    const Span between{span.file, r_.sheet.nodes[a].span.end, is.choice.span.begin};
    return make(is.negated ? Op::NotEqual : Op::Equal, span, between, a, b);
}

NodeId FormulaBuilder::of(const ast::When& when, Span span, ChoiceId expected) {
    const NodeId a = build(when.condition, none);
    const NodeId b = build(when.then, expected);
    const NodeId c = build(when.otherwise, expected);
    return make(Op::When, span, {span.file, span.begin, std::min(span.end, span.begin + 4)}, a, b,
                c);
}

// The choice a node gives, as far as declarations tell; none for anything else.
ChoiceId FormulaBuilder::choice_of_node(NodeId id) const {
    const Node& node = r_.sheet.nodes[id];
    switch (node.op) {
    case Op::Choice:
        return node.type.choice;
    case Op::Line:
        return choice_of(r_.sheet.lines[node.index].type);
    case Op::Parameter:
        return choice_of(where_.function->parameter_types[node.index]);
    case Op::Local:
        return choice_of(where_.function->locals[node.index].type);
    case Op::Define:
        return choice_of(r_.sheet.functions[node.index].type);
    case Op::When: {
        const ChoiceId then = choice_of_node(node.b);
        return then != none ? then : choice_of_node(node.c);
    }
    default:
        return none;
    }
}

// Its declaration has failed already.
bool FormulaBuilder::is_poison(NodeId id) const {
    const Node& node = r_.sheet.nodes[id];
    switch (node.op) {
    case Op::Line:
        return r_.sheet.lines[node.index].type.kind == Type::Kind::Poison &&
               r_.sheet.lines[node.index].role != Role::CostQuantity;
    case Op::Parameter:
        return where_.function->parameter_types[node.index].kind == Type::Kind::Poison;
    case Op::Local:
        return where_.function->locals[node.index].type.kind == Type::Kind::Poison;
    case Op::Define:
        return r_.sheet.functions[node.index].type.kind == Type::Kind::Poison;
    case Op::When:
        return is_poison(node.b) || is_poison(node.c);
    default:
        return node.type.kind == Type::Kind::Poison;
    }
}

NodeId build(Resolution& r, const Where& where, ast::ExprId expr, ChoiceId expected) {
    return FormulaBuilder(r, where).build(expr, expected);
}

void report_full(Resolution& r, Span span) {
    r.too_many(
        "steps of calculation", max_sheet_nodes, span,
        {"every `use … with` and every entry of a list adds its own copy: use fewer of them"});
}

NodeId add_node(Resolution& r, Node node) {
    if (r.sheet.nodes.size() >= max_sheet_nodes) {
        report_full(r, node.span);
        return static_cast<NodeId>(r.sheet.nodes.size() - 1);
    }
    r.sheet.nodes.push_back(node);
    return static_cast<NodeId>(r.sheet.nodes.size() - 1);
}

NodeId number_node(Resolution& r, double value, const Unit& unit, Span span) {
    Node node;
    node.op = Op::Number;
    node.span = node.op_span = span;
    node.number = value;
    node.type.unit = unit;
    return add_node(r, node);
}

NodeId line_node(Resolution& r, LineId line, Span span) {
    Node node;
    node.op = Op::Line;
    node.span = node.op_span = span;
    node.index = line;
    return add_node(r, node);
}

NodeId binary_node(Resolution& r, Op op, NodeId a, NodeId b, Span span, Span op_span) {
    Node node;
    node.op = op;
    node.span = span;
    node.op_span = op_span;
    node.a = a;
    node.b = b;
    return add_node(r, node);
}

} // namespace acre::lang::resolving
