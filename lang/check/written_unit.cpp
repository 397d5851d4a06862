#include "lang/check/written_unit.h"

#include <algorithm>
#include <cstdlib>

#include "lang/check/operations.h"
#include "lang/units/clock.h"

namespace acre::lang {
namespace {

constexpr int deepest = 60; // a formula deeper than this gets a unit of usual names

// min/h, ft/in: names of one dimension on both sides say nothing about the kind. Percent says
// nothing either.
UnitTerms simplified(UnitTerms terms, const UnitCatalog& units) {
    const auto dim_of = [&](const UnitTerm& term) {
        const Unit* const unit = units.find(term.name);
        return unit == nullptr ? Dim{} : unit->dim;
    };
    for (std::size_t i = 0; i < terms.count; ++i) {
        UnitTerm& a = terms.terms[i];
        if (dim_of(a).is_plain())
            a.exponent = 0;
        for (std::size_t j = i + 1; j < terms.count; ++j) {
            UnitTerm& b = terms.terms[j];
            if (a.exponent * b.exponent >= 0 || dim_of(a) != dim_of(b))
                continue;
            const int shared = std::min(std::abs(a.exponent), std::abs(b.exponent));
            a.exponent += a.exponent > 0 ? -shared : shared;
            b.exponent += b.exponent > 0 ? -shared : shared;
        }
    }
    return terms;
}

std::optional<Dim> dim_of(const UnitTerms& terms, const UnitCatalog& units) {
    std::optional<Unit> out = one;
    for (const UnitTerm& term : terms) {
        const Unit* const unit = units.find(term.name);
        if (unit == nullptr)
            return std::nullopt;
        const auto raised = power(Unit{unit->dim, {}}, term.exponent);
        out = raised ? multiply(*out, *raised) : std::nullopt;
        if (!out)
            return std::nullopt;
    }
    return out->dim;
}

} // namespace

std::string WrittenUnits::to_text_of(const std::optional<UnitTerms>& terms,
                                     const Unit& unit) const {
    if (terms) {
        const bool percent = terms->count == 1 && terms->terms[0].name == "%";
        const UnitTerms shown = percent ? *terms : simplified(*terms, sheet_.units);
        if (dim_of(shown, sheet_.units) == unit.dim)
            return to_text(shown);
    }
    return sheet_.units.text(unit);
}

std::string WrittenUnits::text(NodeId node) {
    const Type& type = sheet_.nodes[node].type;
    return type.kind == Type::Kind::Number ? to_text_of(terms(node), type.unit) : std::string();
}

NamedUnit WrittenUnits::named(NodeId node, const Unit& unit) {
    const auto written = terms(node);
    if (unit.is_plain()) // a share of a share is one
        return written && written->count == 1 && written->terms[0].name == "%"
                   ? NamedUnit{"%", *sheet_.units.find("%")}
                   : NamedUnit{"1", one};
    if (written) {
        std::string text = sheet_.units.in_own_money(
            with_usual_spelling(to_text(simplified(*written, sheet_.units))));
        UnitError error;
        if (const auto read = read_unit(text, sheet_.units, error);
            read && read->dim == unit.dim && !hides_ratio(sheet_, text))
            return {std::move(text), *read};
    }
    return named_unit(sheet_.units, unit);
}

std::string WrittenUnits::quotient(const std::optional<UnitTerms>& above, const Unit& unit,
                                   NodeId b) {
    const auto below = terms(b);
    const auto missing = divide(Unit{unit.dim, {}}, Unit{sheet_.nodes[b].type.unit.dim, {}});
    if (!missing)
        return "1";
    if (above && below)
        if (const std::string text = to_text_of(combine(*above, *below, -1), *missing);
            !hides_ratio(sheet_, text))
            return text;
    return sheet_.units.usual_text(missing->dim);
}

std::string WrittenUnits::quotient_text(NodeId a, NodeId b) {
    return quotient(terms(a), sheet_.nodes[a].type.unit, b);
}

std::string WrittenUnits::quotient_text(std::string_view unit_text, const Unit& unit, NodeId b) {
    return quotient(read(unit_text), unit, b);
}

std::optional<UnitTerms> WrittenUnits::read(std::string_view text) const {
    UnitError error;
    const auto terms = read_terms(text, error);
    return terms ? combine(*terms, {}, 1) : std::nullopt; // each name once
}

// "$4.35/gal" is a sign, digits and the rest; "18 %" digits and the unit.
std::optional<UnitTerms> WrittenUnits::of_number(const Node& node) {
    const std::string_view text = sources_.text(node.span);
    if (const std::size_t colon = text.find(':'); colon == 1 || colon == 2) // 17:30
        return read(clock_unit);
    const std::size_t sign = money_sign_size(text);
    std::size_t at = sign;
    while (
        at < text.size() &&
        (std::string_view("0123456789.,").find(text[at]) != std::string_view::npos ||
         ((text[at] == '-' || text[at] == '+') && (text[at - 1] == 'e' || text[at - 1] == 'E')) ||
         ((text[at] == 'e' || text[at] == 'E') && at + 1 < text.size() &&
          std::string_view("0123456789+-").find(text[at + 1]) != std::string_view::npos)))
        ++at;
    const std::size_t unit = std::min(text.find_first_not_of(" \t", at), text.size());
    std::string whole(text.substr(0, sign));
    kept_.push_back(whole.append(text.substr(unit)));
    return kept_.back().empty() ? UnitTerms{} : read(kept_.back());
}

std::optional<UnitTerms> WrittenUnits::terms(NodeId node, int depth) {
    return depth < deepest ? terms_of(sheet_.nodes[node], depth + 1) : std::nullopt;
}

std::optional<UnitTerms> WrittenUnits::terms_of(const Node& node, int depth) {
    switch (node.op) {
    case Op::Number:
        return of_number(node);
    case Op::Line: {
        const Line* line = &sheet_.lines[node.index];
        // The quantity of a cost has no unit text: that of the line it is said over, if it is one
        // line.
        if (line->unit_text.empty() && line->value != none &&
            sheet_.nodes[line->value].op == Op::Line)
            line = &sheet_.lines[sheet_.nodes[line->value].index];
        return line->unit_text.empty() ? std::nullopt : read(line->unit_text);
    }
    case Op::Parameter:
        return function_ == nullptr ? std::nullopt : read(function_->parameter_texts[node.index]);
    case Op::Table:
        return read(sheet_.tables[node.index].result_text);
    case Op::Define:
        return read(sheet_.functions[node.index].type_text);
    case Op::Convert:
        return terms(node.a, depth);
    case Op::When:
        return terms(node.b, depth);
    default:
        return terms_of_operation(node, depth);
    }
}

// Hours between two clock times; a clock time with hours before it or behind.
std::optional<UnitTerms> WrittenUnits::terms_of_clock(const Node& node, int depth) {
    if (node.op != Op::Add && node.op != Op::Subtract)
        return std::nullopt;
    const auto is_clock = [&](NodeId side) {
        const auto of = terms(side, depth);
        return of && of->count == 1 && of->terms[0].name == clock_unit;
    };
    const bool b = is_clock(node.b);
    return b ? read(node.op == Op::Subtract && is_clock(node.a) ? "h" : clock_unit) : std::nullopt;
}

std::optional<UnitTerms> WrittenUnits::terms_of_operation(const Node& node, int depth) {
    switch (row_of(node.op).units) {
    case UnitRule::Product:
    case UnitRule::Quotient: {
        const auto a = terms(node.a, depth);
        const auto b = terms(node.b, depth);
        const int sign = row_of(node.op).units == UnitRule::Product ? 1 : -1;
        return a && b ? combine(*a, *b, sign) : std::nullopt;
    }
    case UnitRule::Power: {
        const auto a = terms(node.a, depth);
        if (!a)
            return std::nullopt;
        if (a->count == 0)
            return a;
        UnitTerms out = *a;
        const double exponent =
            sheet_.nodes[node.b].op == Op::Number ? sheet_.nodes[node.b].number : 0;
        for (std::size_t i = 0; i < out.count; ++i)
            out.terms[i].exponent *= static_cast<int>(exponent);
        return out;
    }
    case UnitRule::Alike:
        if (const auto clock = terms_of_clock(node, depth))
            return clock;
        [[fallthrough]];
    case UnitRule::Same:
    case UnitRule::Steps:
        return terms(node.arg_count > 0 ? sheet_.args[node.first_arg] : node.a, depth);
    default:
        return std::nullopt;
    }
}

namespace {

// The bases that stand both above and below in one text, in names of one base each: the ratios of
// hp and psi are no secret.
std::array<bool, max_bases> hidden_ratios(const Sheet& sheet, std::string_view text) {
    std::array<bool, max_bases> above{};
    std::array<bool, max_bases> below{};
    UnitError error;
    const auto terms = read_terms(text, error);
    if (!terms)
        return above;
    for (const UnitTerm& term : *terms) {
        const Unit* const unit = sheet.units.find(term.name);
        if (unit == nullptr ||
            std::count(unit->dim.exponent.begin(), unit->dim.exponent.end(), 0) + 1 != max_bases)
            continue;
        for (std::size_t i = 0; i < max_bases; ++i) {
            above[i] = above[i] || unit->dim.exponent[i] * term.exponent > 0;
            below[i] = below[i] || unit->dim.exponent[i] * term.exponent < 0;
        }
    }
    for (std::size_t i = 0; i < max_bases; ++i)
        above[i] = above[i] && below[i];
    return above;
}

} // namespace

bool hides_ratio(const Sheet& sheet, std::string_view unit_text) {
    return hidden_ratios(sheet, unit_text) != std::array<bool, max_bases>{};
}

bool nothing_in_common(const Sheet& sheet, std::string_view a, std::string_view b) {
    return hidden_ratios(sheet, a) != hidden_ratios(sheet, b);
}

} // namespace acre::lang
