// Unlike units whose fault is another line's: that line is told, with its mend.
#include "lang/check/mismatch.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "lang/check/mend.h"
#include "lang/check/resolve/report.h"
#include "lang/check/written_unit.h"
#include "lang/diag/place.h"

namespace acre::lang {

using resolving::problem;

namespace {

// Of the units that the sheet's lines name for this kind, the largest; else the field's usual one.
std::string unit_of_the_model(const Sheet& sheet, const Dim& dim, const std::string& written) {
    const Line* best = nullptr;
    for (const Line& line : sheet.lines) {
        if (line.unit_text.empty() || line.type.kind != Type::Kind::Number ||
            line.type.unit.dim != dim || hides_ratio(sheet, line.unit_text))
            continue;
        if (line.unit_text == written)
            return written;
        if (best == nullptr || conversion(line.type.unit, best->type.unit).apply(1) > 1)
            best = &line;
    }
    return best != nullptr ? best->unit_text : sheet.units.usual_text(dim);
}

// A speed that is missing beside feet is one in ft/h, and nobody's speed.
bool is_nobodys_speed(const Sheet& sheet, std::string_view unit, const Dim& dim) {
    Dim speed;
    speed.exponent[Length] = 1;
    speed.exponent[Time] = -1;
    return dim == speed && std::none_of(sheet.lines.begin(), sheet.lines.end(),
                                        [&](const Line& line) { return line.unit_text == unit; });
}

// The unit behind the colon of a line: `NAME : UNIT`.
std::optional<Span> declared_unit(const SourceMap& sources, const Line& line) {
    const std::string_view text = sources.file(line.name_span.file).text();
    std::size_t at = text.find_first_not_of(" \t", line.name_span.end);
    if (at == std::string_view::npos || text[at] != ':')
        return std::nullopt;
    at = text.find_first_not_of(" \t\r\n", at + 1);
    const std::size_t end = text.find_first_of(" \t\r\n=#", at);
    if (end == std::string_view::npos || end == at)
        return std::nullopt;
    return Span{line.name_span.file, static_cast<std::uint32_t>(at),
                static_cast<std::uint32_t>(end)};
}

} // namespace

bool Mismatches::misdeclared(const Site& site, NodeId value, Code code, std::string_view subject,
                             std::string_view unit_text) {
    const std::optional<Type> meant = blame_.misdeclared(site.line);
    if (!meant)
        return false;
    const Line& line = sheet_.lines[site.line];
    const std::optional<Span> span = declared_unit(sources_, line);
    if (!span)
        return false;
    const std::string given = kind_text(site, value);
    const std::string unit =
        is_literal(value) ? given : unit_of_the_model(sheet_, meant->unit.dim, given);
    Diagnostic d = problem(code,
                           fmt::format("{} is declared {} but {} {}", subject, unit_text,
                                       is_literal(value) ? "is given" : "its formula gives", unit),
                           *span, fmt::format("declared {}", unit_text));
    d.others.push_back({sheet_.nodes[value].span, unit});
    d.notes.push_back(fmt::format("what uses {} needs it in {} too", subject, unit));
    d.helps.push_back(
        {fmt::format("write  {} : {}", sources_.text(line.name_span), unit), Edit{*span, unit}});
    add(std::move(d));
    return true;
}

bool Mismatches::blamed(const Site& site, const Dim& missing, const std::string& missing_text) {
    if (site.line == none || diagnostics_.full())
        return false;
    if (blame_.only_follows(site.line))
        return true;
    const std::optional<Blame::Unitless> fault = blame_.unitless(site.line, missing);
    if (!fault)
        return false;
    unitless(*fault, blame_.whole_of(site.line), missing_text);
    return true;
}

void Mismatches::unitless(const Blame::Unitless& fault, LineId line,
                          const std::string& missing_text) {
    const Line& given = sheet_.lines[fault.given];
    const Node& value = sheet_.nodes[fault.value];
    UnitError error;
    const auto of_missing = read_terms(missing_text, error);
    const std::string own = given.type.unit == one ? "1" : sheet_.units.money();
    const auto of_given = read_terms(own, error);
    const auto terms = of_missing && of_given
                           ? combine(*of_given, *of_missing, fault.inverse ? -1 : 1)
                           : std::nullopt;
    std::string unit = terms ? to_text(*terms) : std::string();
    const Given& ranges = sheet_.givens[given.given];
    const auto says_unit = [&](NodeId bound) {
        return bound != none && sheet_.nodes[bound].type.kind == Type::Kind::Number &&
               sheet_.nodes[bound].type.unit.dim == fault.type.unit.dim;
    };
    if (says_unit(ranges.within_low)) // as its range says it
        unit = kind_text({}, ranges.within_low);
    else if (says_unit(ranges.swing_low) && !ranges.of_it)
        unit = kind_text({}, ranges.swing_low);
    else if (unit.empty() || unit == "1" || hides_ratio(sheet_, unit))
        unit = sheet_.units.usual_text(fault.type.unit.dim);
    else if (is_nobodys_speed(sheet_, unit, fault.type.unit.dim))
        unit = "mi/h";
    const std::string name(sources_.text(given.name_span));
    const bool by_range = line == fault.given;
    Diagnostic d = problem(
        Code::U304,
        fmt::format(
            "`{}` is given {} but {} in {}", name, own == "1" ? "without a unit" : "in " + own,
            by_range ? "its range is" : fmt::format("`{}` needs it", sheet_.lines[line].name),
            unit),
        value.span, own == "1" ? "no unit" : "no `/`");
    if (!by_range)
        d.others.push_back({sheet_.lines[line].name_span, "needs it here"});
    const std::string text = number_as(fault.value, unit);
    d.helps.push_back({fmt::format("write  {}", text), Edit{value.span, text}});
    add(std::move(d));
}

// `sin(3)` and `sin(tilt)` with `given tilt = 3`: the number takes the unit.
Help Mismatches::angle_help(std::string_view function, NodeId value,
                            const std::string& text) const {
    const Node& node = sheet_.nodes[value];
    const NodeId number = node.op == Op::Line ? own_value(sheet_, node.index) : value;
    if (number == none || !is_literal(number))
        return {fmt::format("if it is in degrees, write  {}(({}) * 1 deg)", function, text), {}};
    const std::string with = number_as(number, "deg");
    const Span span = sheet_.nodes[number].span;
    if (number == value)
        return {fmt::format("write  {}({})", function, with), Edit{span, with}};
    return {fmt::format("where `{}` is given, write  {}", text, with), {}};
}

bool Mismatches::sides_blamed(const Site& site, NodeId a, NodeId b) {
    const Unit left{sheet_.nodes[a].type.unit.dim, {}};
    const auto missing = divide(left, Unit{sheet_.nodes[b].type.unit.dim, {}});
    return missing && !is_literal(a) && !is_literal(b) &&
           blamed(site, missing->dim,
                  WrittenUnits(sheet_, sources_, site.function).quotient_text(a, b));
}

bool Mismatches::cost_blamed(const Site& site, const Line& rate, NodeId over) {
    Unit dollar;
    dollar.dim.exponent[Money] = 1;
    const auto wanted = divide(dollar, rate.type.unit);
    const auto missing =
        wanted ? divide(Unit{wanted->dim, {}}, Unit{sheet_.nodes[over].type.unit.dim, {}})
               : std::nullopt;
    return missing && blamed(site, missing->dim,
                             WrittenUnits(sheet_, sources_, nullptr)
                                 .quotient_text(sheet_.units.text(*wanted), *wanted, over));
}

} // namespace acre::lang
