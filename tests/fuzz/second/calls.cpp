// Calls: the functions of the notation, sums over lists, tables and defines.
#include <variant>

#include "tests/fuzz/second/reader.h"

namespace acre::fuzz::second {

namespace ast = lang::ast;

Value Reader::of_call(const ast::Call& n, const Place& place) {
    const std::string_view name = n.function.text;
    const auto there = program_.functions.find(name);
    if (there != program_.functions.end()) {
        if (there->second.twice || n.each != ast::none)
            return unknown();
        if (std::holds_alternative<ast::Table>(there->second.statement->node))
            return n.arg_count == 1
                       ? of_table(there->second, of(place.module->args[n.first_arg], place))
                       : misfit();
        return of_define(there->second, n, place);
    }
    return n.arg_count == 0 ? unknown() : built_in(name, n, place);
}

Value Reader::built_in(std::string_view name, const ast::Call& n, const Place& place) {
    const ExprId first = place.module->args[n.first_arg];
    for (const char* over : {"sum", "most", "least", "before", "how_many"})
        if (name == over)
            return place.frame != nullptr || place.literal ? unknown()
                                                           : over_list(name, first, place);
    Value a = of(first, place);
    if (name == "min" || name == "max") {
        for (std::uint32_t i = 1; i < n.arg_count; ++i) {
            const Value b = of(place.module->args[n.first_arg + i], place);
            a = name == "min" ? smaller(a, b) : larger(a, b);
        }
        return a;
    }
    if (name == "ceil" || name == "floor" || name == "round") {
        const Value step =
            n.arg_count == 2 ? of(place.module->args[n.first_arg + 1], place) : number(1);
        return whole_steps(name == "ceil"    ? To::Up
                           : name == "floor" ? To::Down
                                             : To::Nearest,
                           a, step);
    }
    if (name == "abs")
        return absolute(a);
    if (name == "sqrt")
        return root(a);
    for (const char* known : {"exp", "log", "sin", "cos", "tan", "atan"})
        if (name == known)
            return function(name, a);
    return unknown();
}

Value Reader::over_list(std::string_view name, ExprId what, const Place& place) {
    const auto* read = std::get_if<ast::Name>(&place.module->exprs[what].node);
    if (read == nullptr)
        return unknown();
    if (name == "how_many")
        return place.list.empty() && program_.is_list(read->text)
                   ? number(Fraction(program_.entries(read->text).size()))
                   : unknown();
    const auto line = place.instance->names.find(read->text);
    if (line == place.instance->names.end() || line->second.each.empty() ||
        (!place.list.empty() && place.list != line->second.each))
        return unknown();
    const std::vector<std::string>& entries = program_.entries(line->second.each);
    Value all;
    bool any = false;
    for (const std::string& entry : entries) {
        if (name == "before" && entry == place.entry)
            break;
        const Value next = declared(line->second, entry);
        all = !any              ? next
              : name == "most"  ? larger(all, next)
              : name == "least" ? smaller(all, next)
                                : add(all, next);
        any = true;
    }
    if (any)
        return all;
    Value nothing = declared(line->second, entries.front()); // of its unit
    return nothing.is_number() ? number(0, nothing.of) : unknown();
}

Value Reader::of_table(const Program::Named& at, const Value& x) {
    const auto& table = std::get<ast::Table>(at.statement->node);
    const std::optional<Value> across = unit(table.parameter.type);
    const std::optional<Value> up = unit(table.unit);
    if (passes_on(x) || !across || !up)
        return passes_on(x) ? x : unknown();
    if (!x.is_number() || x.of != across->of)
        return misfit();
    const Place place{at.module, &program_.own(), "", "", nullptr, true};
    Value before_x, before_y;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const Value row_x = multiply(of(table.rows[i].x, place), *across);
        const Value row_y = multiply(of(table.rows[i].y, place), *up);
        const Value below = compare(Order::Less, x, row_x);
        const bool on_it = row_x.is_number() && x.is == row_x.is;
        if (below.kind != Value::Kind::Truth &&
            !(on_it && !table.staircase && i > 0 && i + 1 < table.rows.size()))
            return unknown(); // on the edge of a row
        if (below.kind != Value::Kind::Truth)
            return add(row_y, multiply(row_y, number(0)));
        if (below.holds) {
            if (i == 0)
                return table.below == ast::TableEnd::Hold ? row_y : no_answer();
            if (table.staircase)
                return before_y;
            const Value share = divide(add(x, before_x, -1), add(row_x, before_x, -1));
            return add(before_y, multiply(add(row_y, before_y, -1), share));
        }
        before_x = row_x;
        before_y = row_y;
    }
    return table.above == ast::TableEnd::Hold ? before_y : no_answer();
}

Value Reader::of_define(const Program::Named& at, const ast::Call& n, const Place& place) {
    const auto& define = std::get<ast::Define>(at.statement->node);
    if (define.native || define.each || define.parameters.size() != n.arg_count)
        return unknown();
    Frame frame{at.module, &define, {}};
    for (std::uint32_t i = 0; i < n.arg_count; ++i) {
        const Value value = of(place.module->args[n.first_arg + i], place);
        frame.values[std::string(define.parameters[i].name.text)] =
            value.is_number() ? in_unit(value, define.parameters[i].type) : value;
    }
    bool unsure = false;
    if (outside(define, frame, unsure))
        return no_answer();
    if (unsure)
        return unknown();
    const Value made = of(define.value, {at.module, nullptr, "", "", &frame, false});
    return made.is_number() ? in_unit(made, define.type) : made;
}

bool Reader::outside(const ast::Define& define, Frame& frame, bool& unsure) {
    const Place inside{frame.module, nullptr, "", "", &frame, false};
    for (const ast::ParameterRange& limit : define.limits) {
        const Value x = of_name(limit.name.text, inside);
        const Value low = compare(Order::Less, x, of(limit.range.low, inside));
        const Value high = compare(Order::Greater, x, of(limit.range.high, inside));
        for (const Value& past : {low, high})
            if (past.kind != Value::Kind::Truth)
                unsure = true;
            else if (past.holds)
                return !unsure;
    }
    return false;
}

} // namespace acre::fuzz::second
