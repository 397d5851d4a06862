// What a formula multiplies and divides by, one by one.
#pragma once

#include <string>
#include <vector>

#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::lang {

struct Factor {
    NodeId node = none;
    bool under = false; // it is divided by
};
std::vector<Factor> factors_of(const Sheet& sheet, NodeId formula);

// A number of the formula that may have lost a part of its unit: as it is written, "900 h", and
// what it would be per one of what is missing, "900 h/yr".
struct ShortNumber {
    Span span;
    std::string written, whole, per; // per: "yr"
};
// None where no number, or more than one of them, may be it.
std::vector<ShortNumber> short_number(const Sheet& sheet, const SourceMap& sources,
                                      const std::vector<Factor>& factors, const Dim& missing);

} // namespace acre::lang
