// The blocks of a field as text for a job file.
#include <algorithm>
#include <iterator>
#include <set>
#include <string_view>

#include <fmt/format.h>

#include "cli/field/report.h"

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
bool is_name(std::string_view text) {
    return !text.empty() && text.size() <= 60 && is_small(text.front()) &&
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
    if (name.empty() || !is_small(name.front()))
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

std::string reference(const engine::FieldBlock& block, std::size_t blocks) {
    if (blocks == 1)
        return words_of(block.file);
    return words_of(block.file) + "#" + fmt::format("{}", block.number);
}

void whole_block(const engine::FieldAnswer& field, const engine::FieldBlock& block,
                 std::set<std::string>& taken, std::string& out) {
    fmt::format_to(std::back_inserter(out), "block {} \"{}\"\n", name_of(block.name, taken),
                   words_of(block.name));
    fmt::format_to(std::back_inserter(out), "  field \"{}\" heading {:.3f} deg\n",
                   reference(block, field.blocks.size()), field.heading);
    std::set<std::string> set;
    properties(block.properties, block.file, set, out);
}

// Each soil is a block of its own, with its share of the block's layout.
void soil_block(const engine::FieldAnswer& field, const engine::FieldSoil& soil,
                std::string_view map, std::set<std::string>& taken, std::string& out) {
    const engine::FieldBlock& block = field.blocks[soil.block];
    const std::string name =
        block.name + ", " + (soil.soil.empty() ? "no soil on the map" : soil.soil);
    fmt::format_to(std::back_inserter(out), "block {} \"{}\"\n", name_of(name, taken),
                   words_of(name));
    const std::string because =
        fmt::format("because \"laid out from {}, heading {:.1f} deg, over {}\"",
                    words_of(block.file), field.heading, words_of(map));
    std::set<std::string> set = {"area", "travel", "pulls", "run", "gross"};
    fmt::format_to(std::back_inserter(out), "  set area = {:.4f} ac  {}\n", soil.net, because);
    fmt::format_to(std::back_inserter(out), "  set travel = {:.4f} mi  {}\n", soil.travel, because);
    fmt::format_to(std::back_inserter(out), "  set pulls = {:.2f}  {}\n", soil.pulls, because);
    fmt::format_to(std::back_inserter(out), "  set run = {:.1f} ft  {}\n", block.mean, because);
    properties(soil.properties, map, set, out);
    properties(block.properties, block.file, set, out);
}

} // namespace

std::string field_blocks(const engine::FieldAnswer& field, std::string_view map) {
    std::string out;
    std::set<std::string> taken;
    if (field.soils.empty()) {
        for (const engine::FieldBlock& block : field.blocks)
            if (block.pulls > 0)
                whole_block(field, block, taken, out);
    } else {
        for (const engine::FieldSoil& soil : field.soils)
            if (soil.net > 0)
                soil_block(field, soil, map, taken, out);
    }
    return out;
}

} // namespace acre::cli
