#include "engine/questions/givens.h"

#include <map>

#include "engine/questions/what_if/axis.h"
#include "engine/words/words.h"

namespace acre::engine {

GivensAnswer all_givens(const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    std::map<lang::LineId, Axis> axes;
    for (const Axis& axis : all_axes(job))
        if (!axis.is_share)
            axes.emplace(axis.line, axis);
    GivensAnswer answer;
    answer.rows.reserve(sheet.givens.size());
    for (const lang::Given& given : sheet.givens) {
        const lang::Line& line = sheet.lines[given.line];
        GivenRow& row = answer.rows.emplace_back();
        row.given = subject_of(job, given.line);
        row.part = line.part == lang::none ? "" : sheet.parts[line.part].title;
        row.value = job.value(given.line);
        row.text = row.given.text(row.value);
        if (!given.settings.empty()) {
            const lang::Setting& setting = given.settings.back();
            row.set_by = layer_text(setting.layer);
            row.place = place_text(job.sources(), setting.span);
            row.because = setting.because;
        }
        const auto axis = axes.find(given.line);
        if (axis != axes.end()) {
            row.within = axis->second.within;
            row.swing = axis->second.swing;
            row.chosen = axis->second.chosen;
        } else if (line.value != lang::none) {
            row.written = formula_text(sheet, job.sources(), given.line);
        }
    }
    return answer;
}

} // namespace acre::engine
