#include "engine/questions/work_limit.h"

#include <fmt/format.h>

#include "lang/diag/outcome.h"
#include "lang/units/number_text.h"

namespace acre::engine {

std::optional<lang::Diagnostic> beyond_effort(std::string_view question, double effort,
                                              std::uint64_t limit) {
    if (effort <= static_cast<double>(limit))
        return std::nullopt;
    return lang::placeless(
        lang::Code::Q004,
        fmt::format("{} takes {} steps of calculation, more than the limit of {}", question,
                    lang::number_text(effort), lang::number_text(static_cast<double>(limit))));
}

} // namespace acre::engine
