#include "engine/questions/one_money.h"

#include <fmt/format.h>

namespace acre::engine {

std::optional<lang::Diagnostic> in_other_money(const lang::Currency& first, const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    if (sheet.firm.money == first)
        return std::nullopt;
    const std::string& title = sheet.job.title.empty() ? sheet.job.model_title : sheet.job.title;
    return lang::placeless(lang::Code::U314,
                           fmt::format("\"{}\" is in {}, rounded to {:g}; the first is in {}, "
                                       "rounded to {:g}",
                                       title, sheet.firm.money.code,
                                       static_cast<double>(sheet.firm.money.step) / 100, first.code,
                                       static_cast<double>(first.step) / 100),
                           {"nothing is converted, so the two cannot stand side by side"});
}

} // namespace acre::engine
