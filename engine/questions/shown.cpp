#include "engine/questions/shown.h"

#include <algorithm>
#include <cmath>

#include "engine/words/choice_label.h"
#include "engine/words/words.h"
#include "lang/check/inner_lines.h"

namespace acre::engine {
namespace {

std::string label_of(const lang::Sheet& sheet, const lang::Line& line) {
    std::string label = line.label;
    if (label.empty()) { // what people would read of its name
        const std::size_t dot = line.name.rfind('.');
        label = line.name.substr(dot == std::string::npos ? 0 : dot + 1);
        std::replace(label.begin(), label.end(), '_', ' ');
    }
    if (line.entry == lang::none)
        return label;
    const lang::Entry& entry = sheet.entries[line.entry];
    return (entry.label.empty() ? entry.name : entry.label) + ": " + label;
}

} // namespace

ShownAnswer ask(const PricedJob& job, const ShownQuestion& /*question*/) {
    const lang::Sheet& sheet = job.sheet();
    const std::vector<bool> priced = lang::price_lines(sheet);
    ShownAnswer answer;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
        const lang::Line& line = sheet.lines[id];
        const double value = job.value(id);
        const bool none_of_it = line.type.kind == lang::Type::Kind::Number && value == 0;
        if (!line.shown || priced[id] || none_of_it || !std::isfinite(value))
            continue;
        const std::string chosen = choice_text(sheet, line.type, value);
        answer.figures.push_back(
            {line.name, label_of(sheet, line),
             chosen.empty() ? value_text(sheet, id, value) : choice_label(chosen)});
    }
    return answer;
}

} // namespace acre::engine
