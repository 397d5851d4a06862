#include "engine/plan/effort.h"

#include <fmt/format.h>

#include "lang/units/number_text.h"

namespace acre::engine {

bool affordable(std::string_view question, double effort, Refusal& refusal, std::uint64_t limit) {
    if (effort <= static_cast<double>(limit))
        return true;
    refusal = {fmt::format("{} takes {} steps of calculation, more than the limit of {}", question,
                           lang::number_text(effort),
                           lang::number_text(static_cast<double>(limit))),
               {}};
    return false;
}

} // namespace acre::engine
