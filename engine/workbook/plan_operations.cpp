// Each operation of the plan as a formula (see opcodes.def).
#include <cmath>
#include <string>

#include "engine/plan/opcodes.h"
#include "engine/workbook/cell_text.h"
#include "engine/workbook/plan_formulas.h"

namespace acre::engine {

using lang::none;

// A slot that is one of a choice is one on each of its branches.
Expression PlanFormulas::build(Slot slot, Writing& writing) const {
    const Operation& op = plan_.operations[slot];
    const auto a = [&] { return number(op.a, writing); };
    const auto b = [&] { return number(op.b, writing); };
    const auto sign = [&](const char* text, int strength) {
        const Expression left = a();
        return infix(left, text, b(), strength);
    };
    switch (op.code) {
    case OpCode::Constant:
        return word(formula_number(plan_.constants[op.a]));
    case OpCode::Input: // a share of it; what is typed has a row
        return word("1");
    case OpCode::Add:
        return sign("+", Expression::sum);
    case OpCode::Subtract:
        return sign("-", Expression::sum);
    case OpCode::Multiply:
        return product(op, writing);
    case OpCode::Divide:
        return sign("/", Expression::product);
    case OpCode::Negate:
        return minus(a());
    case OpCode::Less:
        return sign("<", Expression::comparison);
    case OpCode::LessEqual:
        return sign("<=", Expression::comparison);
    case OpCode::Greater:
        return sign(">", Expression::comparison);
    case OpCode::GreaterEqual:
        return sign(">=", Expression::comparison);
    case OpCode::Equal:
        return equality(op, "=", writing);
    case OpCode::NotEqual:
        return equality(op, "<>", writing);
    case OpCode::And:
    case OpCode::Or:
        return both(op, writing);
    case OpCode::Select: {
        const Expression condition = a();
        const Expression then = as(op.b, choice_[slot], writing);
        return call("IF", condition, then, as(op.c, choice_[slot], writing));
    }
    case OpCode::Guard: {
        const Expression condition = a();
        return call("IF", condition, as(op.b, choice_[slot], writing), word("NA()"));
    }
    case OpCode::Table:
        return look_up(op, slot, writing);
    default:
        return function(op, writing);
    }
}

Expression PlanFormulas::function(const Operation& op, Writing& writing) const {
    const Expression a = number(op.a, writing);
    switch (op.code) {
    case OpCode::Power:
        return power_of(a, number(op.b, writing), written_exponent(op));
    case OpCode::Sqrt:
        return call("SQRT", a);
    case OpCode::Exp:
        return call("EXP", a);
    case OpCode::Log:
        return call("LN", a);
    case OpCode::Sin:
        return call("SIN", call("RADIANS", a));
    case OpCode::Cos:
        return call("COS", call("RADIANS", a));
    case OpCode::Tan:
        return tangent_of(a);
    case OpCode::Atan:
        return call("DEGREES", call("ATAN", a));
    case OpCode::Abs:
        return call("ABS", a);
    case OpCode::Min:
        return gathered("MIN", a, number(op.b, writing));
    case OpCode::Max:
        return gathered("MAX", a, number(op.b, writing));
    case OpCode::Ceil:
        return ceiling_of(a);
    case OpCode::Floor:
        return floor_of(a);
    case OpCode::Round:
        return rounded_of(a);
    case OpCode::Not:
        return call("NOT", a);
    default: // a native function has a row, and holds its value
        return word("NA()");
    }
}

const double* PlanFormulas::written_exponent(const Operation& op) const {
    const Operation& exponent = plan_.operations[op.b];
    return exponent.code == OpCode::Constant ? &plan_.constants[exponent.a] : nullptr;
}

// A computed given times the share of it that risk draws is the given itself.
Expression PlanFormulas::product(const Operation& op, Writing& writing) const {
    if (is_share(op.a) || is_share(op.b))
        return number(is_share(op.a) ? op.b : op.a, writing);
    const Expression left = number(op.a, writing);
    if (op.a == op.b)
        return raised(left, word("2"));
    return infix(left, "*", number(op.b, writing), Expression::product);
}

Expression PlanFormulas::equality(const Operation& op, std::string_view sign,
                                  Writing& writing) const {
    const std::uint32_t choice = choice_[op.a] != none ? choice_[op.a] : choice_[op.b];
    // A number is put beside an option only where the plan shares what both come to.
    const Expression left = as(op.a, choice, writing);
    return infix(left, sign, as(op.b, choice, writing), Expression::comparison);
}

// A spreadsheet works out both sides of AND and OR; the plan asks for the second only where the
// first leaves it open.
Expression PlanFormulas::both(const Operation& op, Writing& writing) const {
    const bool is_and = op.code == OpCode::And;
    const Expression a = number(op.a, writing);
    const Expression b = number(op.b, writing);
    if (may_fail_[op.b] == 0)
        return gathered(is_and ? "AND" : "OR", a, b);
    return is_and ? call("IF", a, b, word("FALSE")) : call("IF", a, word("TRUE"), b);
}

// Where to look in a table: held at its ends, if it says so.
Expression PlanFormulas::clamped(const Operation& op, Writing& writing) const {
    const PlanTable& table = plan_.tables[op.a];
    const TablePlace& place = places_.tables[op.a];
    Expression x = number(op.b, writing);
    if (table.hold_below)
        x = call("MAX", x, word(place.first_x));
    return table.hold_above ? call("MIN", x, word(place.last_x)) : x;
}

// The row at or before it, never the last: the row of the two that it lies between.
Expression PlanFormulas::position(const Operation& op, Writing& writing) const {
    const TablePlace& place = places_.tables[op.a];
    return call("MIN", call("MATCH", clamped(op, writing), word(place.x), word("1")),
                word(std::to_string(place.rows - 1)));
}

Expression PlanFormulas::look_up(const Operation& op, Slot slot, Writing& writing) const {
    const PlanTable& table = plan_.tables[op.a];
    const TablePlace& place = places_.tables[op.a];
    const Expression x = clamped(op, writing);
    Expression value;
    if (table.staircase) {
        value = call("INDEX", word(place.y), call("MATCH", x, word(place.x), word("1")));
    } else {
        const Expression at = reference(row_of_step(step_of_.at({slot, true})), none, writing);
        const std::string here = at.text;
        const std::string next = here + "+1";
        const auto part = [](const std::string& range, const std::string& row) {
            return "INDEX(" + range + "," + row + ")";
        };
        const std::string share = "(" + x.text + "-" + part(place.x, here) + ")/(" +
                                  part(place.x, next) + "-" + part(place.x, here) + ")";
        value = {part(place.y, here) + "+" + share + "*(" + part(place.y, next) + "-" +
                     part(place.y, here) + ")",
                 Expression::sum,
                 x.depth + 2,
                 {},
                 0};
    }
    if (table.hold_above)
        return value;
    const Expression beyond =
        infix(number(op.b, writing), ">", word(place.last_x), Expression::comparison);
    return call("IF", beyond, word("NA()"), value);
}

} // namespace acre::engine
