// Texts to a sheet with all names resolved, before any unit is checked; and formulas of a sheet
// written back, so that a test can say in one line what a name or a price step came to.
#pragma once

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lang/check/operations.h"
#include "lang/load_program.h"
#include "tests/support/compile_text.h"

namespace acre::tests {

using OpName = std::pair<lang::Op, const char*>;
inline constexpr OpName infix_names[] = {
    {lang::Op::Add, "+"},        {lang::Op::Subtract, "-"},  {lang::Op::Multiply, "*"},
    {lang::Op::Divide, "/"},     {lang::Op::Power, "^"},     {lang::Op::Less, "<"},
    {lang::Op::LessEqual, "<="}, {lang::Op::Greater, ">"},   {lang::Op::GreaterEqual, ">="},
    {lang::Op::Equal, "=="},     {lang::Op::NotEqual, "!="}, {lang::Op::And, "and"},
    {lang::Op::Or, "or"},
};
inline constexpr OpName call_names[] = {
    {lang::Op::When, "when"},   {lang::Op::Min, "min"},     {lang::Op::Max, "max"},
    {lang::Op::Abs, "abs"},     {lang::Op::Sqrt, "sqrt"},   {lang::Op::Exp, "exp"},
    {lang::Op::Log, "log"},     {lang::Op::Sin, "sin"},     {lang::Op::Cos, "cos"},
    {lang::Op::Tan, "tan"},     {lang::Op::Atan, "atan"},   {lang::Op::Ceil, "ceil"},
    {lang::Op::Floor, "floor"}, {lang::Op::Round, "round"}, {lang::Op::Sum, "sum"},
    {lang::Op::Most, "most"},   {lang::Op::Least, "least"}, {lang::Op::Convert, "convert"},
};

inline const char* name_in(std::span<const OpName> names, lang::Op op) {
    for (const OpName& name : names)
        if (name.first == op)
            return name.second;
    return nullptr;
}

inline std::string written(const lang::Sheet& sheet, lang::NodeId id) {
    using lang::Op;
    if (id == lang::none)
        return "nothing";
    const lang::Node& node = sheet.nodes[id];
    std::vector<std::string> parts;
    for (const lang::NodeId part : {node.a, node.b, node.c})
        if (part != lang::none)
            parts.push_back(written(sheet, part));
    for (std::uint32_t i = 0; i < node.arg_count; ++i)
        parts.push_back(written(sheet, sheet.args[node.first_arg + i]));
    const auto call = [&](std::string_view name) {
        return fmt::format("{}({})", name, fmt::join(parts, ", "));
    };
    if (const char* name = name_in(infix_names, node.op))
        return fmt::format("({} {} {})", parts[0], name, parts[1]);
    if (const char* name = name_in(call_names, node.op))
        return call(name);
    switch (node.op) {
    case Op::Number:
        return fmt::format("{}", node.number);
    case Op::Choice:
        return sheet.choices[node.type.choice].options[node.index];
    case Op::Line:
        return sheet.lines[node.index].name;
    case Op::Parameter:
        return fmt::format("parameter{}", node.index);
    case Op::Local:
        return fmt::format("local{}", node.index);
    case Op::Negate:
        return "-" + parts[0];
    case Op::Not:
        return "not " + parts[0];
    case Op::Table:
        return call(sheet.tables[node.index].name);
    case Op::Define:
        return call(sheet.functions[node.index].name);
    case Op::Missing:
        return "missing";
    default:
        return "?";
    }
}

struct Resolved {
    std::unique_ptr<lang::SourceMap> sources = std::make_unique<lang::SourceMap>();
    lang::Diagnostics diagnostics;
    lang::Sheet sheet;

    std::string rendered() const { return lang::render(diagnostics, *sources); }
    std::string formula(std::string_view name) const {
        const lang::LineId line = sheet.find(name);
        return line == lang::none ? fmt::format("no line {}", name)
                                  : written(sheet, sheet.lines[line].value);
    }
    const lang::Line& line(std::string_view name) const {
        const lang::LineId id = sheet.find(name);
        REQUIRE_MESSAGE(id != lang::none, "no line " << name);
        return sheet.lines[id];
    }
    const lang::Given& given(std::string_view name) const { return sheet.givens[line(name).given]; }
    // The codes reported, in the order of the text: "N201 N204".
    std::string codes() const {
        std::string out;
        for (const lang::Diagnostic& d : diagnostics.all())
            out += (out.empty() ? "" : " ") + std::string(lang::name_of(d.code));
        return out;
    }
};

inline Resolved resolve_text(const std::string& text, const Choices& choices = {}) {
    Resolved out;
    MemoryLoader loader(choices.files);
    if (const auto program =
            lang::load_program(request_of(text, choices), loader, *out.sources, out.diagnostics))
        out.sheet = lang::resolve(*program, *out.sources, out.diagnostics);
    out.diagnostics.sort();
    return out;
}

inline Resolved resolve_ok(const std::string& text, const Choices& choices = {}) {
    Resolved out = resolve_text(text, choices);
    REQUIRE_MESSAGE(!out.diagnostics.has_errors(), out.rendered());
    return out;
}

} // namespace acre::tests
