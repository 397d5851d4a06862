// The givens, and the lines between, that led to a slot: what a fault tells so that somebody can
// mend it.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::engine {

class FaultTrail {
  public:
    FaultTrail(const PricedJob& job, std::span<const char> asked_lines);

    // One note a line: the lines met on the way from `from` down to the givens, nearest first,
    // through the branches taken. Where a product is zero only its zero sides are followed. Looks
    // no further than a few thousand operations. Not for several threads.
    std::vector<std::string> notes(std::span<const Slot> from) const;

    // "`speed` is 0 mi/h, set by the job (block-12.job, line 4) because \"wet\""; for a line its
    // formula and place.
    std::string describe(lang::LineId line) const;
    // "set by the job"
    static std::string set_by(lang::Layer layer);

  private:
    const lang::Sheet& sheet_;
    const Compiled& compiled_;
    const Values& values_;
    const lang::SourceMap& sources_;
    std::vector<lang::LineId> line_of_slot_; // none where a slot is no line's value
    // By slot: the last call of notes() that met it. Kept between calls, or thousands of faults
    // would clear it thousands of times.
    mutable std::vector<std::uint32_t> met_by_;
    mutable std::uint32_t call_ = 0;
};

} // namespace acre::engine
