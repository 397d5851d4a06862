#include "lang/check/sheet.h"

#include <utility>

namespace acre::lang {

LineId Sheet::find(std::string_view name) const {
    return line_names.find(
        name, [this](std::uint32_t id) -> std::string_view { return lines[id].name; });
}

LineId Sheet::add(Line line) {
    const auto id = static_cast<LineId>(lines.size());
    line_names.insert(line.name, id,
                      [this](std::uint32_t i) -> std::string_view { return lines[i].name; });
    lines.push_back(std::move(line));
    return id;
}

} // namespace acre::lang
