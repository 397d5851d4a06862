// The givens of a job, for whoever offers them to be changed: what each is, who set it and why, and
// in which range it may move.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/range.h"

namespace acre::engine {

struct GivenRow {
    Subject given;
    std::string part;    // its heading in the model; perhaps none
    double value = 0;    // NaN: none
    std::string text;    // the value as people read it
    std::string written; // the formula of one that this job computes; else empty
    std::string set_by, place, because;
    std::optional<Range> within, swing; // allowed; plausible, or to choose from
    bool chosen = false;                // the latter

    bool may_move() const { return written.empty(); }
};

struct GivensAnswer {
    std::vector<GivenRow> rows; // in the order of the sheet
};

GivensAnswer all_givens(const PricedJob& job);

} // namespace acre::engine
