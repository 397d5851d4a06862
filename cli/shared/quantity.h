// A quantity on the command line, as the notation writes it: "7 ft", "1.5 mi/h", "$0.25/gal".
#pragma once

#include <string_view>

#include "lang/diag/outcome.h"

namespace acre::cli {

// The number in `unit_text` ("m", "m/s"). C003 where it is none of that kind, S124 for a bare
// number where a share is wanted; `where` says what was read: "the value of `--price`: ".
lang::Outcome<double> read_quantity(std::string_view text, std::string_view unit_text,
                                    std::string_view where = {});

} // namespace acre::cli
