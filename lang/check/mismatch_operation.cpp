// Operations whose operands do not go together.
#include "lang/check/mismatch.h"

#include <utility>

#include <fmt/format.h>

#include "lang/check/mend.h"
#include "lang/check/operations.h"
#include "lang/check/resolve/report.h"
#include "lang/check/written_unit.h"
#include "lang/units/number_text.h"
#include "lang/units/share.h"

namespace acre::lang {

using resolving::problem;

namespace {

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

// `hours + 15 %`, `15 % + hours` and `hours - 15 %`: so much more or less of it.
std::optional<Help> more_of_it(const Sheet& sheet, const SourceMap& sources, NodeId sum) {
    const Node& whole = sheet.nodes[sum];
    const bool more = whole.op == Op::Add;
    if (!more && whole.op != Op::Subtract)
        return std::nullopt;
    const auto is_percent = [&](NodeId id) {
        return sheet.nodes[id].op == Op::Number && is_share(sheet.nodes[id].type.unit);
    };
    const bool turned = more && is_percent(whole.a);
    const Node& of = sheet.nodes[turned ? whole.b : whole.a];
    const Node& share = sheet.nodes[turned ? whole.a : whole.b];
    if (!is_percent(turned ? whole.a : whole.b) || is_plain(of.type))
        return std::nullopt;
    const std::string text = factor_text(sources, of);
    if (text.empty())
        return std::nullopt;
    return Help{fmt::format("for {} {} of it, write  {} * {} %", sources.text(share.span),
                            more ? "more" : "less", text,
                            number_text(more ? 100 + share.number : 100 - share.number)),
                std::nullopt};
}

} // namespace

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
    if (std::optional<Help> more = more_of_it(sheet_, sources_, node)) {
        d.helps.push_back(*std::move(more));
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
        d.helps.push_back({"add a line in h/yr: the hours worked in a year", std::nullopt});
    return d;
}

void Mismatches::unlike_kinds(const Failed& f) {
    const Type& left = sheet_.nodes[f.a].type;
    const Type& right = sheet_.nodes[f.b].type;
    const Code code = f.outcome.mismatch == Mismatch::UnlikeChoices ? Code::U313
                      : left.kind == Type::Kind::Truth || right.kind == Type::Kind::Truth
                          ? Code::U308
                          : Code::U309;
    if (skip(code, f.whole.op_span))
        return;
    const std::string left_text = kind_text(f.site, f.a);
    const std::string right_text = kind_text(f.site, f.b);
    Diagnostic d = problem(code, sides_title(f.whole.op, left_text, right_text), f.whole.op_span);
    d.others = {{sheet_.nodes[f.a].span, left_text}, {sheet_.nodes[f.b].span, right_text}};
    for (const NodeId side : {f.a, f.b})
        if (const Type& type = sheet_.nodes[side].type;
            code != Code::U308 && type.kind == Type::Kind::Choice && f.whole.op != Op::When)
            if (const std::string text = quotable(sources_, sheet_.nodes[side].span);
                !text.empty() && !sheet_.choices[type.choice].options.empty())
                d.helps.push_back({fmt::format("compare it to one of its choices: write  {} is {}",
                                               text, sheet_.choices[type.choice].options.front()),
                                   std::nullopt});
    add(std::move(d));
}

void Mismatches::wants_number(const Failed& f) {
    const Node& fault = sheet_.nodes[f.fault];
    const Code code = fault.type.kind == Type::Kind::Truth ? Code::U308 : Code::U309;
    if (skip(code, fault.span))
        return;
    const std::string kind = kind_text(f.site, f.fault);
    Diagnostic d =
        problem(code, fmt::format("a number is needed here; this is {}", kind), fault.span, kind);
    d.helps.push_back({fmt::format("turn it into a number: write  when {} then 1 otherwise 0",
                                   code == Code::U308 ? "CONDITION" : "CHOICE is NAME"),
                       std::nullopt});
    if (const std::string text = quotable(sources_, fault.span);
        !text.empty() && code == Code::U308)
        d.helps.back().text =
            fmt::format("turn it into a number: write  when {} then 1 otherwise 0", text);
    else if (code == Code::U309 && !text.empty() &&
             !sheet_.choices[fault.type.choice].options.empty())
        d.helps.back().text =
            fmt::format("give each choice a number: write  when {} is {} then 1 otherwise 0", text,
                        sheet_.choices[fault.type.choice].options.front());
    add(std::move(d));
}

void Mismatches::exponent_with_unit(const Failed& f) {
    const Span at = sheet_.nodes[f.fault].span;
    if (skip(Code::U306, at))
        return;
    const std::string unit = kind_text(f.site, f.fault);
    Diagnostic d =
        problem(Code::U306, fmt::format("a power must be a plain number, not {}", unit), at, unit);
    if (const std::string text = quotable(sources_, at); !text.empty())
        d.helps.push_back({fmt::format("divide out the unit: write  ({} / {})", text, one_of(unit)),
                           std::nullopt});
    add(std::move(d));
}

void Mismatches::built_in_argument(const Failed& f) {
    const Node& value = sheet_.nodes[f.a];
    if (skip(Code::U305, value.span))
        return;
    const std::string_view function = row_of(f.whole.op).text;
    const std::string text = quotable(sources_, value.span);
    const std::string given = kind_text(f.site, f.a);
    if (f.outcome.operand == 1) { // a step is missing
        Diagnostic d =
            problem(Code::U305, fmt::format("`{}` needs a step for a value in {}", function, given),
                    value.span, given);
        d.helps.push_back(
            {fmt::format("write  {}({}, {})", function, text, one_of(given)), std::nullopt});
        return add(std::move(d));
    }
    const bool angle = f.outcome.mismatch == Mismatch::WantsAngle;
    Diagnostic d = problem(Code::U305,
                           fmt::format("`{}` takes {} but is given {}", function,
                                       angle ? "an angle" : plain_number, given),
                           value.span, given);
    if (!text.empty() && angle && is_plain(value.type))
        d.helps.push_back(angle_help(function, f.a, text));
    else if (!text.empty() && !angle)
        d.helps.push_back(
            {fmt::format("divide out the unit: write  {}({} / {})", function, text, one_of(given)),
             std::nullopt});
    add(std::move(d));
}

void Mismatches::not_a_power(const Failed& f) {
    if (skip(Code::U306, f.whole.op_span))
        return;
    const std::string unit = kind_text(f.site, f.a);
    const std::string exponent = quotable(sources_, sheet_.nodes[f.b].span);
    Diagnostic d = problem(
        Code::U306,
        is_literal(f.b) ? fmt::format("only a plain number can be raised to the power {}", exponent)
                        : "only a plain number can be raised to a computed power",
        f.whole.op_span);
    d.others = {{sheet_.nodes[f.a].span, unit}};
    if (const std::string base = quotable(sources_, sheet_.nodes[f.a].span);
        !base.empty() && !exponent.empty())
        d.helps.push_back({fmt::format("divide out the unit first: write  ({} / {}) ^ {}", base,
                                       one_of(unit), exponent),
                           std::nullopt});
    add(std::move(d));
}

void Mismatches::odd_root(const Failed& f) {
    const Span at = sheet_.nodes[f.fault].span;
    if (skip(Code::U307, at))
        return;
    const std::string unit = kind_text(f.site, f.fault);
    Diagnostic d =
        problem(Code::U307, fmt::format("the square root of {} has no unit", unit), at, unit);
    d.notes.push_back("a unit needs even powers to have a root: the square root of ft^2 is ft");
    add(std::move(d));
}

void Mismatches::operation(const Site& site, NodeId node, NodeId a, NodeId b,
                           const Applied& outcome, const Type* wanted) {
    const Failed f{site,   sheet_.nodes[node], a, b, outcome.operand == 0 || b == none ? a : b,
                   outcome};
    switch (outcome.mismatch) {
    case Mismatch::None:
    case Mismatch::Poisoned:
        return;
    case Mismatch::UnlikeUnits:
        if (!skip(Code::U301, f.whole.op_span) && !sides_blamed(site, a, b))
            add(sides(site, node, a, b, wanted));
        return;
    case Mismatch::UnlikeKinds:
    case Mismatch::UnlikeChoices:
        return unlike_kinds(f);
    case Mismatch::WantsTruth:
        return condition(site, f.fault);
    case Mismatch::WantsNumber:
        return wants_number(f);
    case Mismatch::WantsPlain:
    case Mismatch::WantsAngle:
        return f.whole.op == Op::Power ? exponent_with_unit(f) : built_in_argument(f);
    case Mismatch::NotAPower:
        return not_a_power(f);
    case Mismatch::OddRoot:
        return odd_root(f);
    case Mismatch::TooLarge:
        if (!skip(Code::U312, f.whole.op_span))
            add(problem(Code::U312, "the unit of this formula is too large", f.whole.op_span, {},
                        {"split the formula into lines, each in a unit of its own"}));
        return;
    }
}

} // namespace acre::lang
