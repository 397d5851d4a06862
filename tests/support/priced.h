// A text through the whole pipeline, with its values: what tests of readers and questions start
// from.
#pragma once

#include <string>
#include <string_view>

#include "engine/driver.h"
#include "tests/support/compile_text.h"

namespace acre::tests {

struct Priced {
    lang::Outcome<engine::Job> made;

    const engine::PricedJob& job() const { return **made; }
    operator const engine::PricedJob&() const { return **made; }
    const engine::Plan& plan() const { return job().plan(); }
    const engine::Compiled& compiled() const { return job().compiled(); }
    const engine::Values& values() const { return job().values(); }
    const lang::Sheet& sheet() const { return job().sheet(); }
    const lang::SourceMap& sources() const { return *made.said.sources; }
    lang::LineId line(std::string_view name) const {
        const lang::LineId id = sheet().find(name);
        REQUIRE_MESSAGE(id != lang::none, "no line " << name);
        return id;
    }
    engine::Slot slot(std::string_view name) const { return plan().line_slot[line(name)]; }
    double value(std::string_view name) const { return values().slot[slot(name)]; }
    std::string rendered() const { return lang::render(made.said.diagnostics, sources()); }
    const lang::Diagnostic* find(lang::Code code) const {
        for (const lang::Diagnostic& d : made.said.diagnostics.all())
            if (d.code == code)
                return &d;
        return nullptr;
    }
};

// Whether there is a job is for the test to say.
inline Priced priced(const std::string& source, const Choices& choices = {}) {
    MemoryLoader loader(choices.files);
    return {engine::make_job(request_of(source, choices), loader)};
}

inline Priced priced_ok(const std::string& source, const Choices& choices = {}) {
    Priced out = priced(source, choices);
    REQUIRE_MESSAGE(out.made.value.has_value(), out.rendered());
    return out;
}

// The first thing that was said of an answer, or of why there is none.
inline std::string title_of(const lang::Said& said) {
    return said.diagnostics.all().empty() ? "" : said.diagnostics.all().front().title;
}

} // namespace acre::tests
