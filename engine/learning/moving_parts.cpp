#include "engine/learning/moving_parts.h"

#include <algorithm>
#include <map>

#include "engine/words/words.h"

namespace acre::engine {

std::string season_name(const lang::Sheet& sheet, lang::LineId line) {
    std::string name = sheet.lines[line].name;
    if (const std::uint32_t id = sheet.lines[line].entry; id != lang::none) {
        const std::string entry = sheet.entries[id].name + ".";
        if (const std::size_t at = name.find(entry); at != std::string::npos)
            name.erase(at, entry.size());
    }
    return name;
}

namespace {

bool is_seasons(const lang::Sheet& sheet, const Axis& axis) {
    const lang::Given& given = sheet.givens[axis.given];
    return !axis.is_share && !given.settings.empty() &&
           given.settings.back().layer <= lang::Layer::Season && !given.settings.back().within;
}

bool alike(const Axis& a, const Axis& b) {
    return a.value == b.value && a.swing->low == b.swing->low && a.swing->high == b.swing->high;
}

} // namespace

std::vector<MovingPart> moving_parts(const PricedJob& job, Assumptions& assumptions) {
    const lang::Sheet& sheet = job.sheet();
    std::vector<MovingPart> parts;
    std::map<std::string, std::vector<std::size_t>> by_name;
    for (const Axis& axis : all_axes(job)) {
        if (!axis.swing || axis.chosen || axis.options > 0 || swing_trouble(job, axis))
            continue;
        by_name[season_name(sheet, axis.line)].push_back(parts.size());
        parts.push_back({axis, shape_of(axis), no_assumption});
    }
    for (const auto& [name, members] : by_name) {
        const Axis& first = parts[members.front()].axis;
        if (!std::all_of(members.begin(), members.end(), [&](std::size_t i) {
                return is_seasons(sheet, parts[i].axis) && alike(parts[i].axis, first);
            }))
            continue;
        const lang::Line& line = sheet.lines[first.line];
        const std::size_t assumption = assumptions.take(
            {name, line.label, unit_text(sheet, line), first.value, *first.swing, {}});
        for (const std::size_t i : members)
            parts[i].assumption = assumption;
    }
    return parts;
}

} // namespace acre::engine
