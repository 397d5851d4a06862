// The shanks of many calls side by side: what of their arguments has an answer, what their angles
// come to, and the search for those whose ground has one pattern together.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "engine/native/draft_search.h"

namespace acre::engine::shank {

// No angle that turns the wedge over, nothing negative that cannot be.
bool has_answer(std::span<const double> args);

// rows: room for `lanes` each. NaN in all of them where there is no answer.
void drafts(std::span<const NativeColumn> args, std::size_t lanes, std::uint32_t bits,
            const LeastRows& rows);

} // namespace acre::engine::shank
