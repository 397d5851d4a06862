#include "lang/check/typing.h"

#include "lang/check/operations.h"
#include "lang/check/type_of.h"

namespace acre::lang {
namespace {

constexpr Type poison{Type::Kind::Poison, 0, {}};

} // namespace

NodeId Typing::converted(NodeId node, const Unit& unit) {
    const Node& from = sheet_.nodes[node];
    if (from.type.kind != Type::Kind::Number || from.type.unit.scale == unit.scale)
        return node;
    Node convert;
    convert.op = Op::Convert;
    convert.span = from.span;
    convert.op_span = from.span;
    convert.a = node;
    convert.conversion = conversion(from.type.unit, unit);
    convert.type.unit = unit;
    sheet_.nodes.push_back(convert);
    return static_cast<NodeId>(sheet_.nodes.size() - 1);
}

const Type& Typing::type(const Site& site, NodeId id, const Type* wanted) {
    if (id < done_.size()) {
        if (done_[id])
            return sheet_.nodes[id].type;
        done_[id] = true;
    }
    const Node& node = sheet_.nodes[id];
    switch (node.op) {
    case Op::Number:
    case Op::Choice:
    case Op::Convert:
    case Op::Missing:
        break;
    case Op::Line:
        sheet_.nodes[id].type = sheet_.lines[node.index].type;
        break;
    case Op::Parameter:
        sheet_.nodes[id].type = site.function->parameter_types[node.index];
        break;
    case Op::Local:
        sheet_.nodes[id].type = site.function->locals[node.index].type;
        break;
    case Op::When:
        type_when(site, id, wanted);
        break;
    case Op::Table:
        type_table(site, id);
        break;
    case Op::Define:
        type_call(site, id);
        break;
    default:
        if (node.arg_count > 0)
            type_list(site, id, wanted);
        else if (node.b == none)
            type_unary(site, id);
        else
            type_binary(site, id, wanted);
    }
    return sheet_.nodes[id].type;
}

void Typing::type_unary(const Site& site, NodeId id) {
    const NodeId a = sheet_.nodes[id].a;
    const Op op = sheet_.nodes[id].op;
    const Applied outcome = apply(op, type(site, a));
    if (outcome.good() && outcome.first.dim == sheet_.nodes[a].type.unit.dim)
        sheet_.nodes[id].a = converted(a, outcome.first);
    sheet_.nodes[id].type = outcome.type;
    mismatches_.operation(site, id, a, none, outcome, nullptr);
}

void Typing::type_binary(const Site& site, NodeId id, const Type* wanted) {
    const NodeId a = sheet_.nodes[id].a;
    const NodeId b = sheet_.nodes[id].b;
    const Op op = sheet_.nodes[id].op;
    const bool sum = op == Op::Add || op == Op::Subtract;
    type(site, a, sum ? wanted : nullptr);
    type(site, b, sum ? wanted : nullptr);
    const Applied outcome = apply(op, sheet_.nodes[a].type, sheet_.nodes[b].type,
                                  op == Op::Power ? whole_exponent(sheet_, b) : std::nullopt);
    sheet_.nodes[id].type = outcome.type;
    if (!outcome.good())
        return mismatches_.operation(site, id, a, b, outcome, wanted);
    if (sheet_.nodes[a].type.kind != Type::Kind::Number)
        return;
    const UnitRule rule = row_of(op).units;
    const bool pair = rule == UnitRule::Alike || rule == UnitRule::Steps ||
                      rule == UnitRule::Order || rule == UnitRule::Equality;
    if (pair && !sheet_.nodes[a].type.unit.is_plain())
        note_odd_pair(site, id, a, b);
    if (pair && !sum)
        shares_.pair(a, b);
    const NodeId first = converted(a, outcome.first);
    const NodeId second = converted(b, outcome.second);
    sheet_.nodes[id].a = first;
    sheet_.nodes[id].b = second;
}

void Typing::note_odd_pair(const Site& site, NodeId id, NodeId a, NodeId b) {
    if (sheet_.nodes[a].type.unit.scale != sheet_.nodes[b].type.unit.scale)
        mismatches_.odd_pair(site, id, a, b);
}

void Typing::type_when(const Site& site, NodeId id, const Type* wanted) {
    const Node node = sheet_.nodes[id];
    const Type condition = type(site, node.a);
    if (condition.kind != Type::Kind::Truth && condition.kind != Type::Kind::Poison)
        mismatches_.condition(site, node.a);
    const Type then = type(site, node.b, wanted);
    const Type otherwise = type(site, node.c, wanted);
    const Applied outcome = apply_when(then, otherwise);
    sheet_.nodes[id].type = outcome.type;
    if (!outcome.good())
        return mismatches_.operation(site, id, node.b, node.c, outcome, wanted);
    if (then.kind == Type::Kind::Number) {
        shares_.pair(node.b, node.c);
        const NodeId c = converted(node.c, then.unit);
        sheet_.nodes[id].c = c;
    }
}

// Min, Max and what is taken over entries: all in the unit of the first.
void Typing::type_list(const Site& site, NodeId id, const Type* wanted) {
    const Op op = sheet_.nodes[id].op;
    const std::uint32_t first_arg = sheet_.nodes[id].first_arg;
    const std::uint32_t count = sheet_.nodes[id].arg_count;
    const NodeId first = sheet_.args[first_arg];
    bool good = true;
    Type result = type(site, first, wanted);
    if (count == 1) {
        const Applied outcome = apply(op, result);
        good = outcome.good();
        mismatches_.operation(site, id, first, none, outcome, nullptr);
    }
    for (std::uint32_t i = 1; i < count; ++i) {
        const NodeId other = sheet_.args[first_arg + i];
        const Applied outcome = apply(op, result, type(site, other, wanted));
        if (outcome.good()) {
            const NodeId arg = converted(other, result.unit);
            sheet_.args[first_arg + i] = arg;
            continue;
        }
        good = false;
        mismatches_.operation(site, id, first, other, outcome, wanted);
    }
    sheet_.nodes[id].type = good ? result : poison;
    if (good && count > 1)
        shares_.list(first_arg, count);
}

void Typing::type_table(const Site& site, NodeId id) {
    const NodeId a = sheet_.nodes[id].a;
    const Table& table = sheet_.tables[sheet_.nodes[id].index];
    const Mismatch mismatch = fit(type(site, a), table.parameter);
    if (mismatch == Mismatch::None) {
        shares_.in(a, table.parameter);
        const NodeId arg = converted(a, table.parameter.unit);
        sheet_.nodes[id].a = arg;
    } else {
        mismatches_.argument(site, a, mismatch, table.parameter, table.name, {},
                             table.parameter_text, table.span);
    }
    sheet_.nodes[id].type = table.result;
}

void Typing::type_call(const Site& site, NodeId id) {
    const Node node = sheet_.nodes[id];
    const Function& function = sheet_.functions[node.index];
    for (std::uint32_t i = 0; i < node.arg_count; ++i) {
        const NodeId value = sheet_.args[node.first_arg + i];
        const Type& wanted = function.parameter_types[i];
        const Mismatch mismatch = fit(type(site, value), wanted);
        if (mismatch != Mismatch::None) {
            mismatches_.argument(site, value, mismatch, wanted, function.name,
                                 function.parameters[i], function.parameter_texts[i],
                                 function.name_span);
        } else if (wanted.kind == Type::Kind::Number) {
            shares_.in(value, wanted);
            const NodeId arg = converted(value, wanted.unit);
            sheet_.args[node.first_arg + i] = arg;
        }
    }
    sheet_.nodes[id].type = function.type;
}

} // namespace acre::lang
