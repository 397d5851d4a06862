// Whether the season in force is the one that a job means.
#pragma once

#include "lang/check/resolve.h"
#include "lang/diag/diagnostic.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// L812 L830 L840 of the season that the job asks for and has. `asked`: the path in its `season`
// line.
void judge_season(const Program& program, const ast::Text& asked, Loader& loader,
                  const SourceMap& sources, Diagnostics& diagnostics);

// L813: seasons are there, and the job takes none: the model's own values are in force.
void judge_no_season(const ast::Module& job, Loader& loader, const SourceMap& sources,
                     Diagnostics& diagnostics);

} // namespace acre::lang
