// The value of one line of a text, through the whole pipeline.
#pragma once

#include <string>
#include <string_view>

#include "tests/support/priced.h"

namespace acre::tests {

// In the unit the line declares; NaN where the line has no answer. Fails the test when the text
// does not compile.
inline double value_of(const std::string& text, std::string_view line,
                       const Choices& choices = {}) {
    const Priced p = priced_ok(text, choices);
    REQUIRE_MESSAGE(p.slot(line) != engine::no_slot, line << " has no value");
    return p.value(line);
}

} // namespace acre::tests
