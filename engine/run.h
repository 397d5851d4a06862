// One job from its texts to its numbers: every stage in order, for whoever brings a loader.
#pragma once

#include <optional>

#include "engine/faults/faults.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/compile.h"
#include "lang/diag/diagnostic.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::engine {

struct Run {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    std::optional<lang::CheckedSheet> sheet;
    std::optional<Compiled> compiled;
    Values values;
};

// False when a stage failed; the diagnostics say why. Values are not judged yet: see report_faults
// and estimate.
bool run(const lang::Request& request, lang::Loader& loader, Run& result);

} // namespace acre::engine
