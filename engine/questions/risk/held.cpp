#include "engine/questions/risk/held.h"

#include <fmt/format.h>

namespace acre::engine {
namespace {

using lang::none;

bool has_range(const lang::Given& given) {
    return given.swing_low != none;
}

lang::Diagnostic nothing_to_draw(const std::string& name) {
    return lang::placeless(
        lang::Code::Q002,
        fmt::format("`{}` has neither a swing nor a range of choice to be drawn from", name), {},
        {fmt::format("give it one in the job: set {} = VALUE  swing LOW .. HIGH", name)});
}

} // namespace

lang::Outcome<DrawnGivens> DrawnGivens::read(const PricedJob& job, const RiskQuestion& question) {
    const lang::Sheet& sheet = job.sheet();
    DrawnGivens drawn;
    drawn.asked_.assign(sheet.givens.size(), Asked::Nothing);
    for (const auto& [names, asked] :
         {std::pair(&question.hold, Asked::Hold), {&question.free, Asked::Free}})
        for (const std::string& name : *names) {
            const lang::LineId line = sheet.find(name);
            const std::uint32_t given = line == none ? none : sheet.lines[line].given;
            if (given == none) // what find_axis says of such a name
                return std::move(find_axis(job, name).said);
            if (!has_range(sheet.givens[given]))
                return nothing_to_draw(name);
            if (drawn.asked_[given] != Asked::Nothing && drawn.asked_[given] != asked)
                return lang::placeless(lang::Code::Q002,
                                       fmt::format("`{}` cannot be both held and drawn", name));
            drawn.asked_[given] = asked;
        }
    return drawn;
}

bool DrawnGivens::draws(const Axis& axis) const {
    if (!axis.swing || axis.options > 0 || asked_[axis.given] == Asked::Hold)
        return false;
    return !axis.chosen || asked_[axis.given] == Asked::Free;
}

std::vector<Held> DrawnGivens::held(const PricedJob& job, const std::vector<Axis>& axes) const {
    const lang::Sheet& sheet = job.sheet();
    std::vector<char> is_axis(sheet.givens.size(), 0);
    for (const Axis& axis : axes)
        is_axis[axis.given] = 1;
    std::vector<Held> list;
    for (std::uint32_t i = 0; i < sheet.givens.size(); ++i) {
        const lang::Given& given = sheet.givens[i];
        if (!has_range(given))
            continue;
        const std::string& name = sheet.lines[given.line].name;
        if (asked_[i] == Asked::Hold)
            list.push_back({name, HeldReason::Asked});
        else if (given.chosen && asked_[i] != Asked::Free)
            list.push_back({name, HeldReason::Chosen});
        else if (is_axis[i] == 0)
            list.push_back({name, HeldReason::Computed});
    }
    return list;
}

} // namespace acre::engine
