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
namespace {

using resolving::problem;

std::string one_of(std::string_view unit_text) {
    return fmt::format("1 {}", unit_text);
}

std::string sides_title(Op op, const std::string& a, const std::string& b) {
    switch (op) {
    case Op::Add:
        return fmt::format("cannot add {} to {}", b, a);
    case Op::Subtract:
        return fmt::format("cannot subtract {} from {}", b, a);
    case Op::Min:
        return fmt::format("cannot take the smaller of {} and {}", a, b);
    case Op::Max:
        return fmt::format("cannot take the larger of {} and {}", a, b);
    case Op::When:
        return fmt::format("one branch gives {}, the other {}", a, b);
    case Op::Ceil:
    case Op::Floor:
    case Op::Round:
        return fmt::format("cannot round {} to steps of {}", a, b);
    default:
        return fmt::format("cannot compare {} with {}", a, b);
    }
}

} // namespace

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
    const bool money = unit_text.starts_with('$');
    if (money && text.substr(sign).starts_with('$'))
        return fmt::format("{}{}", text, unit_text.substr(1));
    if (money)
        return fmt::format("{}${}{}", text.substr(0, sign), text.substr(sign), unit_text.substr(1));
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

Diagnostic Mismatches::sides(const Site& site, NodeId node, NodeId a, NodeId b,
                             const Type* wanted) {
    const Node& whole = sheet_.nodes[node];
    const Node& left = sheet_.nodes[a];
    const Node& right = sheet_.nodes[b];
    const std::string left_text = kind_text(site, a);
    const std::string right_text = kind_text(site, b);
    Diagnostic d = problem(Code::U301, sides_title(whole.op, left_text, right_text), whole.op_span);
    d.others = {{left.span, left_text}, {right.span, right_text}};
    WrittenUnits units(sheet_, sources_, site.function);
    for (const auto& [number, other] : {std::pair(a, b), std::pair(b, a)}) {
        if (!is_plain(sheet_.nodes[number].type) || sheet_.nodes[number].type.unit != one ||
            !is_literal(number))
            continue;
        const bool declared = wanted != nullptr && site.line != none &&
                              wanted->kind == Type::Kind::Number &&
                              wanted->unit.dim == sheet_.nodes[other].type.unit.dim &&
                              !sheet_.lines[site.line].unit_text.empty();
        const std::string text =
            number_as(number, declared ? sheet_.lines[site.line].unit_text : units.text(other));
        d.helps.push_back({fmt::format("give the number its unit: write  {}", text),
                           Edit{sheet_.nodes[number].span, text}});
        return d;
    }
    // The side that is unlike what the whole is to be is mended; the right one if that does not
    // tell.
    const bool mend_left = wanted != nullptr && wanted->kind == Type::Kind::Number &&
                           wanted->unit.dim == right.type.unit.dim;
    const NodeId good = mend_left ? b : a;
    const NodeId bad = mend_left ? a : b;
    const auto missing = divide(Unit{sheet_.nodes[good].type.unit.dim, {}},
                                Unit{sheet_.nodes[bad].type.unit.dim, {}});
    if (!missing)
        return d;
    if (const std::string note = apart_note(missing->dim); !note.empty()) {
        d.notes.push_back(note);
        if (is_year_against_hour(missing->dim))
            d.code = Code::U303;
    } else if (!is_plain(left.type) && !is_plain(right.type)) {
        d.notes.push_back(
            fmt::format("the two sides differ by a factor of {}", units.quotient_text(good, bad)));
    }
    d.helps = mend(sheet_, sources_, site, bad, missing->dim);
    if (d.helps.empty() && is_year_against_hour(missing->dim))
        d.helps.push_back({fmt::format("add a line in {}: the hours worked in a year",
                                       missing->dim.exponent[Year] < 0 ? "h/yr" : "h/yr"),
                           std::nullopt});
    return d;
}

void Mismatches::operation(const Site& site, NodeId node, NodeId a, NodeId b,
                           const Applied& outcome, const Type* wanted) {
    const Node& whole = sheet_.nodes[node];
    const NodeId fault = outcome.operand == 0 || b == none ? a : b;
    const Span at = sheet_.nodes[fault].span;
    const std::string_view function = row_of(whole.op).text;
    switch (outcome.mismatch) {
    case Mismatch::None:
    case Mismatch::Poisoned:
        return;
    case Mismatch::UnlikeUnits:
        if (!skip(Code::U301, whole.op_span) && !sides_blamed(site, a, b))
            add(sides(site, node, a, b, wanted));
        return;
    case Mismatch::UnlikeKinds:
    case Mismatch::UnlikeChoices: {
        const Code code = outcome.mismatch == Mismatch::UnlikeChoices ? Code::U313
                          : sheet_.nodes[a].type.kind == Type::Kind::Truth ||
                                  sheet_.nodes[b].type.kind == Type::Kind::Truth
                              ? Code::U308
                              : Code::U309;
        if (skip(code, whole.op_span))
            return;
        const std::string left = kind_text(site, a);
        const std::string right = kind_text(site, b);
        Diagnostic d = problem(code, sides_title(whole.op, left, right), whole.op_span);
        d.others = {{sheet_.nodes[a].span, left}, {sheet_.nodes[b].span, right}};
        for (const NodeId side : {a, b})
            if (const Type& type = sheet_.nodes[side].type;
                code != Code::U308 && type.kind == Type::Kind::Choice && whole.op != Op::When)
                if (const std::string text = quotable(sources_, sheet_.nodes[side].span);
                    !text.empty() && !sheet_.choices[type.choice].options.empty())
                    d.helps.push_back(
                        {fmt::format("compare it to one of its choices: write  {} is {}", text,
                                     sheet_.choices[type.choice].options.front()),
                         std::nullopt});
        return add(std::move(d));
    }
    case Mismatch::WantsTruth:
        return condition(site, fault);
    case Mismatch::WantsNumber: {
        const Code code =
            sheet_.nodes[fault].type.kind == Type::Kind::Truth ? Code::U308 : Code::U309;
        if (skip(code, at))
            return;
        const std::string kind = kind_text(site, fault);
        Diagnostic d =
            problem(code, fmt::format("a number is needed here; this is {}", kind), at, kind);
        d.helps.push_back({fmt::format("turn it into a number: write  when {} then 1 otherwise 0",
                                       code == Code::U308 ? "CONDITION" : "CHOICE is NAME"),
                           std::nullopt});
        if (const std::string text = quotable(sources_, at); !text.empty() && code == Code::U308)
            d.helps.back().text =
                fmt::format("turn it into a number: write  when {} then 1 otherwise 0", text);
        else if (code == Code::U309 && !text.empty() &&
                 !sheet_.choices[sheet_.nodes[fault].type.choice].options.empty())
            d.helps.back().text =
                fmt::format("give each choice a number: write  when {} is {} then 1 otherwise 0",
                            text, sheet_.choices[sheet_.nodes[fault].type.choice].options.front());
        return add(std::move(d));
    }
    case Mismatch::WantsPlain:
    case Mismatch::WantsAngle: {
        const std::string unit = kind_text(site, fault);
        if (whole.op == Op::Power) {
            if (skip(Code::U306, at))
                return;
            Diagnostic d = problem(
                Code::U306, fmt::format("a power must be a plain number, not {}", unit), at, unit);
            if (const std::string text = quotable(sources_, at); !text.empty())
                d.helps.push_back(
                    {fmt::format("divide out the unit: write  ({} / {})", text, one_of(unit)),
                     std::nullopt});
            return add(std::move(d));
        }
        if (skip(Code::U305, sheet_.nodes[a].span))
            return;
        const std::string text = quotable(sources_, sheet_.nodes[a].span);
        const std::string given = kind_text(site, a);
        if (outcome.operand == 1) { // a step is missing
            Diagnostic d = problem(
                Code::U305, fmt::format("`{}` needs a step for a value in {}", function, given),
                sheet_.nodes[a].span, given);
            d.helps.push_back(
                {fmt::format("write  {}({}, {})", function, text, one_of(given)), std::nullopt});
            return add(std::move(d));
        }
        const bool angle = outcome.mismatch == Mismatch::WantsAngle;
        Diagnostic d = problem(Code::U305,
                               fmt::format("`{}` takes {} but is given {}", function,
                                           angle ? "an angle" : plain_number, given),
                               sheet_.nodes[a].span, given);
        if (!text.empty() && angle && is_plain(sheet_.nodes[a].type))
            d.helps.push_back(angle_help(function, a, text));
        else if (!text.empty() && !angle)
            d.helps.push_back({fmt::format("divide out the unit: write  {}({} / {})", function,
                                           text, one_of(given)),
                               std::nullopt});
        return add(std::move(d));
    }
    case Mismatch::NotAPower: {
        if (skip(Code::U306, whole.op_span))
            return;
        const std::string unit = kind_text(site, a);
        const std::string exponent = quotable(sources_, sheet_.nodes[b].span);
        const bool written = is_literal(b);
        Diagnostic d = problem(
            Code::U306,
            written ? fmt::format("only a plain number can be raised to the power {}", exponent)
                    : fmt::format("only a plain number can be raised to a computed power"),
            whole.op_span);
        d.others = {{sheet_.nodes[a].span, unit}};
        if (const std::string base = quotable(sources_, sheet_.nodes[a].span);
            !base.empty() && !exponent.empty())
            d.helps.push_back({fmt::format("divide out the unit first: write  ({} / {}) ^ {}", base,
                                           one_of(unit), exponent),
                               std::nullopt});
        return add(std::move(d));
    }
    case Mismatch::OddRoot: {
        if (skip(Code::U307, at))
            return;
        const std::string unit = kind_text(site, a);
        Diagnostic d =
            problem(Code::U307, fmt::format("the square root of {} has no unit", unit), at, unit);
        d.notes.push_back("a unit needs even powers to have a root: the square root of ft^2 is ft");
        return add(std::move(d));
    }
    case Mismatch::TooLarge:
        if (skip(Code::U312, whole.op_span))
            return;
        add(problem(Code::U312, "the unit of this formula is too large", whole.op_span, {},
                    {"split the formula into lines, each in a unit of its own"}));
        return;
    }
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
