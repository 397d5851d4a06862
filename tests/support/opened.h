// A text, compiled and evaluated, for tests of what is asked of a job.
#pragma once

#include <optional>
#include <string>

#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "tests/support/compile_text.h"

namespace acre::tests {

struct Opened {
    Compilation compilation;
    engine::Compiled compiled;
    engine::Values values;

    const lang::Sheet& sheet() const { return **compilation.sheet; }
    engine::Slot slot(std::string_view line) const {
        return compiled.plan.line_slot[sheet().find(line)];
    }
    double value(std::string_view line) const { return values.slot[slot(line)]; }
};

// Fails the test when the text does not compile.
inline Opened open_text(const std::string& text, const Choices& choices = {}) {
    Opened opened{compile_ok(text, choices), {}, {}};
    auto compiled = engine::compile_plan(*opened.compilation.sheet, *opened.compilation.sources,
                                         opened.compilation.diagnostics);
    REQUIRE_MESSAGE(compiled.has_value(), opened.compilation.rendered());
    opened.compiled = std::move(*compiled);
    opened.values = engine::evaluate(opened.compiled.plan);
    return opened;
}

} // namespace acre::tests
