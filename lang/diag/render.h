// Diagnostics as people read them: one layout over the data.
//
//   deep-rip.rate, line 14
//   error U301: cannot add $/ac to $/h
//
//     14   total : $/h = fuel_rate + land_charge
//                        ......... ^ ........... $/ac
//                        $/h
//
//     mend: `field_rate` (line 9) is in ac/h: write  land_charge * field_rate
//
// First where, as one would say it, then what, then the place itself with a mark under it: `^`
// where it goes wrong, dots under what it has to do with. Excerpts are cut from the text's own
// bytes; whatever could move a cursor or turn the reading direction is drawn as an escape (see
// safe_text.h).
#pragma once

#include <string>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

struct RenderStyle {
    bool color = false;  // ANSI colors
    unsigned width = 80; // columns; longer source lines are cut to a window around the mark
};

// Ends with a line end.
std::string render(const Diagnostic& diagnostic, const SourceMap& sources, RenderStyle style = {});

// All in their order, a blank line between, and a count at the end. Empty when there is none.
std::string render(const Diagnostics& diagnostics, const SourceMap& sources,
                   RenderStyle style = {});

// For tools that match lines, one line each: `deep-rip.rate:14:27: error: U301 cannot add $/ac to
// $/h`. What stands in no text has no place before `error`.
std::string render_terse(const Diagnostics& diagnostics, const SourceMap& sources);

} // namespace acre::lang
