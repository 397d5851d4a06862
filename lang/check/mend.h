// What would mend a formula whose unit is off by a factor: the line of the sheet that is in just
// that unit, or its inverse.
#pragma once

#include <string>
#include <vector>

#include "lang/check/mismatch.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// A line or parameter that has the missing unit.
struct Mender {
    std::string name;        // as it is written at the place
    std::string unit_text;   // its unit
    std::string place;       // "line 9"; empty for a parameter
    bool inverse = false;    // it is to be divided by
    bool other_file = false; // it is a used model's
};

// Those that may stand in the formula at `at` without a loop, best first, three at most.
std::vector<Mender> menders(const Sheet& sheet, const SourceMap& sources, const Site& site, Span at,
                            const Dim& missing);

// Helps that put the first mender into `formula` (a span of the text), and name the others. The
// edit comes along only where the mender is the only one, and stands in the same text: else it is a
// guess.
std::vector<Help> mend(const Sheet& sheet, const SourceMap& sources, const Site& site,
                       NodeId formula, const Dim& missing);

// The text of a formula where it is multiplied or divided, in brackets if it needs them; empty as
// `quotable` is.
std::string factor_text(const SourceMap& sources, const Node& node);

// A text of one line, short enough to stand in a help. Empty when it is not.
std::string quotable(const SourceMap& sources, Span span);

// What `missing` says about bases that are apart on purpose: the year, the day and the shift.
// Empty: nothing.
std::string apart_note(const Dim& missing);
bool is_year_against_hour(const Dim& missing);

} // namespace acre::lang
