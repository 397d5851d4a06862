// The value of one line of a text, through the whole pipeline.
#pragma once

#include <string>
#include <string_view>

#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "tests/support/compile_text.h"

namespace acre::tests {

// In the unit the line declares; NaN where the line has no answer. Fails the test when the text
// does not compile.
inline double value_of(const std::string& text, std::string_view line,
                       const Choices& choices = {}) {
    Compilation c = compile_ok(text, choices);
    const std::optional<engine::Compiled> compiled =
        engine::compile_plan(*c.sheet, *c.sources, c.diagnostics);
    REQUIRE_MESSAGE(compiled.has_value(), c.rendered());
    const lang::LineId id = (*c.sheet)->find(line);
    REQUIRE_MESSAGE(id != lang::none, "no line " << line);
    const engine::Slot slot = compiled->plan.line_slot[id];
    REQUIRE_MESSAGE(slot != engine::no_slot, line << " has no value");
    return engine::evaluate(compiled->plan).slot[slot];
}

} // namespace acre::tests
