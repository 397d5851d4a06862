#include "lang/check/mismatch.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "lang/check/mend.h"
#include "lang/check/operations.h"
#include "lang/check/resolve/report.h"
#include "lang/check/written_unit.h"
#include "lang/units/number_text.h"

namespace acre::lang {
using resolving::problem;

// Past the cap only the code and the place count.
bool Mismatches::skip(Code code, Span span) {
    if (!diagnostics_.full())
        return false;
    add(problem(code, {}, span));
    return true;
}

bool Mismatches::is_literal(NodeId id) const {
    const Node& node = sheet_.nodes[id];
    return node.op == Op::Number ||
           (node.op == Op::Negate && sheet_.nodes[node.a].op == Op::Number);
}

std::string Mismatches::type_text(const Type& type) const {
    switch (type.kind) {
    case Type::Kind::Truth:
        return "a condition";
    case Type::Kind::Choice:
        return fmt::format("a choice of `{}`", sheet_.choices[type.choice].name);
    default:
        return unit_or_plain(sheet_.units.text(type.unit));
    }
}

std::string Mismatches::kind_text(const Site& site, NodeId node) const {
    const Type& type = sheet_.nodes[node].type;
    return type.kind == Type::Kind::Number
               ? unit_or_plain(WrittenUnits(sheet_, sources_, site.function).text(node))
               : type_text(type);
}

// "24.50 gal/h" for the number as written, with the unit it should have; "$38/h" for `$38`.
std::string Mismatches::number_as(NodeId value, std::string_view unit_text) const {
    const std::string_view text = sources_.text(sheet_.nodes[value].span);
    const std::size_t sign = text.starts_with('-') ? 1 : 0;
    const std::size_t money = money_sign_size(unit_text);
    if (money > 0 && money_sign_size(text.substr(sign)) > 0)
        return fmt::format("{}{}", text, unit_text.substr(money));
    if (money > 0)
        return fmt::format("{}{}{}{}", text.substr(0, sign), unit_text.substr(0, money),
                           text.substr(sign), unit_text.substr(money));
    return fmt::format("{} {}", text, unit_text);
}

// A number as written that has no unit, or `$` where money for each of something is meant.
bool Mismatches::may_take_unit(NodeId value, const Type& wanted) const {
    if (!is_literal(value))
        return false;
    const Unit& unit = sheet_.nodes[value].type.unit;
    const std::string_view text = sources_.text(sheet_.nodes[value].span);
    return unit == one ||
           (text.find_first_of("/%abcdefghijklmnopqrstuvwxyz") == std::string_view::npos &&
            wanted.unit.dim.exponent[Money] == 1 && unit.dim.exponent[Money] == 1);
}

void Mismatches::condition(const Site& site, NodeId value) {
    const Span at = sheet_.nodes[value].span;
    const bool choice = sheet_.nodes[value].type.kind == Type::Kind::Choice;
    if (skip(Code::U308, at))
        return;
    const std::string kind = kind_text(site, value);
    Diagnostic d =
        problem(Code::U308,
                fmt::format("a condition is needed here; this is {}",
                            choice || kind == plain_number ? kind : "a number in " + kind),
                at, kind);
    if (const std::string text = quotable(sources_, at); !text.empty()) {
        if (choice && !sheet_.choices[sheet_.nodes[value].type.choice].options.empty())
            d.helps.push_back(
                {fmt::format("write  {} is {}", text,
                             sheet_.choices[sheet_.nodes[value].type.choice].options.front()),
                 std::nullopt});
        else
            d.helps.push_back({fmt::format("compare it: write  {} > 0{}", text,
                                           kind == plain_number ? "" : " " + kind),
                               std::nullopt});
    }
    add(std::move(d));
}

void Mismatches::odd_pair(const Site& site, NodeId node, NodeId a, NodeId b) {
    const Node& whole = sheet_.nodes[node];
    WrittenUnits units(sheet_, sources_, site.function);
    const std::string left = units.text(a);
    const std::string right = units.text(b);
    if (diagnostics_.full() || !nothing_in_common(sheet_, left, right))
        return;
    Diagnostic d =
        problem(Code::L805,
                fmt::format("{} and {} are the same kind of unit but seldom mean the same thing",
                            left, right),
                whole.op_span);
    d.others = {{sheet_.nodes[a].span, left}, {sheet_.nodes[b].span, right}};
    const Conversion factor = conversion(sheet_.nodes[b].type.unit, sheet_.nodes[a].type.unit);
    d.notes.push_back(
        fmt::format("1 {} counts as {} {}", right, number_text(factor.apply(1)), left));
    add(std::move(d));
}

} // namespace acre::lang
