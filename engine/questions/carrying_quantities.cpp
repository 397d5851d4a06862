#include "engine/questions/carrying_quantities.h"
#include "engine/job/priced_job.h"

#include <algorithm>

#include "engine/faults/line_uses.h"

namespace acre::engine {

using lang::LineId;
using lang::none;
using lang::Op;
using lang::Role;

namespace {

// A quantity that only repeats a line, or turns it into another unit, is that line.
LineId behind(const lang::Sheet& sheet, LineId line) {
    lang::NodeId node = sheet.lines[line].value;
    while (node != none && sheet.nodes[node].op == Op::Convert)
        node = sheet.nodes[node].a;
    return node != none && sheet.nodes[node].op == Op::Line ? sheet.nodes[node].index : line;
}

bool is_shown(const lang::Line& line) {
    switch (line.type.kind) {
    case lang::Type::Kind::Choice:
        return true;
    case lang::Type::Kind::Number:
        return line.type.unit.dim.exponent[lang::Base::Money] == 0;
    default:
        return false;
    }
}

// A line of one entry; what counts is its sum.
bool of_an_entry(const lang::Sheet& sheet, LineId line) {
    const std::uint32_t part = sheet.lines[line].part;
    return part != none && sheet.parts[part].each_entry;
}

} // namespace

std::vector<LineId> carrying_quantities(const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    std::vector<LineId> lines;
    const auto add_quantity = [&](LineId quantity) {
        if (quantity == none)
            return;
        const LineId line = behind(sheet, quantity);
        // `over 1` and the like say nothing by themselves; what they are made of may.
        const bool says = line != quantity || !uses_of(job, sheet.lines[line].value).lines.empty();
        if (says && is_shown(sheet.lines[line]))
            lines.push_back(line);
        if (sheet.lines[line].given != none && sheet.lines[line].value == none)
            return;
        for (const LineId used : uses_of(job, sheet.lines[line].value).lines)
            if (!sheet.lines[used].label.empty() && is_shown(sheet.lines[used]) &&
                !of_an_entry(sheet, used))
                lines.push_back(used);
    };
    for (const lang::PriceItem& item : sheet.prices)
        add_quantity(item.quantity);
    for (const lang::Cost& cost : sheet.costs)
        add_quantity(cost.quantity);
    // What else the job's own model works out for the whole job: acres an hour, gallons an acre,
    // shifts, the day it is done.
    for (LineId id = 0; id < sheet.lines.size(); ++id) {
        const lang::Line& line = sheet.lines[id];
        const bool own =
            line.part != none && sheet.parts[line.part].instance.empty() && !of_an_entry(sheet, id);
        if (own && line.role == Role::Line && !line.label.empty() && is_shown(line))
            lines.push_back(id);
    }
    std::sort(lines.begin(), lines.end());
    lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
    return lines;
}

} // namespace acre::engine
