// Everything that is wrong with a text, or doubtful: what `check` and an editor show.
#pragma once

#include "lang/compile.h"
#include "lang/diag/outcome.h"
#include "lang/loader.h"

namespace acre::engine {

// Reads a model, a season or a job as far as it goes and judges what comes out. A job must have all
// its values; a model or a season by itself may leave open what a job would set. Sorted by place.
lang::Said check(lang::Request request, lang::Loader& loader);

} // namespace acre::engine
