// The codes of diagnostics. One row each in codes.def; a code is never used for anything else
// again.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace acre::lang {

enum class Severity : std::uint8_t;

enum class Code : std::uint16_t {
#define ACRE_CODE(id, severity, summary) id,
#include "lang/diag/codes.def"
#undef ACRE_CODE
};

// What a warning may bend.
enum class Touches : std::uint8_t {
    Text, // nothing but the model's own tidiness: `check` tells it
    Risk, // what risk and sensitivity make of the job
    Price,
};

Severity severity_of(Code code);
Touches touched_by(Code code);          // of an error: Price
std::string_view name_of(Code code);    // "U301"
std::string_view summary_of(Code code); // one line, for the list of codes
std::size_t code_count();               // codes are 0 … code_count() - 1

} // namespace acre::lang
