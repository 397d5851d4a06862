#include "engine/faults/unset_givens.h"
#include "engine/job/priced_job.h"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "engine/plan/plan_roots.h"
#include "engine/readers/value.h"
#include "lang/diag/place.h"

namespace acre::engine {

void report_unset_givens(const PricedJob& job, std::span<const char> asked,
                         lang::Diagnostics& diagnostics) {
    const lang::Sheet& sheet = job.sheet();
    std::vector<lang::LineId> lines;
    for (const Origins::Unset& unset : job.compiled().origins.unset) {
        const std::uint32_t given = sheet.lines[unset.line].given;
        // One that is set, and has no value, has an error of its own.
        if (asked[unset.slot] != 0 && (given == lang::none || sheet.givens[given].settings.empty()))
            lines.push_back(unset.line);
    }
    if (lines.empty())
        return;
    std::sort(lines.begin(), lines.end());

    constexpr std::size_t most_shown = 20;
    lang::Diagnostic diagnostic{lang::Code::I603, {}, {}, {}, {}, {}};
    const lang::Line& first = sheet.lines[lines.front()];
    diagnostic.title = lines.size() == 1
                           ? fmt::format("`{}` is required and has no value", first.name)
                           : fmt::format("{} required values are missing", lines.size());
    diagnostic.primary = {first.name_span, "no value"};
    std::string help = lines.size() == 1 ? "set it in the job or the season:"
                                         : "set them in the job or the season:";
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (i == most_shown) {
            diagnostic.notes.push_back(fmt::format("and {} more", lines.size() - most_shown));
            break;
        }
        const lang::Line& line = sheet.lines[lines[i]];
        diagnostic.notes.push_back(fmt::format(
            "`{}`{}{} ({})", line.name, line.unit_text.empty() ? "" : " in " + line.unit_text,
            line.label.empty() ? "" : ", " + line.label,
            lang::spoken_place(job.sources(), line.name_span)));
        if (i < 3)
            help += fmt::format("{} set {} = …", i == 0 ? " " : ",", line.name);
    }
    for (const lang::Diagnostic& other : diagnostics.all()) // the season may have it
        if (other.code == lang::Code::L813)
            diagnostic.helps = other.helps;
    diagnostic.helps.push_back({std::move(help), {}});
    diagnostics.add(std::move(diagnostic));
}

void report_unset(const PricedJob& job, lang::Diagnostics& diagnostics) {
    if (job.compiled().origins.unset.empty())
        return;
    const std::vector<Slot> roots = root_slots(job.sheet(), job.compiled(), {});
    report_unset_givens(job, asked_for(job.plan(), job.values(), roots), diagnostics);
}

bool lacks_values(const PricedJob& job) {
    lang::Diagnostics missing;
    report_unset(job, missing);
    return missing.has_errors();
}

} // namespace acre::engine
