// Values that do not fit what is declared for them.
#include "lang/check/mismatch.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/mend.h"
#include "lang/check/resolve/report.h"
#include "lang/check/written_unit.h"

namespace acre::lang {

using resolving::problem;

void Mismatches::mend_unit(const Site& site, NodeId value, const Type& wanted,
                           std::string_view unit_text, Diagnostic& d) const {
    const Node& node = sheet_.nodes[value];
    if (may_take_unit(value, wanted)) {
        const std::string text = number_as(value, unit_text);
        d.helps.push_back({fmt::format("write  {}", text), Edit{node.span, text}});
        return;
    }
    const auto missing = divide(Unit{wanted.unit.dim, {}}, Unit{node.type.unit.dim, {}});
    if (!missing)
        return;
    if (std::optional<Help> turned = turned_round(value, wanted.unit.dim)) {
        d.helps.push_back(std::move(*turned));
        return;
    }
    const bool literal = is_literal(value);
    const std::string note = apart_note(missing->dim);
    if (!note.empty())
        d.notes.push_back(note);
    else if (!literal)
        d.notes.push_back(fmt::format("the formula is missing a factor of {}",
                                      WrittenUnits(sheet_, sources_, site.function)
                                          .quotient_text(unit_text, wanted.unit, value)));
    if (!literal)
        d.helps = mend(sheet_, sources_, site, value, missing->dim);
    Dim bank; // a yard in the bank over a cubic foot
    bank.exponent[Bank] = 1;
    bank.exponent[Length] = -3;
    const std::string text = factor_text(sources_, node);
    if (!literal && missing->dim == bank && !text.empty() && d.helps.empty())
        d.helps.push_back(
            {fmt::format("for ground as it lies, write  {} * 1 bcy/cy", text), std::nullopt});
}

// `pace / area` and `area * pace` where `area / pace` has the unit: of two lines or numbers, one
// way alone has.
std::optional<Help> Mismatches::turned_round(NodeId value, const Dim& wanted) const {
    const Node& node = sheet_.nodes[value];
    if (node.op != Op::Multiply && node.op != Op::Divide)
        return std::nullopt;
    for (const NodeId side : {node.a, node.b})
        if (sheet_.nodes[side].op != Op::Line || sheet_.nodes[side].type.kind != Type::Kind::Number)
            return std::nullopt;
    const Unit a{sheet_.nodes[node.a].type.unit.dim, {}};
    const Unit b{sheet_.nodes[node.b].type.unit.dim, {}};
    const std::string_view left = sources_.text(sheet_.nodes[node.a].span);
    const std::string_view right = sources_.text(sheet_.nodes[node.b].span);
    std::string write;
    if (const auto unit = divide(a, b); unit && unit->dim == wanted)
        write = fmt::format("{} / {}", left, right);
    else if (const auto turned = divide(b, a); turned && turned->dim == wanted)
        write = fmt::format("{} / {}", right, left);
    else if (const auto product = multiply(a, b); product && product->dim == wanted)
        write = fmt::format("{} * {}", left, right);
    if (write.empty())
        return std::nullopt;
    return Help{fmt::format("write  {}", write), Edit{node.span, write}};
}

void Mismatches::declared(const Site& site, NodeId value, Mismatch mismatch, const Type& wanted,
                          std::string_view subject, std::string_view unit_text, Span declared) {
    if (mismatch == Mismatch::None || mismatch == Mismatch::Poisoned)
        return;
    const Node& node = sheet_.nodes[value];
    const bool literal = is_literal(value);
    const Code code = mismatch == Mismatch::UnlikeChoices ? Code::U313
                      : mismatch == Mismatch::UnlikeUnits ? (literal ? Code::U304 : Code::U302)
                      : wanted.kind == Type::Kind::Choice || node.type.kind == Type::Kind::Choice
                          ? Code::U309
                          : Code::U308;
    if (skip(code, node.span))
        return;
    if (mismatch == Mismatch::UnlikeUnits && site.line != none) {
        if (misdeclared(site, value, code, subject, unit_text))
            return;
        const auto missing = divide(Unit{wanted.unit.dim, {}}, Unit{node.type.unit.dim, {}});
        if (!literal && missing &&
            blamed(site, missing->dim,
                   WrittenUnits(sheet_, sources_, site.function)
                       .quotient_text(unit_text, wanted.unit, value)))
            return;
    }
    const std::string given = kind_text(site, value);
    const std::string wanted_text =
        wanted.kind == Type::Kind::Number ? unit_or_plain(unit_text) : type_text(wanted);
    Diagnostic d =
        problem(code,
                fmt::format("{} is {} {} but {} {}", subject,
                            wanted.kind == Type::Kind::Number ? "declared" : "declared as",
                            wanted_text, literal ? "is given" : "its formula gives", given),
                node.span, literal && is_plain(node.type) ? "no unit" : given);
    d.others.push_back({declared, wanted.kind == Type::Kind::Number
                                      ? fmt::format("declared {}", unit_text)
                                      : "declared " + wanted_text});
    if (mismatch == Mismatch::WantsNumber)
        if (const std::string text = quotable(sources_, node.span); !text.empty())
            d.helps.push_back(
                {fmt::format("turn it into a number: write  when {} then 1 otherwise 0", text),
                 std::nullopt});
    if (wanted.kind == Type::Kind::Choice) {
        std::vector<std::string_view> options(sheet_.choices[wanted.choice].options.begin(),
                                              sheet_.choices[wanted.choice].options.end());
        d.helps.push_back(
            {fmt::format("write one of {}", resolving::listed(options)), std::nullopt});
    }
    if (mismatch == Mismatch::UnlikeUnits)
        mend_unit(site, value, wanted, unit_text, d);
    add(std::move(d));
}

void Mismatches::argument(const Site& site, NodeId value, Mismatch mismatch, const Type& wanted,
                          std::string_view function, std::string_view parameter,
                          std::string_view unit_text, Span declared) {
    if (mismatch == Mismatch::None || mismatch == Mismatch::Poisoned)
        return;
    const Node& node = sheet_.nodes[value];
    const Code code = mismatch == Mismatch::UnlikeChoices ? Code::U313 : Code::U305;
    if (skip(code, node.span))
        return;
    if (mismatch == Mismatch::UnlikeUnits && !is_literal(value)) {
        const auto missing = divide(Unit{wanted.unit.dim, {}}, Unit{node.type.unit.dim, {}});
        if (missing && blamed(site, missing->dim,
                              WrittenUnits(sheet_, sources_, site.function)
                                  .quotient_text(unit_text, wanted.unit, value)))
            return;
    }
    const std::string given = kind_text(site, value);
    const std::string wanted_text =
        wanted.kind == Type::Kind::Number ? unit_or_plain(unit_text) : type_text(wanted);
    Diagnostic d = problem(code,
                           fmt::format("`{}` takes `{}` in {} but is given {}", function, parameter,
                                       wanted_text, given),
                           node.span, given);
    if (parameter.empty())
        d.title = fmt::format("`{}` takes {} but is given {}", function, wanted_text, given);
    else if (wanted.kind != Type::Kind::Number || wanted_text == plain_number)
        d.title = fmt::format("`{}` takes {} as `{}` but is given {}", function, wanted_text,
                              parameter, given);
    d.others.push_back({declared, "defined here"});
    if (mismatch == Mismatch::UnlikeUnits && may_take_unit(value, wanted)) {
        const std::string text = number_as(value, unit_text);
        d.helps.push_back({fmt::format("write  {}", text), Edit{node.span, text}});
    } else if (mismatch == Mismatch::UnlikeUnits) {
        if (const auto missing = divide(Unit{wanted.unit.dim, {}}, Unit{node.type.unit.dim, {}})) {
            if (const std::string note = apart_note(missing->dim); !note.empty())
                d.notes.push_back(note);
            for (const Mender& other : menders(sheet_, sources_, site, node.span, wanted.unit.dim))
                if (!other.inverse && d.helps.empty())
                    d.helps.push_back({fmt::format("`{}` ({}) is in {}: did you mean it?",
                                                   other.name, other.place, other.unit_text),
                                       std::nullopt});
            if (d.helps.empty())
                d.helps = mend(sheet_, sources_, site, value, missing->dim);
            for (Help& help : d.helps)
                help.edit.reset(); // the argument may as well be another
        }
    }
    add(std::move(d));
}

void Mismatches::part(const Site& site, NodeId value, Mismatch mismatch, const Type& wanted,
                      std::string_view subject, std::string_view unit_text) {
    if (mismatch == Mismatch::None || mismatch == Mismatch::Poisoned)
        return;
    const Node& node = sheet_.nodes[value];
    if (skip(Code::U304, node.span))
        return;
    if (mismatch == Mismatch::UnlikeUnits && site.line != none && blame_.may_lack_unit(site.line) &&
        !is_plain(node.type))
        return unitless({site.line, own_value(sheet_, site.line), node.type, false}, site.line,
                        kind_text(site, value));
    const std::string given = kind_text(site, value);
    const std::string wanted_text =
        wanted.kind == Type::Kind::Number ? unit_or_plain(unit_text) : type_text(wanted);
    Diagnostic d =
        problem(Code::U304, fmt::format("{} is {} but is given {}", subject, wanted_text, given),
                node.span, is_plain(node.type) && is_literal(value) ? "no unit" : given);
    if (wanted.kind == Type::Kind::Number && wanted_text != plain_number)
        d.title = fmt::format("{} is in {} but is given {}", subject, wanted_text, given);
    if (mismatch == Mismatch::UnlikeUnits && may_take_unit(value, wanted)) {
        const std::string text = number_as(value, unit_text);
        d.helps.push_back({fmt::format("write  {}", text), Edit{node.span, text}});
    }
    add(std::move(d));
}

void Mismatches::refusal(const Site& site, NodeId costs) {
    const Span span = sheet_.nodes[costs].span;
    if (skip(Code::U310, span))
        return;
    const std::string text = kind_text(site, costs);
    Diagnostic d =
        problem(Code::U310, fmt::format("what a refusal costs is {}, which is not money", text),
                span, text);
    d.helps.push_back({"write money behind  costs , as in  costs $4,000", std::nullopt});
    diagnostics_.add(std::move(d));
}

void Mismatches::cost(const Cost& cost) {
    const Line& rate = sheet_.lines[cost.rate];
    const Line& quantity = sheet_.lines[cost.quantity];
    const NodeId over = quantity.value;
    if (skip(Code::U310, sheet_.nodes[over].span))
        return;
    Site site;
    site.line = cost.amount;
    const std::string rate_text = rate.unit_text;
    if (cost_blamed(site, rate, over))
        return;
    const std::string over_text = kind_text(site, over);
    Diagnostic d = problem(Code::U310,
                           fmt::format("`{}` is {} over {}, which is not money", rate.name,
                                       unit_or_plain(rate_text), over_text),
                           sheet_.nodes[over].span, over_text);
    d.others.push_back({rate.name_span, fmt::format("declared {}", rate_text)});
    Unit dollar;
    dollar.dim.exponent[Money] = 1;
    if (const auto wanted = divide(dollar, rate.type.unit)) {
        const std::string wanted_text = unit_or_plain(sheet_.units.text(*wanted));
        if (rate.type.unit.dim.exponent[Money] != 1)
            d.notes.push_back("the rate of a cost is money for each unit of its quantity");
        else
            d.notes.push_back(
                fmt::format("a cost in {} needs a quantity in {}", rate_text, wanted_text));
        const std::vector<Mender> found =
            menders(sheet_, sources_, site, sheet_.nodes[over].span, wanted->dim);
        const auto straight = [](const Mender& m) { return !m.inverse; };
        const bool sure = std::count_if(found.begin(), found.end(), straight) == 1;
        for (const Mender& mender : found) {
            if (mender.inverse)
                continue;
            d.helps.push_back(
                {fmt::format("`{}` ({}) is in {}: write  over {}", mender.name, mender.place,
                             mender.unit_text, mender.name),
                 sure ? std::optional(Edit{sheet_.nodes[over].span, mender.name}) : std::nullopt});
            break;
        }
    }
    if (const auto wanted = divide(dollar, rate.type.unit); wanted && d.helps.empty())
        if (const auto missing = divide(*wanted, Unit{sheet_.nodes[over].type.unit.dim, {}});
            missing && rate.type.unit.dim.exponent[Money] == 1)
            for (Help& help : d.helps = mend(sheet_, sources_, site, over, missing->dim))
                if (const std::size_t at = help.text.find("write  "); at != std::string::npos)
                    help.text.insert(at + 7, "over ");
    if (const auto wanted = divide(dollar, sheet_.nodes[over].type.unit);
        wanted && d.helps.empty() && wanted->dim.exponent[Money] == 1)
        d.helps.push_back(
            {fmt::format("declare the rate in {}", sheet_.units.text(*wanted)), std::nullopt});
    add(std::move(d));
}

} // namespace acre::lang
