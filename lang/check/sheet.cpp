#include "lang/check/sheet.h"

#include <utility>

namespace acre::lang {

LineId Sheet::find(std::string_view name) const {
    return line_names.find(name, [this](std::uint32_t id) -> std::string_view { return lines[id].name; });
}

bool Sheet::add(Line line, LineId& id) {
    id = static_cast<LineId>(lines.size());
    const LineId there = line_names.insert(line.name, id, [this](std::uint32_t i) -> std::string_view { return lines[i].name; });
    if (there != NameTable::absent) {
        id = there;
        return false;
    }
    lines.push_back(std::move(line));
    return true;
}

} // namespace acre::lang
