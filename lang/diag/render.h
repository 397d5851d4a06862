// Diagnostics as people read them: one layout over the data.
//
//   error[U301]: cannot add $/ac to $/h
//     --> deep-rip.rate:14:27
//      |
//   14 | total : $/h = fuel_rate + land_charge
//      |               --------- ^ ----------- $/ac
//      |               $/h
//      |
//      = help: `field_rate` (line 9) is in ac/h: write  land_charge * field_rate
//
// The first two lines keep their form, so that editors can match them. Excerpts are cut from the
// text's own bytes; whatever could move a cursor or turn the reading direction is drawn as an
// escape (see safe_text.h).
#pragma once

#include <string>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

struct RenderStyle {
    bool colour = false;  // ANSI colours
    unsigned width = 100; // columns; longer source lines are cut to a window around the caret
};

// Ends with a line end.
std::string render(const Diagnostic& diagnostic, const SourceMap& sources, RenderStyle style = {});

// All in their order, a blank line between, and a count at the end. Empty when there is none.
std::string render(const Diagnostics& diagnostics, const SourceMap& sources,
                   RenderStyle style = {});

} // namespace acre::lang
