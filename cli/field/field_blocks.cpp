// The blocks of a field as text for a job file.
#include <algorithm>
#include <iterator>
#include <set>
#include <string_view>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "engine/field/boundary_reference.h"
#include "lang/syntax/tidy.h"
#include "lang/syntax/words.h"

namespace acre::cli {
namespace {

bool is_small(char c) {
    return c >= 'a' && c <= 'z';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Letters, digits and what figures and units are written with: such a text cannot end its line.
bool is_plain(std::string_view text, std::string_view more) {
    return !text.empty() && text.size() <= 60 &&
           std::all_of(
               text.begin(), text.end(),
               [&](char c) {
                   return is_small(c) || is_digit(c) || (c >= 'A' && c <= 'Z') ||
                          more.find(c) != std::string_view::npos;
               });
}
bool is_taken_by_notation(std::string_view name) {
    return lang::is_reserved(lang::keyword_of(name));
}
bool is_name(std::string_view text) {
    return !text.empty() && text.size() <= 60 && is_small(text.front()) &&
           !is_taken_by_notation(text) &&
           std::all_of(
               text.begin(), text.end(),
               [](char c) { return is_small(c) || is_digit(c) || c == '_' || c == '.'; });
}

// A name of the notation from words; each once.
std::string name_of(std::string_view words, std::set<std::string>& taken) {
    std::string name;
    for (const char c : words) {
        const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        if (is_small(small) || is_digit(small))
            name += small;
        else if (!name.empty() && name.back() != '_')
            name += '_';
        if (name.size() == 40)
            break;
    }
    while (!name.empty() && name.back() == '_')
        name.pop_back();
    if (name.empty() || !is_small(name.front()) || is_taken_by_notation(name))
        name = "block_" + name;
    std::string unique = name;
    for (int i = 2; !taken.insert(unique).second; ++i)
        unique = fmt::format("{}_{}", name, i);
    return unique;
}

// Inside quotes.
std::string words_of(std::string_view text) {
    std::string out;
    for (const char c : text)
        out += c == '"' || c == '\\' || static_cast<unsigned char>(c) < ' ' ? ' ' : c;
    return out;
}

// What the feature says of its ground, where it is a name and a value of the notation.
void properties(const std::vector<engine::BoundaryProperty>& all, std::string_view file,
                std::set<std::string>& set, std::string& out) {
    for (const engine::BoundaryProperty& property : all)
        if (is_name(property.name) && property.name != "soil" &&
            is_plain(property.value, " .,%$/^-_") && set.insert(property.name).second)
            fmt::format_to(std::back_inserter(out), "  set {} = {}  because \"{}\"\n",
                           property.name, property.value, words_of(file));
}

// What the text is written to, and how files are named from there.
struct Target {
    std::string_view folder; // with its slash; empty: the working folder
    std::string map;         // of soils
    std::set<std::string> taken;
    std::string out;

    std::string from_here(std::string_view file) const {
        return words_of(file.starts_with(folder) ? file.substr(folder.size()) : file);
    }
    void open(const std::string& label) {
        fmt::format_to(std::back_inserter(out), "block {} \"{}\"\n", name_of(label, taken),
                       words_of(label));
    }
};

// Always with the feature: the file may have more than were laid out.
std::string reference(const Target& to, const engine::FieldBlock& block) {
    return fmt::format("{}#{}", to.from_here(block.file), block.number);
}

void whole_block(const engine::FieldAnswer& field, const engine::FieldBlock& block, Target& to) {
    to.open(block.name);
    fmt::format_to(std::back_inserter(to.out), "  field \"{}\" heading {:.3f} deg\n",
                   reference(to, block), field.heading);
    std::set<std::string> set;
    properties(block.properties, to.from_here(block.file), set, to.out);
}

// A soil by its name, or by the number of its feature where the name cannot stand in quotes.
std::string soil_reference(const Target& to, const engine::FieldSoil& soil) {
    const bool plain = !soil.soil.empty() && words_of(soil.soil) == soil.soil;
    return to.map + "#" + (plain ? soil.soil : fmt::format("{}", soil.feature));
}

// Ground that the map does not have cannot be named by it: its acres and the length of its pulls.
// Their distance and number are left to the model, for they go by the spacing and pattern of the
// job.
void share_of(const engine::FieldAnswer& field, const engine::FieldSoil& soil, Target& to) {
    const engine::FieldBlock& block = field.blocks[soil.block];
    const std::string because =
        fmt::format("because \"laid out from {}, heading {:.1f} deg, outside {}\"",
                    to.from_here(block.file), field.heading, to.map);
    fmt::format_to(std::back_inserter(to.out),
                   "  set gross = {:.4f} ac  {}\n  set area = {:.4f} ac  {}\n"
                   "  set run = {:.1f} ft  {}\n",
                   soil.ground, because, soil.net, because, block.mean, because);
}

// Each soil is a block of its own, with its share of the block's layout.
void soil_block(const engine::FieldAnswer& field, const engine::FieldSoil& soil, Target& to) {
    const engine::FieldBlock& block = field.blocks[soil.block];
    const std::string ground = soil.feature == 0   ? "no soil on the map"
                               : soil.soil.empty() ? fmt::format("soil {}", soil.feature)
                                                   : soil.soil;
    to.open(block.name + ", " + ground);
    if (soil.feature == 0)
        share_of(field, soil, to);
    else
        fmt::format_to(std::back_inserter(to.out),
                       "  field \"{}\" within \"{}\" heading {:.3f} deg\n", reference(to, block),
                       soil_reference(to, soil), field.heading);
    std::set<std::string> set = {"area", "travel", "pulls", "run", "gross"};
    properties(soil.properties, to.map, set, to.out);
    properties(block.properties, to.from_here(block.file), set, to.out);
}

std::string tidied(std::string values) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const lang::FileId file = sources.add("blocks", values);
    return lang::tidy(sources, file, lang::FileKind::Values, diagnostics)
        .value_or(std::move(values));
}

} // namespace

std::string field_blocks(const engine::FieldAnswer& field, std::string_view map,
                         std::string_view file) {
    Target to;
    to.folder = file.substr(0, file.find_last_of('/') + 1);
    to.map = to.from_here(engine::split_reference(map).file);
    const bool values = file.ends_with(".values");
    if (values)
        to.out = fmt::format("values \"Blocks of {}\"\n\n", to.from_here(field.called()));
    if (field.soils.empty()) {
        for (const engine::FieldBlock& block : field.blocks)
            if (block.pulls > 0)
                whole_block(field, block, to);
    } else {
        for (const engine::FieldSoil& soil : field.soils)
            if (soil.net > 0)
                soil_block(field, soil, to);
    }
    return values ? tidied(std::move(to.out)) : std::move(to.out);
}

} // namespace acre::cli
