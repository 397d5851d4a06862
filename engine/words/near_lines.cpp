#include "engine/words/near_lines.h"

#include <algorithm>

#include <fmt/format.h>

#include "lang/diag/described.h"
#include "lang/diag/suggest.h"

namespace acre::engine {

constexpr std::size_t most_said = 8; // lines that an error lists

std::vector<std::string> near_lines(const lang::Sheet& sheet, std::string_view name, Among among) {
    std::vector<std::string_view> names;
    for (const lang::Line& line : sheet.lines)
        if (among == Among::Lines || line.given != lang::none)
            names.push_back(line.name);
    std::vector<std::string> helps;
    for (const std::string_view near : lang::near_names(name, names))
        helps.push_back(fmt::format("did you mean `{}`?", near));
    return helps.empty() ? lines_that_say(sheet, name, among) : helps;
}

std::vector<std::string> lines_that_say(const lang::Sheet& sheet, std::string_view name,
                                        Among among, std::span<const std::string_view> but_for) {
    std::vector<lang::Described> said;
    for (const lang::Line& line : sheet.lines)
        if (line.entry == lang::none && (among == Among::Lines || line.given != lang::none) &&
            std::find(but_for.begin(), but_for.end(), line.name) == but_for.end())
            said.push_back({line.name, line.label});
    std::vector<std::string> helps;
    for (const lang::Described& found : lang::described_by(name, said, most_said))
        helps.push_back(lang::described_help(found));
    return helps;
}

} // namespace acre::engine
