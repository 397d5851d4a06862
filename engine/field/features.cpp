#include "engine/field/features.h"

#include <algorithm>
#include <charconv>
#include <iterator>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();

// Index of the block; nowhere: no number, or none of that number.
std::size_t numbered(std::string_view feature, std::size_t blocks) {
    const std::size_t number = feature_number(feature);
    return number >= 1 && number <= blocks ? number - 1 : nowhere;
}

lang::Diagnostic no_such_feature(const Boundary& boundary, std::string_view feature,
                                 lang::FileId file) {
    constexpr std::size_t most_listed = 12;
    lang::Diagnostic diagnostic{lang::Code::B902,
                                fmt::format("no feature `{}` in this file", feature),
                                {{file, 0, 1}, ""},
                                {},
                                {},
                                {}};
    std::string names;
    for (std::size_t i = 0; i < std::min(boundary.blocks.size(), most_listed); ++i)
        names += fmt::format("{}`{}`", i == 0 ? "" : ", ",
                             boundary.blocks[i].name.empty() ? fmt::format("{}", i + 1)
                                                             : boundary.blocks[i].name);
    diagnostic.helps.push_back(
        {fmt::format("it has {} by name or number: {}{}", boundary.blocks.size(), names,
                     boundary.blocks.size() > most_listed ? ", …" : ""),
         {}});
    return diagnostic;
}

} // namespace

bool same_letters(std::string_view a, std::string_view b) {
    const auto small = [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    };
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [&](char x, char y) { return small(x) == small(y); });
}

std::size_t feature_number(std::string_view text) {
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc() && end == text.data() + text.size() ? number : 0;
}

bool take_feature(Boundary& boundary, std::string_view feature, lang::FileId file,
                  lang::Diagnostics& diagnostics) {
    std::vector<std::size_t> number_of(boundary.blocks.size(), nowhere);
    std::vector<BoundaryBlock> taken;
    const auto take = [&](std::size_t block) {
        number_of[block] = taken.size();
        taken.push_back(boundary.blocks[block]);
    };
    for (std::size_t i = 0; i < boundary.blocks.size(); ++i)
        if (same_letters(boundary.blocks[i].name, feature))
            take(i);
    if (taken.empty())
        if (const std::size_t block = numbered(feature, boundary.blocks.size()); block != nowhere)
            take(block);
    if (taken.empty()) {
        diagnostics.add(no_such_feature(boundary, feature, file));
        return false;
    }
    std::erase_if(boundary.polygons, [&](const BoundaryPolygon& polygon) {
        return number_of[polygon.block] == nowhere;
    });
    for (BoundaryPolygon& polygon : boundary.polygons)
        polygon.block = static_cast<std::uint32_t>(number_of[polygon.block]);
    boundary.blocks = std::move(taken);
    boundary.name = boundary.blocks.front().name;
    return true;
}

Boundary joined(std::vector<Boundary> boundaries) {
    Boundary all = std::move(boundaries.front());
    for (std::size_t i = 1; i < boundaries.size(); ++i) {
        Boundary& next = boundaries[i];
        for (BoundaryPolygon& polygon : next.polygons) {
            polygon.block += static_cast<std::uint32_t>(all.blocks.size());
            all.polygons.push_back(std::move(polygon));
        }
        std::move(next.blocks.begin(), next.blocks.end(), std::back_inserter(all.blocks));
        std::move(next.marks.begin(), next.marks.end(), std::back_inserter(all.marks));
        for (std::string& repair : next.repairs)
            if (std::find(all.repairs.begin(), all.repairs.end(), repair) == all.repairs.end())
                all.repairs.push_back(std::move(repair));
    }
    return all;
}

std::string block_name(const Boundary& boundary, std::size_t block) {
    if (block < boundary.blocks.size() && !boundary.blocks[block].name.empty())
        return boundary.blocks[block].name;
    return fmt::format("block {}", block + 1);
}

} // namespace acre::engine
