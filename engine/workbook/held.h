// What a sheet can only hold: values of native functions, and what a boundary was laid out to. Each
// knows the cells it rests on, so that it can say when it is stale.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/workbook/plan_formulas.h"

namespace acre::engine {

struct HeldValue {
    Slot slot = no_slot;            // of the native call, or of the given
    lang::LineId line = lang::none; // the given that a boundary set; none: a native function
    std::string what;               // "shank_draft of north.one_shank"
    std::vector<Slot> rests_on;     // constants are left out
    std::uint32_t row = 0;          // on the sheet of held values
};

// Slots that a sheet can only hold, before there are rows: `HeldValue::slot` of all of them.
std::vector<Slot> held_slots(const PricedJob& job);
// The lines that the boundary of a given's block was laid out by; empty: no boundary set the given.
std::vector<Slot> layout_of(const PricedJob& job, const lang::Given& given);

std::vector<HeldValue> held_values(const PricedJob& job);

} // namespace acre::engine
