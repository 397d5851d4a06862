// A text through the whole pipeline, with its values: what tests of readers start from.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "tests/support/compile_text.h"

namespace acre::tests {

struct Priced {
    Compilation text;
    std::optional<engine::Compiled> compiled; // empty: the diagnostics say why
    engine::Values values;

    const lang::CheckedSheet& checked() const { return *text.sheet; }
    const lang::Sheet& sheet() const { return **text.sheet; }
    lang::LineId line(std::string_view name) const {
        const lang::LineId id = sheet().find(name);
        REQUIRE_MESSAGE(id != lang::none, "no line " << name);
        return id;
    }
    engine::Slot slot(std::string_view name) const { return compiled->plan.line_slot[line(name)]; }
    double value(std::string_view name) const { return values.slot[slot(name)]; }
};

// The text must check; whether it compiles to a plan is for the test to say.
inline Priced priced(const std::string& source, const Choices& choices = {}) {
    Priced out;
    out.text = compile_ok(source, choices);
    out.compiled = engine::compile_plan(*out.text.sheet, *out.text.sources, out.text.diagnostics);
    if (out.compiled)
        out.values = engine::evaluate(out.compiled->plan);
    return out;
}

inline Priced priced_ok(const std::string& source, const Choices& choices = {}) {
    Priced out = priced(source, choices);
    REQUIRE_MESSAGE(out.compiled.has_value(), out.text.rendered());
    return out;
}

} // namespace acre::tests
