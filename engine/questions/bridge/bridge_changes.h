// What is not the same on the two sides of a bridge: givens one by one, models and library as
// wholes.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/bridge/bridge.h"

namespace acre::engine {

struct GivenValue {
    std::string text; // what `set` takes; empty: the model computes it
    std::string shown;
    double value = 0;
    bool is_input = false, is_choice = false;
    std::string label, because;
};
using GivenValues = std::map<std::string, GivenValue>; // by name

// Which input of the plan a line is, for lines that are one.
std::map<lang::LineId, std::uint32_t> inputs_by_line(const Plan& plan);

// The givens of a job that has values; one without an answer is left out.
GivenValues givens_of(const PricedJob& job);

struct Change {
    BridgeKind kind = BridgeKind::Given;
    std::string name;
    const GivenValue* before = nullptr;
    const GivenValue* after = nullptr;
    bool structural = false; // another plan, not another value
};

// Changes point into `before` and `after`, the givens of the two jobs.
std::vector<Change> changes_between(const PricedJob& job_before, const PricedJob& job_after,
                                    const GivenValues& before, const GivenValues& after);

} // namespace acre::engine
