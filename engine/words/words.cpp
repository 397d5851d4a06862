#include "engine/words/words.h"

#include <cmath>

#include <fmt/format.h>

#include "lang/units/named_unit.h"
#include "lang/units/number_text.h"

namespace acre::engine {

std::string place_text(const lang::SourceMap& sources, lang::Span span) {
    const lang::SourceFile& file = sources.file(span.file);
    return fmt::format("{}:{}", file.name(), file.position(span.begin).line);
}

std::string_view layer_text(lang::Layer layer) {
    switch (layer) {
    case lang::Layer::Model:
        return "model";
    case lang::Layer::Binding:
        return "use";
    case lang::Layer::Season:
        return "season";
    case lang::Layer::Values:
        return "values";
    case lang::Layer::Job:
        return "job";
    case lang::Layer::Field:
        return "field";
    case lang::Layer::Entry:
        return "entry";
    case lang::Layer::Option:
        return "option";
    case lang::Layer::CommandLine:
        return "command line";
    }
    return "";
}

std::string unit_text(const lang::Sheet& sheet, const lang::Line& line) {
    if (!line.unit_text.empty() || line.type.kind != lang::Type::Kind::Number)
        return line.unit_text;
    return sheet.units.text(line.type.unit);
}

std::string unit_of_node(const lang::Sheet& sheet, lang::NodeId id) {
    const lang::Node& node = sheet.nodes[id];
    if (node.op == lang::Op::Line)
        return unit_text(sheet, sheet.lines[node.index]);
    return node.type.kind == lang::Type::Kind::Number
               ? lang::named_unit(sheet.units, node.type.unit).text
               : std::string();
}

std::string choice_text(const lang::Sheet& sheet, const lang::Type& type, double value) {
    if (type.kind != lang::Type::Kind::Choice || !(value >= 0))
        return {};
    const auto& options = sheet.choices[type.choice].options;
    const auto index = static_cast<std::size_t>(value);
    return index < options.size() ? options[index] : std::string();
}

namespace {

std::string text_of(const lang::Sheet& sheet, const lang::Type& type, const std::string& unit,
                    double value) {
    switch (type.kind) {
    case lang::Type::Kind::Choice:
        return std::isnan(value) ? "no answer" : choice_text(sheet, type, value);
    case lang::Type::Kind::Truth:
        return std::isnan(value) ? "no answer" : value != 0 ? "yes" : "no";
    default:
        return lang::quantity_text(value, unit);
    }
}

} // namespace

std::string value_text(const lang::Sheet& sheet, lang::LineId id, double value) {
    const lang::Line& line = sheet.lines[id];
    return text_of(sheet, line.type, unit_text(sheet, line), value);
}

std::string value_of_node(const lang::Sheet& sheet, lang::NodeId id, double value) {
    const lang::Node& node = sheet.nodes[id];
    if (node.op == lang::Op::Line)
        return value_text(sheet, node.index, value);
    if (node.type.kind != lang::Type::Kind::Number)
        return text_of(sheet, node.type, {}, value);
    const lang::NamedUnit shown = lang::named_unit(sheet.units, node.type.unit);
    return lang::quantity_text(lang::conversion(node.type.unit, shown.unit).apply(value),
                               shown.text);
}

std::string source_text(const lang::SourceMap& sources, lang::Span span) {
    return folded(sources.text(span));
}

std::string folded(std::string_view text) {
    std::string out;
    bool comment = false;
    bool quoted = false;
    bool gap = false;
    for (const char c : text) {
        if (c == '\n' || c == '\r')
            comment = quoted = false;
        if (c == '"')
            quoted = !quoted;
        if (c == '#' && !quoted)
            comment = true;
        if (comment || c == ' ' || c == '\t' || c == '\n' || c == '\r') {
            gap = true;
            continue;
        }
        if (gap && !out.empty())
            out += ' ';
        gap = false;
        out += c;
    }
    return out;
}

} // namespace acre::engine
