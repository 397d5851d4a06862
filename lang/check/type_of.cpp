#include "lang/check/type_of.h"

#include <cmath>

namespace acre::lang {
namespace {

constexpr double largest_exponent = 127; // as a unit can hold

class TypeReader {
  public:
    TypeReader(const Sheet& sheet, const Function* function) : sheet_(sheet), function_(function) {}
    TypeReader(const Sheet& sheet, LineId line, const Type& instead, std::size_t& budget)
        : sheet_(sheet),
          line_(line),
          instead_(instead),
          budget_(&budget) {}

    Type of(NodeId id) const {
        if (budget_ != nullptr && !spend())
            return {Type::Kind::Poison, 0, {}};
        const Node& node = sheet_.nodes[id];
        switch (node.op) {
        case Op::Number:
        case Op::Choice:
        case Op::Missing:
            return node.type;
        case Op::Convert:
            return line_ == none ? node.type : of(node.a);
        case Op::Line:
            return of_line(node.index);
        case Op::Parameter:
            return function_->parameter_types[node.index];
        case Op::Local:
            return function_->locals[node.index].type;
        case Op::Table:
            return sheet_.tables[node.index].result;
        case Op::Define:
            return sheet_.functions[node.index].type;
        case Op::When:
            return apply_when(of(node.b), of(node.c)).type;
        default:
            return node.arg_count > 0 ? of_list(node) : of_operation(node);
        }
    }

  private:
    bool spend() const {
        if (*budget_ == 0)
            return false;
        --*budget_;
        return true;
    }

    Type of_line(LineId id) const {
        if (line_ == none)
            return sheet_.lines[id].type;
        if (id == line_)
            return instead_;
        const Line& line = sheet_.lines[id];
        if (!is_through(sheet_, id) || through_ == most_quantities)
            return line.type;
        ++through_;
        const Type type = of(line.value);
        --through_;
        return type;
    }

    Type of_operation(const Node& node) const {
        if (node.b == none)
            return apply(node.op, of(node.a)).type;
        const auto exponent =
            node.op == Op::Power ? whole_exponent(sheet_, node.b) : std::optional<int>();
        return apply(node.op, of(node.a), of(node.b), exponent).type;
    }

    Type of_list(const Node& node) const {
        Type type = apply(node.op, of(sheet_.args[node.first_arg])).type;
        for (std::uint32_t i = 1; i < node.arg_count; ++i)
            type = apply(node.op, type, of(sheet_.args[node.first_arg + i])).type;
        return type;
    }

    const Sheet& sheet_;
    const Function* function_ = nullptr;
    LineId line_ = none; // this one is taken to be of the type `instead_`
    Type instead_;
    std::size_t* budget_ = nullptr;
    mutable int through_ = 0; // quantities of quantities that are open
};

} // namespace

Type type_of(const Sheet& sheet, NodeId node, const Function* function) {
    return node == none ? Type{Type::Kind::Poison, 0, {}} : TypeReader(sheet, function).of(node);
}

bool is_through(const Sheet& sheet, LineId id) {
    const Line& line = sheet.lines[id];
    return line.role == Role::CostQuantity && line.value != none &&
           line.type.kind != Type::Kind::Poison; // as one is that rests on itself
}

Type type_if(const Sheet& sheet, NodeId node, LineId line, const Type& type, std::size_t& budget) {
    return TypeReader(sheet, line, type, budget).of(node);
}

std::optional<int> whole_exponent(const Sheet& sheet, NodeId id) {
    const Node* node = &sheet.nodes[id];
    double sign = 1;
    if (node->op == Op::Negate) {
        sign = -1;
        node = &sheet.nodes[node->a];
    }
    if (node->op != Op::Number || node->type.unit != one ||
        node->number != std::floor(node->number) || std::abs(node->number) > largest_exponent)
        return std::nullopt;
    return static_cast<int>(sign * node->number);
}

} // namespace acre::lang
