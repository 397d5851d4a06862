// Whether numbers are places on the globe where a field can be, and which way round a ring runs.
#pragma once

#include <optional>
#include <string>

#include "engine/field/boundary.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/span.h"

namespace acre::engine {

// A fault of a boundary, with a note where there is one.
lang::Diagnostic boundary_fault(lang::Code code, std::string title, lang::Span span,
                                std::string label, std::string note);

// B903: no longitude and latitude in degrees. B906: too close to a pole to be laid out.
std::optional<lang::Diagnostic> fault_of(LonLat at, lang::Span span);
// B906: a ring across the date line.
std::optional<lang::Diagnostic> fault_of(const LonLatRing& ring, lang::Span span);

bool is_counter_clockwise(const LonLatRing& ring);

} // namespace acre::engine
